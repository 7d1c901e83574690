import { holds, type Moment } from "./judge-moment.ts";
import type { Core } from "./lay-core.ts";
import type { Island, IslandJoin } from "./study.ts";
import { rootOf, separate, unite } from "./union-find.ts";

/** A join that ties a neutral to earth in a moment, with the nodes that it ties; earth −1: it is away, with no conductor to it. */
export interface ClosedJoin extends IslandJoin {
  readonly neutral: number;
  readonly earth: number;
}

/** All joins that are closed, or may be, wherever they are. */
export function closedJoins(core: Core, { values, gives, joined }: Moment): ClosedJoin[] {
  const { problem, joins, sources } = core;
  const aboard = problem.joins.flatMap((join, j): ClosedJoin[] => {
    const at = joins[j];
    if (at === undefined || !holds(at, values)) return [];
    const certain = join.closed !== "unknown";
    return [{ id: join.id, part: join.part, where: "aboard", certain, neutral: at.neutral, earth: at.earth }];
  });
  const isOn = (neutral: number) => (j: ClosedJoin) => rootOf(joined, j.neutral) === rootOf(joined, neutral);
  return [
    ...aboard,
    ...problem.sources.flatMap((source, s): ClosedJoin[] => {
      const at = sources[s];
      const isThere = source.joinStays || ((gives >> s) & 1) === 1;
      if (at?.alternating !== true || source.joined === false || !isThere || at.neutral < 0) return [];
      if (source.joinedByNeutral === true && aboard.some(isOn(at.neutral))) return [];
      const where = source.joinStays ? "inside" : "ashore";
      const certain = source.joined === true;
      return [{ id: source.id, part: source.part, where, certain, neutral: at.neutral, earth: at.earth }];
    }),
  ];
}

/** Pieces of metal that giving sources energise, put together where a line or a neutral is shared. */
export function listIslands(core: Core, moment: Moment): Island[] {
  const { problem, sources, nodeOf } = core;
  const { joined, lineOf, neutralOf, gives } = moment;
  const alternating = sources.reduce((mask, s, i) => (s.alternating ? mask | (1 << i) : mask), 0);
  const together = separate(sources.length);
  for (let node = 0; node < core.nodeCount; node++) {
    const mask = ((lineOf[node] ?? 0) | (neutralOf[node] ?? 0)) & alternating;
    const first = sources.findIndex((_, s) => ((mask >> s) & 1) === 1);
    sources.forEach((_, s) => {
      if (((mask >> s) & 1) === 1) unite(together, first, s);
    });
  }
  const all = closedJoins(core, moment);
  const list: Island[] = [];
  for (let s = 0; s < sources.length; s++) {
    if (((gives & alternating) >> s) % 2 === 0 || rootOf(together, s) !== s) continue;
    const members = sources.reduce(
      (mask, _, i) => (((gives >> i) & 1) === 1 && rootOf(together, i) === s ? mask | (1 << i) : mask),
      0,
    );
    const nodesOf = (of: (root: number) => boolean): number[] =>
      [...problem.nodes.keys()].filter((n) => of(rootOf(joined, nodeOf[n] ?? 0)));
    const isNeutral = (root: number): boolean => ((neutralOf[root] ?? 0) & members) !== 0;
    const joins = all.filter((j) => isNeutral(rootOf(joined, j.neutral)));
    const earths = new Set(
      [
        ...joins.map((j) => j.earth),
        ...sources.flatMap((one, i) => (((members >> i) & 1) === 1 ? [one.earth] : [])),
      ].flatMap((n) => (n < 0 ? [] : [rootOf(joined, n)])),
    );
    list.push({
      sources: problem.sources.flatMap((one, i) => (((members >> i) & 1) === 1 ? [one.id] : [])),
      lineNodes: nodesOf((root) => ((lineOf[root] ?? 0) & members) !== 0),
      neutralNodes: nodesOf(isNeutral),
      earthNodes: nodesOf((root) => earths.has(root)),
      hasNeutral: sources.some((one, i) => ((members >> i) & 1) === 1 && one.neutral >= 0),
      joins: joins.map(({ id, part, where, certain }) => ({ id, part, where, certain })),
      joinsLow: joins.filter((j) => j.certain).length,
      joinsHigh: joins.length,
    });
  }
  return list;
}
