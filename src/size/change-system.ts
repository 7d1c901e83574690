import { routeRuns } from "../route/index.ts";
import { exactly, type Draw, type InternalElement, type System, type SystemCircuit } from "../system/index.ts";
import { freed } from "./freed.ts";
import { settle } from "./settle.ts";
import type { Settled } from "./settled.ts";

/** The build with one circuit changed. */
export const withCircuit = (system: System, index: number, change: Partial<SystemCircuit>): System => ({
  ...system,
  circuits: system.circuits.map((c, i) => (i === index ? { ...c, ...change } : c)),
});

/** The build with a circuit of another length, its conductors in proportion. */
export function withLength(system: System, index: number, metres: number): System {
  const circuit = system.circuits[index];
  const now = circuit?.length.high ?? 0;
  if (circuit === undefined || !(now > 0)) return system;
  return withCircuit(system, index, {
    length: exactly(metres, "given"),
    conductors: circuit.conductors.map((c) => ({ ...c, length: exactly((c.length.high / now) * metres, "given") })),
  });
}

/** The build with a circuit whose size is to be chosen. */
export function withoutSize(system: System, index: number): System {
  return { ...system, circuits: system.circuits.map((c, i) => (i === index ? freed(c) : c)) };
}

/** The build with some draws changed. */
export const withDraws = (system: System, change: (draw: Draw) => Draw): System => ({
  ...system,
  elements: system.elements.map((e): InternalElement => (e.is === "draw" ? change(e) : e)),
});

/** The build with one level of one load at another current. */
export const withLevel = (system: System, draw: Draw, name: string, amps: number): System =>
  withDraws(system, (e) =>
    e.id === draw.id
      ? { ...e, levels: e.levels.map((l) => (l.name === name ? { ...l, amps: exactly(amps, "given") } : l)) }
      : e,
  );

/** The build with every battery at another lowest charge, in the states as well that say what it is; a share. */
export const withLowestCharge = (system: System, share: number): System => ({
  ...system,
  elements: system.elements.map((e) => (e.is === "store" ? { ...e, lowestCharge: exactly(share, "given") } : e)),
  states: system.states.map((s) => ({
    ...s,
    charge: Object.fromEntries(
      Object.entries(s.charge).map(([id, v]) => [id, v.low < share ? exactly(share, "given") : v]),
    ),
  })),
});

/** Settles a build that was changed. */
export const settleChanged = (system: System): Settled => settle(system, routeRuns(system).value);

/** Label of the size that a circuit has; null: nothing on sale is enough, or nothing can be told. */
export function sizeOf(settled: Settled, index: number): string | null {
  const i = settled.model.at[index] ?? -1;
  const rungs = settled.model.circuits[i]?.rungs;
  if (rungs === undefined || rungs === null || settled.chosen.short[i] === 1) return null;
  return rungs.ladder.makes[settled.chosen.rungs[i] ?? 0]?.size.label ?? null;
}
