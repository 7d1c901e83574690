import { alternatingPaths, givesIn, mayWork, suppliedIn, type GivenState, type System } from "../../system/index.ts";

/**
 * Terminals that alternating current reaches in a state: from where it enters while shore or a generator is there, and from inverters that run.
 *
 * Follows live conductors and closed contacts; asks no volts and no amps.
 *
 * @param runs whether a part with an inverter in it takes current
 */
export function reachedByAlternating(
  system: System,
  state: GivenState,
  runs: (part: string) => boolean,
): ReadonlySet<string> {
  const paths = alternatingPaths(system);
  const isSupplied = suppliedIn(system, paths)(state);
  const may = mayWork(system);
  const entering = new Set(
    system.parts.filter(({ id, traits }) => traits.enters === true && givesIn(state, id, system)).map(({ id }) => id),
  );
  const starts: string[] = [];
  for (const circuit of system.circuits) {
    if (circuit.current !== "AC") continue;
    for (const { role, from, to } of circuit.conductors) {
      if (role !== "live") continue;
      if (entering.has(circuit.from.part)) starts.push(from);
      if (entering.has(circuit.to.part)) starts.push(to);
    }
  }
  for (const e of system.elements) {
    if (e.is !== "converter" || e.outCurrent !== "AC") continue;
    const isPassing = e.passesFrom !== undefined && isSupplied(e.passesFrom);
    if (isPassing || (may(e, state) && (runs(e.part) || state.on.includes(e.part))))
      starts.push(...(e.outLines ?? [e.outPlus]));
  }
  return paths.walk(starts, state, true);
}
