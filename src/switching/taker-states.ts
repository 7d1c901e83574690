import { holds, type Moment } from "./judge-moment.ts";
import type { Core, Condition } from "./lay-core.ts";
import { closedJoins, type ClosedJoin } from "./list-islands.ts";
import type { GuardOnWay, TakerState } from "./study.ts";
import { rootOf, unite } from "./union-find.ts";

/** How each taker is fed, and what guards it. */
export function takerStates(core: Core, moment: Moment): TakerState[] {
  const { problem, sources, nodeOf } = core;
  const { joined, lineOf, neutralOf } = moment;
  const joins = closedJoins(core, moment);
  const cuts = problem.guards.map((_, g) => withoutGuard(core, moment, g));
  const alternating = sources.reduce((mask, s, i) => (s.alternating ? mask | (1 << i) : mask), 0);
  const takesIn = new Map<number, Condition>(core.chargers.map((c) => [c.taker, c.takes]));

  return problem.takers.map((taker, t): TakerState => {
    const core_ = (n: number | null): number => (n === null ? -1 : (nodeOf[n] ?? -1));
    const root = (n: number): number => rootOf(joined, n);
    const lines = taker.lines.map(core_);
    const neutral = core_(taker.neutral);
    const earth = core_(taker.earth);
    const masks = lines.map((n) => (lineOf[root(n)] ?? 0) & alternating);
    const any = masks.reduce((a, b) => a | b, 0);
    const shared = masks.reduce((a, b) => a & b, any);
    const atNeutral = neutral < 0 ? 0 : (neutralOf[root(neutral)] ?? 0) & alternating;
    const lineAtNeutral = neutral < 0 ? 0 : (lineOf[root(neutral)] ?? 0) & alternating;
    const neutralAtLine = lines.reduce((m, n) => m | (neutralOf[root(n)] ?? 0), 0) & alternating;
    const feeding = any | (lineAtNeutral & neutralAtLine);
    const ends = new Set([...lines, ...(neutral < 0 ? [] : [neutral])].map(root));
    const state = ((): TakerState["state"] => {
      if (lineAtNeutral !== 0 && neutralAtLine !== 0 && any === 0) return "reversed";
      if (any === 0) return "dead";
      if (masks.some((m) => m === 0)) return "half";
      if (ends.size === 1) return "no volts";
      if (neutral >= 0 && atNeutral === 0) return "no neutral";
      if (shared === 0 || (neutral >= 0 && (shared & atNeutral) === 0)) return "mixed";
      return "fed";
    })();
    const own = joins.filter((j) => ((neutralOf[root(j.neutral)] ?? 0) & feeding) !== 0);
    return {
      taker: taker.id,
      state,
      sources: problem.sources.flatMap((s, i) => (((feeding >> i) & 1) === 1 ? [s.id] : [])),
      neutralJoined: atNeutral !== 0,
      takes: holds(takesIn.get(t) ?? { mover: -1, mask: 0 }, moment.values),
      earth: earthState(feeding, earth, own),
      guards: feeding === 0 ? [] : guardsOn(taker.part, lines, neutral, feeding, own),
    };

    function earthState(fed: number, at: number, of: readonly ClosedJoin[]): TakerState["earth"] {
      if (fed === 0) return "dead";
      if (at < 0) return "none";
      const reached = of.filter((j) => j.earth >= 0 && root(j.earth) === root(at));
      if (reached.some((j) => j.certain)) return "joined";
      if (reached.length > 0) return "unknown";
      return of.length > 0 ? "open" : "no join";
    }
  });

  function guardsOn(
    part: string,
    lines: readonly number[],
    neutral: number,
    feeding: number,
    own: readonly ClosedJoin[],
  ): GuardOnWay[] {
    const feeders = sources.filter((_, s) => ((feeding >> s) & 1) === 1);
    return problem.guards.flatMap((guard, g): GuardOnWay[] => {
      if (guard.contacts.length === 0) {
        if (guard.part !== part) return [];
        // It stands in the taker itself, so all joins lie ahead of it.
        return [{ guard: guard.id, joinAhead: joinAhead(own, () => true), neutralThrough: neutral < 0 ? null : true }];
      }
      const cut = cuts[g];
      if (cut === undefined) return [];
      const reach = (from: number, to: number): boolean => from >= 0 && rootOf(cut, from) === rootOf(cut, to);
      const passes = lines.some((n) => feeders.some((s) => s.lines.some((from) => reach(from, n))));
      if (passes) return [];
      const ahead = (j: ClosedJoin): boolean => feeders.some((s) => reach(s.neutral, j.neutral));
      return [
        {
          guard: guard.id,
          joinAhead: joinAhead(own, ahead),
          neutralThrough: neutral < 0 ? null : !feeders.some((s) => reach(s.neutral, neutral)),
        },
      ];
    });
  }
}

function joinAhead(joins: readonly ClosedJoin[], isAhead: (join: ClosedJoin) => boolean): GuardOnWay["joinAhead"] {
  const behind = joins.filter((j) => !isAhead(j));
  if (behind.some((j) => j.certain)) return false;
  if (behind.length > 0) return "unknown";
  if (joins.length === 0) return "no join";
  return joins.some((j) => j.certain) ? true : "perhaps none";
}

/** Pieces of metal with one guard taken out and all else as it stands. */
function withoutGuard(core: Core, { unguarded, values }: Moment, guard: number): Int32Array {
  const parent = unguarded.slice();
  for (const c of core.guarded) if (c.guard !== guard && holds(c, values)) unite(parent, c.a, c.b);
  return parent;
}

/**
 * Pairs of closed guards that lead into one live piece of neutral behind them.
 *
 * Guards in series stand one behind the other and are no such pair: seen from the sources, the second begins where the first ends.
 */
export function neutralsThatMeet(core: Core, moment: Moment): (readonly [number, number])[] {
  const { unguarded, joined, neutralOf, gives, values } = moment;
  const piece = (n: number): number => rootOf(unguarded, n);
  const closed = core.guarded.filter(
    (c) => holds(c, values) && (neutralOf[rootOf(joined, c.a)] ?? 0) !== 0 && piece(c.a) !== piece(c.b),
  );
  const depth = new Map<number, number>();
  core.sources.forEach((s, i) => {
    if (s.alternating && s.neutral >= 0 && ((gives >> i) & 1) === 1) depth.set(piece(s.neutral), 0);
  });
  for (let deep = 0, grew = true; grew; deep++) {
    grew = false;
    for (const c of closed) {
      const [a, b] = [piece(c.a), piece(c.b)];
      for (const [from, to] of [
        [a, b],
        [b, a],
      ] as const) {
        if (depth.get(from) !== deep || depth.has(to)) continue;
        depth.set(to, deep + 1);
        grew = true;
      }
    }
  }
  const into = new Map<number, Set<number>>();
  for (const c of closed) {
    const [a, b] = [piece(c.a), piece(c.b)];
    const [da, db] = [depth.get(a) ?? 0, depth.get(b) ?? 0];
    // Between two pieces equally far from the sources it leads into both.
    const ends = da === db ? [a, b] : [da > db ? a : b];
    for (const end of ends) into.set(end, (into.get(end) ?? new Set()).add(c.guard));
  }
  const pairs = new Map<number, readonly [number, number]>();
  for (const guards of into.values()) {
    const list = [...guards].sort((x, y) => x - y);
    list.forEach((g, i) => {
      list.slice(i + 1).forEach((h) => pairs.set(g * 4096 + h, [g, h]));
    });
  }
  return [...pairs.entries()].sort(([x], [y]) => x - y).map(([, pair]) => pair);
}
