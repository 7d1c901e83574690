import type { Build, CircuitView } from "./build.ts";
import type { Needed } from "./finding.ts";
import { needed } from "./report.ts";

/** Air that the volts on a solar module's label are stated at, °C: standard test conditions. */
const LABEL_C = 25;
/** How much more than on its label a module of silicon may give at −40 °C: the largest factor of NEC table 690.7(A), from memory. */
const COLDEST = 1.25;

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
  const { lowestAmbient } = build.system;
  const coefficient = feed.voltsPerKelvin;
  if (coefficient !== undefined && lowestAmbient !== undefined && lowestAmbient !== "unknown") {
    const cold = LABEL_C - lowestAmbient.low;
    const volts = feed.volts.high * (1 + Math.max(0, -coefficient.low * cold));
    return { volts: { low: volts, high: volts }, needs: [] };
  }
  return {
    volts: { low: feed.volts.high, high: COLDEST * feed.volts.high },
    needs: [
      ...(coefficient === undefined ? [needed(`how the volts of ${view.id} change with cold`, view.subject)] : []),
      ...(lowestAmbient === undefined || lowestAmbient === "unknown"
        ? [needed("the lowest temperature", "climate")]
        : []),
    ],
  };
}
