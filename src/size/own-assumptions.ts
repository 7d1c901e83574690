import { steadyShareOf } from "./alternating-place.ts";
import { STEADY_SHARE } from "../protect/index.ts";
import type { Runs } from "../route/index.ts";
import type { Assumption } from "../system/index.ts";
import { CHARGING_DROP } from "./charging.ts";
import { JOINT_OHMS } from "./model.ts";
import type { Settled } from "./settled.ts";

/** The defaults that sizing itself used, with the circuits that they were used for. */
export function ownAssumptions({ model, devices }: Settled, runs: Runs): Assumption[] {
  const idsOf = (uses: (position: number) => boolean): string[] =>
    model.circuits.flatMap((c, i) => (uses(i) ? [c.circuit.id] : []));
  const runOf = (i: number) => runs.runs[model.circuits[i]?.index ?? -1];
  const all: Assumption[] = [
    {
      id: "engine-space-air",
      says: "air in an engine space that states none is at 50 °C, or at the plan's ambient where that is hotter",
      trust: "derived",
      pin: "zones: ambient",
      about: idsOf((i) => runOf(i)?.stretches.some((s) => s.engineSpace && !s.ambientStated) === true),
    },
    {
      id: "bundle-own",
      says: "no other loaded conductors lie with a circuit's own",
      trust: "practice",
      pin: "bundle",
      about: idsOf((i) => model.circuits[i]?.circuit.bundle === "own" && model.circuits[i]?.rungs !== null),
    },
    {
      id: "joint-resistance",
      says: `each joint ${Number((JOINT_OHMS * 1000).toFixed(3))} mΩ`,
      trust: "practice",
      pin: "",
      about: idsOf((i) => (model.circuits[i]?.edges.length ?? 0) > 0),
    },
    {
      id: "device-load",
      says: `a device is loaded for hours with ${100 * STEADY_SHARE} % of its rating at most`,
      trust: "practice",
      pin: "fuse",
      about: idsOf((i) => {
        const c = model.circuits[i];
        return (
          c !== undefined && steadyShareOf(c) < 1 && devices.circuits[i]?.devices.some((d) => d.given === null) === true
        );
      }),
    },
    {
      id: "charging-drop",
      says: `a charging circuit loses ${100 * CHARGING_DROP} % of its volts at most`,
      trust: "practice",
      pin: "drop",
      about: idsOf((i) => {
        const c = model.circuits[i];
        return c?.charging !== undefined && c.charging !== null && c.circuit.dropLimit === undefined;
      }),
    },
  ];
  return all.filter(({ about }) => about.length > 0);
}
