import type { Grid, Supply, SystemCircuit, SystemPart } from "../system/index.ts";
import type { Charging } from "./model.ts";

/** Share of the nominal volts that a charging circuit may lose; no rule set names one. */
export const CHARGING_DROP = 0.03;

const ENDS = ["from", "to"] as const;

/** Between which terminals a circuit with a charging source at one end is judged, whichever end that is; null where it has none. */
export function chargingOf(
  circuit: SystemCircuit,
  supply: Supply | undefined,
  parts: ReadonlyMap<string, SystemPart>,
  grid: Grid,
): Charging | null {
  const live = liveEnds(circuit, grid);
  for (const end of ENDS) {
    const start = parts.get(circuit[end].part);
    if (start?.traits.charges !== true || live === null) continue;
    const fromPlus = live[end];
    // The input of a DC-DC charger does not push.
    const feed = grid.feeds.find((f) => f.plus === fromPlus);
    const converter = grid.converters.find((c) => c.out.plus === fromPlus);
    const fromMinus = feed?.minus ?? converter?.out.minus;
    if (fromMinus === undefined) continue;
    const back = returnAt(circuit, grid, fromMinus);
    if (back === undefined) continue;
    const { a, b } = back;
    const baseVolts = feed?.element.bestVolts?.low ?? supply?.nominal ?? 12;
    return {
      limitVolts: (circuit.dropLimit?.low ?? CHARGING_DROP) * baseVolts,
      baseVolts,
      fromPlus,
      fromMinus,
      toPlus: live[end === "from" ? "to" : "from"],
      toMinus: a === fromMinus ? b : a,
    };
  }
  return null;
}

/** The return that leads from the minus of a source: of the circuit itself, or a circuit of its own that is the only one there. */
function returnAt(
  circuit: SystemCircuit,
  grid: Grid,
  minus: number,
): { readonly a: number; readonly b: number } | undefined {
  const own = circuit.conductors.find(
    (c) => c.role === "return" && (grid.nodeOf(c.from) === minus || grid.nodeOf(c.to) === minus),
  );
  if (own !== undefined) return { a: grid.nodeOf(own.from), b: grid.nodeOf(own.to) };
  const [only, ...others] = grid.at[minus] ?? [];
  const edge = others.length > 0 ? undefined : grid.edges[only ?? -1];
  return edge?.live === false ? edge : undefined;
}

/** Nodes at the two ends of its live conductors. */
function liveEnds(circuit: SystemCircuit, grid: Grid): { from: number; to: number } | null {
  const live = circuit.conductors.filter((c) => c.role === "live");
  const [first] = live;
  const last = live.at(-1);
  return first === undefined || last === undefined ? null : { from: grid.nodeOf(first.from), to: grid.nodeOf(last.to) };
}

/**
 * Least current that a circuit of solar modules is made for, A: of the modules at its end, or of all that reach the input of a controller through it.
 *
 * @param index of the circuit in the system
 */
export function solarAmps(
  circuit: SystemCircuit,
  index: number,
  grid: Grid,
  parts: ReadonlyMap<string, SystemPart>,
): number {
  const live = liveEnds(circuit, grid);
  if (live === null) return 0;
  const isSolar = (part: string): boolean => parts.get(part)?.traits.solar === true;
  for (const end of ENDS) {
    if (!isSolar(circuit[end].part)) continue;
    return grid.feeds.reduce((sum, f) => (f.plus === live[end] ? sum + f.element.amps.high : sum), 0);
  }
  for (const end of ENDS) {
    const tracked = grid.converters.some((c) => c.element.input !== "as needed" && c.in?.plus === live[end]);
    if (!tracked) continue;
    const reached = reachedWithout(grid, index, live[end === "from" ? "to" : "from"]);
    return grid.feeds.reduce(
      (sum, f) => (reached.has(f.plus) && isSolar(f.element.part) ? sum + f.element.amps.high : sum),
      0,
    );
  }
  return 0;
}

/** Nodes that metal leads to from one, every contact closed, but not through a circuit. */
function reachedWithout(grid: Grid, circuit: number, start: number): ReadonlySet<number> {
  const reached = new Set([start]);
  // A set goes on with what is added while it is walked through.
  for (const node of reached) {
    for (const e of grid.at[node] ?? []) {
      const edge = grid.edges[e];
      if (edge !== undefined && edge.circuit !== circuit) reached.add(edge.a === node ? edge.b : edge.a);
    }
  }
  return reached;
}
