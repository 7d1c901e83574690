import type { Grid } from "../system/index.ts";
import { hangsOn, walkCore, wiringOf, type Wiring } from "./wiring.ts";

/**
 * Finds the loads that no battery reaches when some edges are open, every contact closed. What chargers alone would hold up counts as dark; what is dark with nothing
 * open is left out.
 *
 * @returns asked with the open edges: names of parts, in the order of the grid
 */
export function darkLoads(grid: Grid): (open: readonly number[]) => readonly string[] {
  const wiring = wiringOf(grid);
  const { trees, beyond } = wiring;
  /** By edge of a tree the draws that hang on it. */
  const behind: number[][] = [];
  grid.draws.forEach(({ plus }, d) => {
    for (let n = plus; (trees.up[n] ?? -1) >= 0; n = trees.above[n] ?? n) (behind[trees.up[n] ?? 0] ??= []).push(d);
  });
  const cores = new Map<string, DarkCore>();
  const coreWith = (open: readonly number[]): DarkCore => {
    const key = open.join();
    let core = cores.get(key);
    if (core === undefined) {
      const isFed = feedCore(wiring, open);
      const dark = [...grid.draws.keys()].filter((d) => isFed[trees.foot[grid.draws[d]?.plus ?? 0] ?? 0] !== 1);
      cores.set(key, (core = { isFed, dark }));
    }
    return core;
  };
  const partsOf = (draws: readonly number[]): Set<string> =>
    new Set(draws.flatMap((d) => grid.draws[d] ?? []).map(({ inverter, element }) => (inverter ?? element).part));
  const already = partsOf(coreWith([]).dark);
  const names = new WeakMap<readonly number[], readonly string[]>();
  const namesOf = (draws: readonly number[]): readonly string[] => {
    let list = names.get(draws);
    if (list === undefined) names.set(draws, (list = [...partsOf(draws)].filter((part) => !already.has(part))));
    return list;
  };

  return (open) => {
    const edges = [...new Set(open)].filter((e) => e >= 0);
    const { isFed, dark } = coreWith(edges.filter((e) => beyond[e] === -1).sort((a, b) => a - b));
    // Of what hangs on one another only the first is counted, so that no draw is in two lists.
    const cut = edges.filter((e) => {
      const end = beyond[e] ?? -1;
      if (end < 0 || isFed[trees.foot[end] ?? 0] !== 1) return false;
      return !edges.some((other) => other !== e && hangsOn(wiring, end, other));
    });
    const lists = [dark, ...cut.map((e) => behind[e] ?? NONE)].filter((list) => list.length > 0);
    const [only = NONE, ...more] = lists;
    return namesOf(more.length === 0 ? only : lists.flat().sort((a, b) => a - b));
  };
}

/** What is fed in the core while some of its edges are open, and all draws that hang on what is not. */
interface DarkCore {
  readonly isFed: Uint8Array;
  readonly dark: readonly number[];
}

const NONE: readonly number[] = [];

function feedCore(wiring: Wiring, open: readonly number[]): Uint8Array {
  const { grid } = wiring;
  const isFed = new Uint8Array(grid.nodeCount);
  for (const { plus } of grid.stores) walkCore(wiring, plus, open, isFed);
  // What a converter feeds is alive where its input is.
  for (let changed = true; changed;) {
    changed = false;
    for (const { in: input, out } of grid.converters) {
      if ((input !== null && isFed[input.plus] !== 1) || isFed[out.plus] === 1) continue;
      walkCore(wiring, out.plus, open, isFed);
      changed = true;
    }
  }
  return isFed;
}
