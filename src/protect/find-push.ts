import type { Grid, Trees } from "../system/index.ts";
import { mostThrough, type Gate } from "./most-through.ts";

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
 * every contact that can be closed. Of sources that a switch keeps apart, each in a position of its own, it is the most that one position lets through; past
 * 64 positions of such switches together all are taken as closed at once, which is no less.
 *
 * What comes along several paths adds. A device passes its rating at most, however many paths lead through it, and a source no more than it can
 * give: the greatest flow from the sources to the node. It does not hang on the order in which anything is listed.
 *
 * @param trees what holds no source: it is not walked into
 * @param without the conductor that is looked at; the push comes from elsewhere
 * @param deviceIn rating of the smallest device in an edge, A; undefined where it has none
 */
export function findPush(
  grid: Network,
  trees: Pick<Trees, "isTree" | "up">,
  node: number,
  without: number,
  deviceIn: (edge: number) => number | undefined,
): Push {
  const from = (isOpen: (edge: number) => boolean): Push => pushWith(grid, trees, node, without, deviceIn, isOpen);
  const all = from(() => false);
  const choosers = choosersOf(grid);
  if (choosers.length === 0 || all.sources.length === 0) return all;
  let ways: readonly (readonly number[])[] = [[]];
  for (const { positions } of choosers) {
    if (ways.length * positions.length > MOST_WAYS) return all;
    ways = ways.flatMap((open) => positions.map((p) => [...open, ...p]));
  }
  const each = ways.map((open) => from((edge) => open.includes(edge)));
  const most = (of: (p: Push) => number): number => Math.max(...each.map(of));
  const any = (of: (p: Push) => readonly string[]): string[] => [...new Set(each.flatMap(of))];
  return {
    amps: most((p) => p.amps),
    leastAmps: most((p) => p.leastAmps),
    sources: any((p) => p.sources),
    unsure: any((p) => p.unsure),
    limited: any((p) => p.limited),
  };
}

type Network = Pick<Grid, "nodeCount" | "edges" | "at" | "stores" | "feeds" | "converters">;

/** Positions of switches that choose, taken together, up to which each is looked at. */
const MOST_WAYS = 64;

/** A switch that joins different things in different positions: by position the contacts that are open then. */
interface Chooser {
  readonly positions: readonly (readonly number[])[];
}

const choosers = new WeakMap<object, readonly Chooser[]>();

function choosersOf(grid: Network): readonly Chooser[] {
  let found = choosers.get(grid);
  if (found !== undefined) return found;
  const contacts = new Map<string, { edge: number; closedIn: readonly string[] }[]>();
  grid.edges.forEach(({ contact }, edge) => {
    if (contact?.closedIn === undefined) return;
    const list = contacts.get(contact.part) ?? [];
    contacts.set(contact.part, [...list, { edge, closedIn: contact.closedIn }]);
  });
  found = [...contacts.values()].flatMap((list): Chooser[] => {
    const open = [...new Set(list.flatMap((c) => c.closedIn))].map((position) =>
      list.flatMap((c) => (c.closedIn.includes(position) ? [] : [c.edge])),
    );
    // In a position that leaves all of them closed it is as if it were not there.
    return open.some((edges) => edges.length === 0) ? [] : [{ positions: open }];
  });
  choosers.set(grid, found);
  return found;
}

function pushWith(
  grid: Network,
  trees: Pick<Trees, "isTree" | "up">,
  node: number,
  without: number,
  deviceIn: (edge: number) => number | undefined,
  isOpen: (edge: number) => boolean,
): Push {
  const table = sourcesOf(grid);
  const sources: string[] = [];
  const unsure: string[] = [];
  let limited: readonly string[] = [];
  // Pieces of metal that no device parts, in the order in which they are met; the first is that of the node.
  const pieceOf = new Map<number, number>();
  const given: number[] = [];
  const givenAtLeast: number[] = [];
  const gates: Gate[] = [];
  const crossed = new Set<number>();
  const seeds = [node];
  for (let s = 0; s < seeds.length; s++) {
    const seed = seeds[s] ?? 0;
    if (pieceOf.has(seed)) continue;
    const piece = given.length;
    let amps = 0;
    let leastAmps = 0;
    const own: string[] = [];
    const queue = [seed];
    pieceOf.set(seed, piece);
    for (let i = 0; i < queue.length; i++) {
      const n = queue[i] ?? 0;
      const here = table.get(n);
      if (here !== undefined) {
        amps += here.amps;
        leastAmps += here.leastAmps;
        sources.push(...here.sources);
        unsure.push(...here.unsure);
        own.push(...here.limited);
      }
      for (const e of grid.at[n] ?? []) {
        if (e === without || isOpen(e)) continue;
        const edge = grid.edges[e];
        if (edge === undefined) continue;
        const next = edge.a === n ? edge.b : edge.a;
        // Away from the core a tree holds loads only.
        if (trees.isTree[e] === 1 && trees.up[next] === e) continue;
        const rating = deviceIn(e);
        if (rating !== undefined) {
          if (!crossed.has(e)) gates.push({ from: n, to: next, amps: rating });
          crossed.add(e);
          seeds.push(next);
        } else if (!pieceOf.has(next)) {
          pieceOf.set(next, piece);
          queue.push(next);
        }
      }
    }
    given.push(amps);
    givenAtLeast.push(leastAmps);
    if (piece === 0) limited = own;
  }
  if (sources.length === 0) return NOTHING;
  const between = gates.map(({ from, to, amps }) => ({
    from: pieceOf.get(from) ?? 0,
    to: pieceOf.get(to) ?? 0,
    amps,
  }));
  const amps = mostThrough(given, between);
  const leastAmps = unsure.length === 0 ? amps : mostThrough(givenAtLeast, between);
  return { amps, leastAmps, sources, unsure, limited };
}

const tables = new WeakMap<object, Map<number, Push>>();

/** Sources by the node of their live terminal. */
function sourcesOf(grid: Pick<Grid, "stores" | "feeds" | "converters">): Map<number, Push> {
  let table = tables.get(grid);
  if (table === undefined) tables.set(grid, (table = listSources(grid)));
  return table;
}

interface Listed {
  amps: number;
  leastAmps: number;
  readonly sources: string[];
  readonly unsure: string[];
  readonly limited: string[];
}

function listSources(grid: Pick<Grid, "stores" | "feeds" | "converters">): Map<number, Push> {
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
  for (const { element, plus } of grid.feeds)
    add(plus, element.part, (element.pushes ?? element.amps).high, element.selfLimited);
  for (const { element, in: input, out } of grid.converters) {
    add(out.plus, element.part, element.amps.high, element.selfLimited);
    if (input !== null && element.bothWays) add(input.plus, element.part, element.amps.high, element.selfLimited);
  }
  return table;
}
