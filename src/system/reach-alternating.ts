import { alternatingPaths, suppliedIn } from "./alternating-paths.ts";
import { powerFactorOf, vaPerAmp, type Converter, type Draw } from "./element.ts";
import { mayWork } from "./gives-in.ts";
import type { GivenState, System } from "./system.ts";

/** Watts that alternating-current loads ask of each maker of alternating current in a state; absent: nothing is connected to it. */
export type AlternatingWatts = ReadonlyMap<string, number>;

/**
 * Follows the live conductors from the output of each inverter to the loads that a closed path reaches, and adds up those that are on.
 *
 * A balance of watts, at the power factor that a load states, else at 1; no alternating-current study.
 */
export function reachAlternating(system: System): (state: GivenState) => AlternatingWatts {
  const inverters = system.elements.filter(
    (e): e is Converter => e.is === "converter" && e.inCurrent === "DC" && e.outCurrent === "AC",
  );
  if (inverters.length === 0) return () => new Map();
  const loads = new Map<string, Draw[]>();
  for (const e of system.elements) {
    if (e.is === "draw" && e.current === "AC") loads.set(e.plus, [...(loads.get(e.plus) ?? []), e]);
  }
  const paths = alternatingPaths(system);
  const supplied = suppliedIn(system, paths);
  const may = mayWork(system);
  return (state) => {
    const watts = new Map<string, number>();
    const isSupplied = supplied(state);
    for (const inverter of inverters) {
      // What comes in from outside it passes on; its loads are no longer the bank's.
      if (inverter.passesFrom !== undefined && paths.has(inverter.passesFrom) && isSupplied(inverter.passesFrom))
        continue;
      if (!may(inverter, state)) continue;
      let asked = 0;
      let connected = state.on.includes(inverter.part);
      for (const at of paths.walk(inverter.outLines ?? [inverter.outPlus], state)) {
        for (const draw of loads.get(at) ?? []) {
          connected = true;
          if (draw.alwaysOn || state.on.includes(draw.part)) {
            asked += (draw.levels[0]?.amps.high ?? 0) * vaPerAmp(draw) * powerFactorOf(draw);
          }
        }
      }
      if (connected) watts.set(inverter.id, asked);
    }
    return watts;
  };
}
