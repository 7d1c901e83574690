import { holds, type Moment } from "./judge-moment.ts";
import type { Core } from "./lay-core.ts";
import { listIslands } from "./list-islands.ts";
import { pairsInParallel } from "./settle.ts";
import type { StateFacts } from "./study.ts";
import { takerStates, neutralsThatMeet } from "./taker-states.ts";
import { rootOf } from "./union-find.ts";

/** Ids of the sources of a mask. */
export const namesIn = (core: Core, mask: number): string[] =>
  core.problem.sources.flatMap((s, i) => (((mask >> i) & 1) === 1 && s.kind !== "store" ? [s.id] : []));

/** Puts what holds in a moment into plain data. */
export function stateFacts(core: Core, moment: Moment): StateFacts {
  const { problem, sources } = core;
  const { joined, lineOf, gives } = moment;
  const isGiving = (s: number): boolean => ((gives >> s) & 1) === 1;
  const id = (s: number): string => problem.sources[s]?.id ?? "";
  const together = pairsInParallel(core, moment);
  const inParallel = new Set(together.map(([a, b]) => a * 64 + b));
  const commonNeutral: { sources: readonly [string, string] }[] = [];
  for (const [a, one] of sources.entries()) {
    for (const [b, other] of sources.entries()) {
      if (b <= a || !one.alternating || !other.alternating || !isGiving(a) || !isGiving(b)) continue;
      if (one.neutral < 0 || other.neutral < 0 || inParallel.has(a * 64 + b)) continue;
      if (rootOf(joined, one.neutral) === rootOf(joined, other.neutral))
        commonNeutral.push({ sources: [id(a), id(b)] });
    }
  }
  const alternating = sources.reduce((mask, s, i) => (s.alternating ? mask | (1 << i) : mask), 0);
  const liveAt = (lines: readonly number[]): number =>
    lines.reduce((mask, n) => mask | (lineOf[rootOf(joined, n)] ?? 0), 0) & alternating;
  const liveFrom = (s: number): number => liveAt(sources[s]?.lines ?? []);
  const directLive = (s: number): boolean => {
    const plus = problem.sources[s]?.direct?.plus;
    const node = plus === undefined ? -1 : (core.nodeOf[plus] ?? -1);
    return node < 0 || (lineOf[rootOf(joined, node)] ?? 0) !== 0;
  };
  const idle = problem.sources.flatMap((source, s) => {
    const from = source.kind === "store" || isGiving(s) ? 0 : liveFrom(s);
    return from === 0 ? [] : [{ s, source, from: namesIn(core, from) }];
  });
  const bare = core.pins.flatMap((p) => {
    const from = holds(p, moment.values) ? 0 : liveAt(p.lines);
    return from === 0 ? [] : [{ source: p.id, from: namesIn(core, from) }];
  });
  const states = takerStates(core, moment);
  return {
    gives: namesIn(core, gives),
    islands: listIslands(core, moment),
    parallel: together.map(([a, b]) => ({
      sources: [id(a), id(b)] as const,
      lawful: lawfulTogether(problem.sources[a]?.addsToSupply, problem.sources[b]?.addsToSupply),
    })),
    commonNeutral,
    livePins: [...idle.filter((i) => !i.source.passes).map((i) => ({ source: i.source.id, from: i.from })), ...bare],
    adds: idle
      .filter((i) => i.source.addsToSupply !== false && directLive(i.s))
      .map((i) => ({ source: i.source.id, to: i.from, certain: i.source.addsToSupply === true })),
    takers: states,
    neutralsMeet: neutralsThatMeet(core, moment).map(([a, b]) => ({
      guards: [problem.guards[a]?.id ?? "", problem.guards[b]?.id ?? ""] as const,
    })),
    ownCharge: core.chargers.flatMap(({ taker, plus, takes }) => {
      const feeders = states[taker]?.sources ?? [];
      if (plus < 0 || !holds(takes, moment.values)) return [];
      return problem.sources.flatMap((s) => {
        if (s.direct === null || !feeders.includes(s.id)) return [];
        const input = core.nodeOf[s.direct.plus] ?? -1;
        const oneStore = rootOf(joined, input) === rootOf(joined, plus);
        return oneStore ? [{ charger: problem.takers[taker]?.id ?? "", inverter: s.id }] : [];
      });
    }),
  };

  function lawfulTogether(a: boolean | "unknown" = false, b: boolean | "unknown" = false): boolean | "unknown" {
    return a === true || b === true ? true : a === "unknown" || b === "unknown" ? "unknown" : false;
  }
}
