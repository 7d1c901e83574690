import { closedInStates, powerFactorOf, vaPerAmp, type Converter, type Draw } from "./element.ts";
import { mayWork } from "./gives-in.ts";
import { inLines } from "./line-devices.ts";
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
  const links = new Map<string, { to: string; part: string; closedIn: readonly string[] | undefined }[]>();
  const link = (a: string, b: string, part: string, closedIn?: readonly string[]): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = links.get(from);
      if (list === undefined) links.set(from, [{ to, part, closedIn }]);
      else list.push({ to, part, closedIn });
    }
  };
  for (const circuit of system.circuits) {
    if (circuit.current !== "AC") continue;
    for (const c of circuit.conductors) if (c.role === "live") link(c.from, c.to, "");
  }
  const isInLine = inLines(system.circuits);
  const alternating = new Set(system.parts.filter((p) => p.current === "AC").map((p) => p.id));
  for (const e of system.elements) {
    if (e.is === "join" && alternating.has(e.part)) link(e.a, e.b, e.part);
    if (e.is === "contact" && (alternating.has(e.part) || isInLine(e))) link(e.a, e.b, e.part, closedInStates(e));
  }
  const first = new Map(system.parts.map((p) => [p.id, p.positions[0]]));

  const may = mayWork(system);
  return (state) => {
    const watts = new Map<string, number>();
    for (const inverter of inverters) {
      // Fed from shore it passes that on; its loads are no longer the bank's.
      if (state.shore && inverter.passesFrom !== undefined && links.has(inverter.passesFrom)) continue;
      if (!may(inverter, state)) continue;
      const queue = [...(inverter.outLines ?? [inverter.outPlus])];
      const seen = new Set(queue);
      let asked = 0;
      let connected = state.on.includes(inverter.part);
      for (let i = 0; i < queue.length; i++) {
        const at = queue[i] ?? "";
        for (const draw of loads.get(at) ?? []) {
          connected = true;
          if (draw.alwaysOn || state.on.includes(draw.part)) {
            asked += (draw.levels[0]?.amps.high ?? 0) * vaPerAmp(draw) * powerFactorOf(draw);
          }
        }
        for (const { to, part, closedIn } of links.get(at) ?? []) {
          if (seen.has(to)) continue;
          const position = state.positions[part] ?? first.get(part);
          if (closedIn !== undefined && (position === undefined || !closedIn.includes(position))) continue;
          seen.add(to);
          queue.push(to);
        }
      }
      if (connected) watts.set(inverter.id, asked);
    }
    return watts;
  };
}
