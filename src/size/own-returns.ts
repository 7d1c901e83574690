import { stripTrees, type Grid } from "../system/index.ts";
import { isFixed } from "./cost.ts";
import type { BroughtOut, CircuitModel } from "./model.ts";

/** Which circuits bring back what others bring out. */
export interface OwnReturns {
  /** By position of a return: the circuit that brings out the very current that it brings back, and meets it at a part; −1: none does. */
  readonly leads: Int32Array;
  /** By position of a return: how many loads it brings back the current of. */
  readonly returns: Int32Array;
  /** By position of a return: circuits that bring out the current of all or some of those loads and of no other; most first. */
  readonly brings: readonly (readonly BroughtOut[])[];
}

/**
 * Finds the returns that are written as circuits of their own, and what each of them brings back.
 *
 * A return belongs to the circuit that brings out the current of the very same loads and meets it at one part: `BP → windlass` and `windlass:− → BN`. The same holds of a
 * source with one conductor at each pole. What several loads share belongs to none of them.
 *
 * @param at position by index in the system
 * @param kept by node: 1 where a source stands
 */
export function findOwnReturns(
  grid: Grid,
  circuits: readonly CircuitModel[],
  at: Int32Array,
  kept: Uint8Array,
): OwnReturns {
  const leads = new Int32Array(circuits.length).fill(-1);
  const returns = new Int32Array(circuits.length);
  const brings: (readonly BroughtOut[])[] = circuits.map(() => []);
  const isLive = (e: number): boolean => grid.edges[e]?.live === true;
  const backs = circuits.filter((c) => c.edges.length > 0 && !c.edges.some(isLive));
  if (backs.length === 0) return { leads, returns, brings };
  const positionOf = (e: number): number => {
    const index = grid.edges[e]?.circuit ?? -1;
    return index < 0 ? -1 : (at[index] ?? -1);
  };

  // By circuit and edge, the loads that an edge brings out or back; in the core they cannot be told.
  const trees = stripTrees(grid, kept);
  const beyond = new Map<number, number[]>();
  grid.draws.forEach(({ plus, minus }, d) => {
    for (const [start, live] of [
      [plus, true],
      [minus, false],
    ] as const) {
      for (let n = start, e = trees.up[n] ?? -1; e >= 0; n = trees.above[n] ?? n, e = trees.up[n] ?? -1) {
        if (positionOf(e) < 0 || isLive(e) !== live) continue;
        const list = beyond.get(e);
        if (list === undefined) beyond.set(e, [d]);
        else if (list.at(-1) !== d) list.push(d);
      }
    }
  });
  /** Loads that all edges of one pole bring the current of; null: none, or not all the same. */
  const loadsOf = (c: CircuitModel, live: boolean): readonly number[] | null => {
    let found: readonly number[] | null = null;
    for (const e of c.edges) {
      if (isLive(e) !== live) continue;
      const here = beyond.get(e);
      if (here === undefined || (found !== null && !isSame(found, here))) return null;
      found = here;
    }
    return found;
  };
  const outward = circuits.map((c) => loadsOf(c, true));
  const isLead = (c: CircuitModel): boolean => c.edges.length > 0 && c.edges.every(isLive);
  const taken = new Set<number>();
  for (const c of backs) {
    const own = loadsOf(c, false);
    if (own === null) continue;
    const all = new Set(own);
    const some = outward.flatMap((loads, position): BroughtOut[] =>
      loads?.every((d) => all.has(d)) === true ? [{ position, loads }] : [],
    );
    returns[c.position] = own.length;
    brings[c.position] = some.sort((a, b) => b.loads.length - a.loads.length);
    const mate = some.find(({ position, loads }) => {
      const o = circuits[position];
      return loads.length === own.length && o !== undefined && isLead(o) && !taken.has(position) && meet(o, c);
    });
    if (mate === undefined) continue;
    taken.add(mate.position);
    leads[c.position] = mate.position;
  }

  // A source with one conductor at each pole.
  const ports = [...grid.stores, ...grid.feeds, ...grid.converters.flatMap(({ in: i, out }) => [i ?? out, out])];
  for (const { plus, minus } of ports) {
    const [out, back] = [onlyAt(grid, plus), onlyAt(grid, minus)];
    const [lead, c] = [circuits[positionOf(out)], circuits[positionOf(back)]];
    if (lead === undefined || c === undefined || !isLead(lead) || !backs.includes(c)) continue;
    if ((leads[c.position] ?? 0) >= 0 || taken.has(lead.position)) continue;
    taken.add(lead.position);
    leads[c.position] = lead.position;
  }
  return { leads, returns, brings };
}

/** Gives each return what was found of it. It gets the size of the circuit that it belongs to, as a pair has one, unless the plan says the size of one of them. */
export function tieReturns(circuits: readonly CircuitModel[], { leads, returns, brings }: OwnReturns): void {
  for (const c of circuits) {
    c.returnOf = leads[c.position] ?? -1;
    c.returns = returns[c.position] ?? 0;
    c.bringsBack = brings[c.position] ?? [];
    const lead = circuits[c.returnOf];
    if (lead === undefined) continue;
    lead.back = c.position;
    c.leastAmps = Math.max(c.leastAmps, lead.leastAmps);
    if (![c, lead].every(isFree) || c.circuit.parallel !== lead.circuit.parallel) continue;
    c.leader = lead.position;
    lead.follower = c.position;
    lead.paidMetres += c.metres;
    c.paidMetres = 0;
  }
}

const isFree = (c: CircuitModel): boolean => !isFixed(c) && c.circuit.sameSizeAs === undefined;

/** Two of which one turns out to have nothing to choose share no size. */
export function untieUntold(circuits: readonly CircuitModel[]): void {
  for (const c of circuits) {
    const lead = circuits[c.leader];
    if (lead === undefined || (c.rungs !== null && lead.rungs !== null)) continue;
    c.leader = lead.follower = -1;
    c.paidMetres = c.metres;
    lead.paidMetres = lead.metres;
  }
}

const isSame = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((d, i) => d === b[i]);

/** The only edge at a node; −1: there is none, or several. */
const onlyAt = (grid: Grid, node: number): number => {
  const edges = grid.at[node] ?? [];
  return edges.length === 1 ? (edges[0] ?? -1) : -1;
};

/** Whether two circuits end at one part. */
const meet = ({ circuit: a }: CircuitModel, { circuit: b }: CircuitModel): boolean =>
  [a.from.part, a.to.part].some((part) => part === b.from.part || part === b.to.part);
