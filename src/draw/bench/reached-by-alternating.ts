import {
  closedInStates,
  givesIn,
  inLines,
  mayWork,
  suppliedIn,
  type GivenState,
  type System,
} from "../../system/index.ts";

/**
 * Terminals that alternating current reaches in a state: from where it enters while shore or a generator is there, and from inverters that run.
 *
 * Follows live conductors and closed contacts; asks no volts and no amps.
 *
 * @param positionOf how a part with several positions stands
 * @param runs whether a part with an inverter in it takes current
 */
export function reachedByAlternating(
  system: System,
  state: GivenState,
  positionOf: (part: string) => string | null,
  runs: (part: string) => boolean,
): ReadonlySet<string> {
  const links = new Map<string, string[]>();
  const link = (a: string, b: string): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      // prettier-ignore
      const list = links.get(from);
      if (list === undefined) links.set(from, [to]);
      else list.push(to);
    }
  };
  const alternating = new Set(system.parts.filter(({ current }) => current === "AC").map(({ id }) => id));
  const entering = new Set(
    system.parts.filter(({ id, traits }) => traits.enters === true && givesIn(state, id, system)).map(({ id }) => id),
  );
  const queue: string[] = [];
  const isInLine = inLines(system.circuits);
  const may = mayWork(system);
  const isSupplied = suppliedIn(system)(state);
  for (const circuit of system.circuits) {
    if (circuit.current !== "AC") continue;
    for (const { role, from, to } of circuit.conductors) {
      if (role !== "live") continue;
      link(from, to);
      if (entering.has(circuit.from.part)) queue.push(from);
      if (entering.has(circuit.to.part)) queue.push(to);
    }
  }
  for (const e of system.elements) {
    if (e.is === "converter" && e.outCurrent === "AC") {
      const lines = e.outLines ?? [e.outPlus];
      const isPassing = e.passesFrom !== undefined && isSupplied(e.passesFrom);
      if (!may(e, state) && !isPassing) continue;
      if (e.passesFrom !== undefined && isPassing) for (const line of lines) link(e.passesFrom, line);
      else if (e.inCurrent === "DC" && (runs(e.part) || state.on.includes(e.part))) queue.push(...lines);
    }
    if (!alternating.has(e.part) && !(e.is === "contact" && isInLine(e))) continue;
    if (e.is === "join") link(e.a, e.b);
    if (e.is !== "contact") continue;
    const position = positionOf(e.part);
    const closedIn = closedInStates(e);
    if (closedIn === undefined || (position !== null && closedIn.includes(position))) link(e.a, e.b);
  }
  const reached = new Set(queue);
  for (const at of queue) {
    for (const to of links.get(at) ?? []) {
      if (reached.has(to)) continue;
      reached.add(to);
      queue.push(to);
    }
  }
  return reached;
}
