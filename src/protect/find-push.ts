import type { Grid, Trees } from "../system/index.ts";

/** What sources can push into a conductor at one of its ends. */
export interface Push {
  /** Greatest current, A; Infinity where a source is not limited and no device stands between. */
  readonly amps: number;
  /** The same if those of which it is not known do limit themselves. */
  readonly leastAmps: number;
  /** Sources that reach that end, by name. */
  readonly sources: readonly string[];
  /** Sources of which it is not known whether they limit themselves; they are counted as unlimited. */
  readonly unsure: readonly string[];
  /** Sources that limit themselves and stand on this very piece of metal, no device between. */
  readonly limited: readonly string[];
}

const NOTHING: Push = { amps: 0, leastAmps: 0, sources: [], unsure: [], limited: [] };

/**
 * Finds what can push current into a node without coming through one edge: from every source that a path of metal leads from, through
 * every contact that can be closed. A device on the way limits what comes through it.
 *
 * Currents of several paths are added; where two paths share a device its rating is counted once for each, which is on the safe side.
 *
 * @param trees what holds no source: it is not walked into
 * @param without the conductor that is looked at; the push comes from elsewhere
 * @param deviceIn rating of the smallest device in an edge, A; undefined where it has none
 */
export function findPush(
  grid: Grid,
  trees: Trees,
  node: number,
  without: number,
  deviceIn: (edge: number) => number | undefined,
): Push {
  const seen = new Set<number>([node]);
  return gather(grid, trees, node, without, deviceIn, seen);
}

function gather(
  grid: Grid,
  trees: Trees,
  start: number,
  without: number,
  deviceIn: (edge: number) => number | undefined,
  seen: Set<number>,
): Push {
  let amps = 0;
  let leastAmps = 0;
  const sources: string[] = [];
  const unsure: string[] = [];
  const limited: string[] = [];
  const beyond: { edge: number; node: number; rating: number }[] = [];
  const queue = [start];
  for (let i = 0; i < queue.length; i++) {
    const n = queue[i] ?? 0;
    const own = sourcesAt(grid, n);
    amps += own.amps;
    leastAmps += own.leastAmps;
    sources.push(...own.sources);
    unsure.push(...own.unsure);
    limited.push(...own.limited);
    for (const e of grid.at[n] ?? []) {
      if (e === without) continue;
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      const next = edge.a === n ? edge.b : edge.a;
      // Away from the core a tree holds loads only.
      if (seen.has(next) || (trees.isTree[e] === 1 && trees.up[next] === e)) continue;
      const rating = deviceIn(e);
      if (rating !== undefined) {
        beyond.push({ edge: e, node: next, rating });
        continue;
      }
      seen.add(next);
      queue.push(next);
    }
  }
  // All metal that is reached without a device comes first; then each device lets through what stands behind it, up to its rating.
  for (const { edge, node, rating } of beyond) {
    if (seen.has(node)) continue;
    seen.add(node);
    const behind = gather(grid, trees, node, edge, deviceIn, seen);
    amps += Math.min(rating, behind.amps);
    leastAmps += Math.min(rating, behind.leastAmps);
    sources.push(...behind.sources);
    unsure.push(...behind.unsure);
  }
  return sources.length === 0 ? NOTHING : { amps, leastAmps, sources, unsure, limited };
}

const tables = new WeakMap<Grid, Map<number, Push>>();

/** Sources whose live terminal is this node. */
function sourcesAt(grid: Grid, node: number): Push {
  let table = tables.get(grid);
  if (table === undefined) tables.set(grid, (table = listSources(grid)));
  return table.get(node) ?? NOTHING;
}

interface Listed {
  amps: number;
  leastAmps: number;
  readonly sources: string[];
  readonly unsure: string[];
  readonly limited: string[];
}

function listSources(grid: Grid): Map<number, Push> {
  const table = new Map<number, Listed>();
  const add = (node: number, name: string, amps: number, selfLimited: boolean | "unknown"): void => {
    let there = table.get(node);
    if (there === undefined) table.set(node, (there = { amps: 0, leastAmps: 0, sources: [], unsure: [], limited: [] }));
    there.sources.push(name);
    there.amps += selfLimited === true ? amps : Infinity;
    there.leastAmps += selfLimited === false ? Infinity : amps;
    if (selfLimited === true) there.limited.push(name);
    if (selfLimited === "unknown") there.unsure.push(name);
  };
  for (const { element, plus } of grid.stores) add(plus, element.part, Infinity, false);
  // A unit in the middle of a series string pushes out of its minus as well.
  const tops = new Set(grid.stores.map((s) => s.plus));
  for (const { element, minus } of grid.stores) if (tops.has(minus)) add(minus, element.part, Infinity, false);
  for (const { element, plus } of grid.feeds) add(plus, element.part, element.amps.high, element.selfLimited);
  for (const { element, in: input, out } of grid.converters) {
    add(out.plus, element.part, element.amps.high, element.selfLimited);
    if (input !== null && element.bothWays) add(input.plus, element.part, element.amps.high, element.selfLimited);
  }
  return table;
}
