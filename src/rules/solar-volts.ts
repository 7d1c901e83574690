import { coldVolts } from "../system/index.ts";
import type { Build, CircuitView } from "./build.ts";
import type { Needed } from "./finding.ts";
import { needed } from "./report.ts";

/** Greatest volts of the modules at the start of a circuit, from the least to the most that they may be, and what keeps the two apart. */
export interface SolarVolts {
  readonly volts: { readonly low: number; readonly high: number };
  readonly needs: readonly Needed[];
}

/** Open-circuit volts of the modules that a circuit starts at, in the cold. */
export function solarVolts(build: Build, { circuit }: CircuitView): SolarVolts | null {
  const view = build.part(circuit.from.part);
  if (view?.part.traits.solar !== true) return null;
  const feed = view.elements.find((e) => e.is === "feed");
  if (feed === undefined) return null;
  const { low, high, lacks } = coldVolts(feed, build.system.lowestAmbient);
  return {
    volts: { low, high },
    needs: lacks.map((lack) =>
      lack === "volts per kelvin"
        ? needed(`how the volts of ${view.id} change with cold`, view.subject)
        : needed("the lowest temperature", "climate"),
    ),
  };
}
