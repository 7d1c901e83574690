import type { JudgedRows, Extra } from "./judged-rows.ts";
import type { Model } from "./model.ts";
import type { Pairs } from "./pairs.ts";
import type { StartsInStates } from "./starts-in-states.ts";

/** Greatest currents in a circuit. */
export interface CircuitCurrents {
  readonly steady: number;
  /** Index of the case, or −1 for loads alone, −2 for a feeder's demand, −3 for the least that a solar module gives. */
  readonly steadyCase: number;
  /** Position of the circuit whose loads run alone or whose demand counts then; −1 in a case. */
  readonly steadyBy: number;
  /** 0: nothing behind it starts. */
  readonly start: number;
  readonly startSeconds: number;
}

/** What the currents are read from. */
export interface CurrentSources {
  readonly model: Model;
  readonly rows: JudgedRows;
  readonly pairs: Pairs;
  readonly caseCount: number;
  readonly given: number;
  readonly flows: readonly Float64Array[];
  /** Amps in an edge of the core in a case. */
  readonly coreAmps: (caseIndex: number, edge: number) => number;
  /** Amps that it gains in the base, or while something starts in a given state, for one ampere drawn between a pair. */
  readonly coreAmpsPerAmp: (pair: number, edge: number, caseIndex: number) => number;
  readonly starts: StartsInStates;
}

/**
 * Greatest steady and starting current of each circuit, over all cases: those solved in full, and each circuit's loads alone laid over the
 * base. In a tree the most that any one circuit beyond adds is all that counts; in the core each pair adds by its response.
 */
export function findCurrents(sources: CurrentSources): CircuitCurrents[] {
  const { model, caseCount, given, flows, coreAmps, coreAmpsPerAmp } = sources;
  const subtree = subtreeExtras(sources);
  const perPair = pairExtras(sources);
  const inStates = startsInStates(sources);
  return model.circuits.map((c, i) => {
    let steady = 0;
    let steadyCase = given;
    let steadyBy = -1;
    let start = 0;
    let startSeconds = 0;
    const take = (amps: number, name: number, by = -1): void => {
      if (amps > steady + 1e-9) {
        steady = amps;
        steadyCase = name;
        steadyBy = by;
      }
    };
    const takeStart = (amps: number, seconds: number): void => {
      if (amps > start) {
        start = amps;
        startSeconds = seconds;
      }
    };
    for (const e of c.edges) {
      if (c.radial) {
        for (let j = 0; j < caseCount; j++) take(Math.abs(flows[j]?.[e] ?? 0), j);
        const base = Math.abs(flows[given]?.[e] ?? 0);
        const more = subtree[i];
        if (more === undefined) continue;
        take(base + more.steady, -1, more.by);
        if (more.start > 0) takeStart(base + more.start, more.seconds);
      } else {
        for (let j = 0; j < caseCount; j++) take(Math.abs(coreAmps(j, e)), j);
        const base = coreAmps(given, e);
        perPair.forEach((more, p) => {
          const per = coreAmpsPerAmp(p, e, given);
          take(Math.abs(base + more.steady * per), -1, more.by);
          if (more.start > 0) takeStart(Math.abs(base + more.start * per), more.seconds);
        });
      }
      for (const { case: j, radial, pairs } of inStates) {
        if (c.radial) {
          const more = radial[i];
          if (more !== undefined && more.start > 0) takeStart(Math.abs(flows[j]?.[e] ?? 0) + more.start, more.seconds);
          continue;
        }
        const now = coreAmps(j, e);
        for (const [p, more] of pairs) {
          const amps = Math.abs(now + more.start * coreAmpsPerAmp(p, e, j));
          // What flows anyway, or less, is no start.
          if (amps > Math.abs(now) + 1e-6) takeStart(amps, more.seconds);
        }
      }
    }
    if (c.demand !== null) take(c.demand, -2, i);
    take(c.leastAmps, -3);
    return { steady, steadyCase, steadyBy, start, startSeconds };
  });
}

/** The most that circuits add, and which of them adds most to the steady current. */
interface Most extends Extra {
  readonly by: number;
}

const NOTHING: Most = { steady: 0, start: 0, seconds: 0, by: -1 };

const most = (a: Most, b: Most): Most => ({
  steady: Math.max(a.steady, b.steady),
  start: Math.max(a.start, b.start),
  seconds: b.start > a.start ? b.seconds : a.seconds,
  by: b.steady > a.steady ? b.by : a.by,
});

/** The most that any one circuit at or beyond each radial circuit adds. */
function subtreeExtras({ model, rows, given, flows }: CurrentSources): Most[] {
  const result: Most[] = model.circuits.map(() => NOTHING);
  const walk = (i: number): Most => {
    const c = model.circuits[i];
    const own = rows.extra(i);
    const live = c?.edges.find((e) => model.grid.edges[e]?.live === true) ?? -1;
    // What a feeder must be able to carry flows in what leads to it as well.
    const more = c?.demand == null ? 0 : Math.max(0, c.demand - Math.abs(flows[given]?.[live] ?? 0));
    let best: Most = { ...own, steady: Math.max(own.steady, more), by: i };
    for (const child of c?.children ?? []) best = most(best, walk(child));
    result[i] = best;
    return best;
  };
  for (const root of model.roots) walk(root);
  return result;
}

/** What a start adds in one given state: the most at or beyond each radial circuit, and between each pair of core nodes. */
interface StartsIn {
  readonly case: number;
  readonly radial: readonly (Start | undefined)[];
  readonly pairs: ReadonlyMap<number, Start>;
}
type Start = Omit<Extra, "steady">;

function startsInStates({ model, starts }: CurrentSources): StartsIn[] {
  const found = new Map<number, { case: number; radial: (Start | undefined)[]; pairs: Map<number, Start> }>();
  starts.all((c, judged, pair, j, amps) => {
    let here = found.get(j);
    if (here === undefined) found.set(j, (here = { case: j, radial: [], pairs: new Map() }));
    const start: Start = { start: amps, seconds: judged.startSeconds };
    if (amps > (here.pairs.get(pair)?.start ?? 0)) here.pairs.set(pair, start);
    if (!c.radial) return;
    for (let k = c.position; k >= 0; k = model.circuits[k]?.parent ?? -1) {
      if (amps > (here.radial[k]?.start ?? 0)) here.radial[k] = start;
    }
  });
  return [...found.values()];
}

/** The most that any one circuit adds between each pair of core nodes; a feeder's demand counts as a load there. */
function pairExtras({ model, rows, pairs, given, flows }: CurrentSources): Most[] {
  const result: Most[] = pairs.list.map(() => NOTHING);
  model.circuits.forEach((c, i) => {
    const own = rows.extra(i);
    const live = c.edges.find((e) => model.grid.edges[e]?.live === true) ?? -1;
    const more = c.demand === null ? 0 : Math.max(0, c.demand - Math.abs(flows[given]?.[live] ?? 0));
    for (const p of pairs.ofJudged[i] ?? []) {
      result[p] = most(result[p] ?? NOTHING, { ...own, steady: Math.max(own.steady, more), by: i });
    }
  });
  return result;
}
