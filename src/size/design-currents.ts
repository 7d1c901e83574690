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
  /** By circuit: its first live edge; −1: it has none. */
  readonly liveEdge: Int32Array;
  /** Radial circuits, each behind the one that it hangs on. */
  readonly outwards: readonly number[];
}

/**
 * Greatest steady and starting current of each circuit, over all cases: those solved in full, and each circuit's loads alone laid over the
 * base. In a tree the most that any one circuit beyond adds is all that counts; in the core each pair adds by its response.
 */
export function findCurrents(sources: CurrentSources): CircuitCurrents[] {
  const { model, caseCount, given, flows, coreAmps, coreAmpsPerAmp } = sources;
  const own = ownExtras(sources);
  const subtree = subtreeExtras(sources, own);
  const perPair = pairExtras(sources, own);
  const inStates = startsInStates(sources);
  let steady = 0;
  let steadyCase = given;
  let steadyBy = -1;
  let start = 0;
  let startSeconds = 0;
  const take = (amps: number, name: number, by: number): void => {
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
  const takeRadial = (i: number, e: number): void => {
    for (let j = 0; j < caseCount; j++) take(Math.abs(flows[j]?.[e] ?? 0), j, -1);
    const base = Math.abs(flows[given]?.[e] ?? 0);
    take(base + (subtree.steady[i] ?? 0), -1, subtree.by[i] ?? -1);
    const more = subtree.start[i] ?? 0;
    if (more > 0) takeStart(base + more, subtree.seconds[i] ?? 0);
    for (const here of inStates) {
      const started = here.start[i] ?? 0;
      if (started > 0) takeStart(Math.abs(flows[here.case]?.[e] ?? 0) + started, here.seconds[i] ?? 0);
    }
  };
  const takeCore = (e: number): void => {
    for (let j = 0; j < caseCount; j++) take(Math.abs(coreAmps(j, e)), j, -1);
    const base = coreAmps(given, e);
    for (let p = 0; p < perPair.steady.length; p++) {
      const per = coreAmpsPerAmp(p, e, given);
      take(Math.abs(base + (perPair.steady[p] ?? 0) * per), -1, perPair.by[p] ?? -1);
      const more = perPair.start[p] ?? 0;
      if (more > 0) takeStart(Math.abs(base + more * per), perPair.seconds[p] ?? 0);
    }
    for (const { case: j, pairs } of inStates) {
      const now = coreAmps(j, e);
      for (const [p, more] of pairs) {
        const amps = Math.abs(now + more.start * coreAmpsPerAmp(p, e, j));
        // What flows anyway, or less, is no start.
        if (amps > Math.abs(now) + 1e-6) takeStart(amps, more.seconds);
      }
    }
  };
  return model.circuits.map((c, position) => {
    // What shares a size carries the same.
    const i = c.radial && c.leader >= 0 ? c.leader : position;
    steady = 0;
    steadyCase = given;
    steadyBy = -1;
    start = 0;
    startSeconds = 0;
    for (const e of c.edges) {
      if (c.radial) takeRadial(i, e);
      else takeCore(e);
    }
    const demand = c.demand ?? model.circuits[c.returnOf]?.demand ?? null;
    if (demand !== null) take(demand, -2, c.demand === null ? c.returnOf : i);
    take(c.leastAmps, -3, -1);
    return { steady, steadyCase, steadyBy, start, startSeconds };
  });
}

/** The most that circuits add, by circuit or by pair, and which of them adds most to the steady current. */
interface Most {
  readonly steady: Float64Array;
  readonly start: Float64Array;
  readonly seconds: Float64Array;
  readonly by: Int32Array;
}

const nothing = (count: number): Most => ({
  steady: new Float64Array(count),
  start: new Float64Array(count),
  seconds: new Float64Array(count),
  by: new Int32Array(count).fill(-1),
});

/** Takes what is more at one place of another list. */
function takeMost(into: Most, at: number, from: Most, i: number): void {
  const steady = from.steady[i] ?? 0;
  if (steady > (into.steady[at] ?? 0)) {
    into.steady[at] = steady;
    into.by[at] = from.by[i] ?? -1;
  }
  const start = from.start[i] ?? 0;
  if (start > (into.start[at] ?? 0)) {
    into.start[at] = start;
    into.seconds[at] = from.seconds[i] ?? 0;
  }
}

/** What each circuit adds by itself: its loads, or what a feeder must be able to carry, which flows in what leads to it as well. */
function ownExtras({ model, rows, given, flows, liveEdge }: CurrentSources): Most {
  const own = nothing(model.circuits.length);
  model.circuits.forEach((c, i) => {
    const { steady, start, seconds } = rows.extra(i);
    const flow = Math.abs(flows[given]?.[liveEdge[i] ?? -1] ?? 0);
    const more = c.demand === null ? 0 : Math.max(0, c.demand - flow);
    own.steady[i] = Math.max(steady, more);
    own.start[i] = start;
    own.seconds[i] = seconds;
    own.by[i] = i;
  });
  return own;
}

/** The most that any one circuit at or beyond each radial circuit adds. */
function subtreeExtras({ model, outwards }: CurrentSources, own: Most): Most {
  const { steady, start, seconds, by } = own;
  const result: Most = { steady: steady.slice(), start: start.slice(), seconds: seconds.slice(), by: by.slice() };
  for (let k = outwards.length - 1; k >= 0; k--) {
    const i = outwards[k] ?? 0;
    for (const child of model.circuits[i]?.children ?? []) takeMost(result, i, result, child);
  }
  return result;
}

/** The most that any one circuit adds between each pair of core nodes; a feeder's demand counts as a load there. */
function pairExtras({ model, pairs }: CurrentSources, own: Most): Most {
  const result = nothing(pairs.list.length);
  model.circuits.forEach((_, i) => {
    for (const p of pairs.ofJudged[i] ?? []) takeMost(result, p, own, i);
  });
  return result;
}

/** What a start adds in one given state: the most at or beyond each radial circuit, and between each pair of core nodes. */
interface StartsIn {
  readonly case: number;
  /** By circuit; 0: none. */
  readonly start: Float64Array;
  readonly seconds: Float64Array;
  readonly pairs: ReadonlyMap<number, Omit<Extra, "steady">>;
}

function startsInStates({ model, starts }: CurrentSources): StartsIn[] {
  const { circuits } = model;
  const found = new Map<number, StartsIn & { readonly pairs: Map<number, Omit<Extra, "steady">> }>();
  starts.all((c, judged, pair, j, amps) => {
    let here = found.get(j);
    if (here === undefined) {
      const [start, seconds] = [new Float64Array(circuits.length), new Float64Array(circuits.length)];
      found.set(j, (here = { case: j, start, seconds, pairs: new Map() }));
    }
    if (amps > (here.pairs.get(pair)?.start ?? 0)) here.pairs.set(pair, { start: amps, seconds: judged.startSeconds });
    if (!c.radial) return;
    for (let k = c.position; k >= 0; k = circuits[k]?.parent ?? -1) {
      if (amps <= (here.start[k] ?? 0)) continue;
      here.start[k] = amps;
      here.seconds[k] = judged.startSeconds;
    }
  });
  return [...found.values()];
}
