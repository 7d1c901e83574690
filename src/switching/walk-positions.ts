import { judgeMoments, isAllowed } from "./judge-moment.ts";
import type { Core } from "./lay-core.ts";
import type { Reached, ReachedGroup, ReachedTransient, TooLarge } from "./reached.ts";
import { moved, nextMoves, pairsInParallel } from "./settle.ts";

/** Number of combinations of real positions of some movers. */
export const combinationsOf = (core: Core, which: (itself: boolean) => boolean): number =>
  core.movers.reduce((product, m) => (which(m.itself) ? product * m.real : product), 1);

/**
 * Looks at every combination of positions by itself, breadth first from everything off: what is reached by one action more comes after all that is reached
 * by fewer.
 *
 * @param most groups beyond which it gives up
 */
export function walkPositions(core: Core, most: number): Reached | TooLarge {
  const { movers } = core;
  const count = movers.length;
  const weight = new Array<number>(count).fill(1);
  for (let m = count - 2; m >= 0; m--) weight[m] = (weight[m + 1] ?? 1) * (movers[m + 1]?.real ?? 1);
  const total = combinationsOf(core, () => true);
  const judge = judgeMoments(core);
  const indexOf = (values: Uint8Array): number => {
    let i = 0;
    for (let m = 0; m < count; m++) i += (values[m] ?? 0) * (weight[m] ?? 1);
    return i;
  };
  const valuesOf = (index: number, into = new Uint8Array(count)): Uint8Array => {
    for (let m = 0; m < count; m++) into[m] = Math.floor(index / (weight[m] ?? 1)) % (movers[m]?.real ?? 1);
    return into;
  };

  const UNSEEN = -2;
  /** Where each state goes by itself; itself: it rests. */
  const next = new Int32Array(total).fill(UNSEEN);
  const group = new Int32Array(total).fill(-1);
  const distance = new Int32Array(total).fill(-1);
  const parent = new Int32Array(total).fill(-1);
  const allowed = new Int8Array(total).fill(-1);
  const scratch = new Uint8Array(count);
  const isLawful = (index: number): boolean => {
    if (core.interlocks.length === 0) return true;
    if (allowed[index] === -1) allowed[index] = isAllowed(core, valuesOf(index, scratch)) ? 1 : 0;
    return allowed[index] === 1;
  };
  const groups: { example: number; count: number; distance: number; rests: boolean }[] = [];
  const byKey = new Map<string, number>();
  const moves = new Map<number, ReturnType<typeof nextMoves>>();
  const goes = (index: number): number => {
    const known = next[index] ?? UNSEEN;
    if (known !== UNSEEN) return known;
    const values = valuesOf(index);
    const moment = judge.look(values);
    const key = judge.signature(moment);
    const own = nextMoves(core, judge, moment);
    const rests = own.length === 0;
    const named = rests ? key : `${key}!`;
    let g = byKey.get(named);
    if (g === undefined) {
      g = groups.length;
      byKey.set(named, g);
      groups.push({ example: -1, count: 0, distance: -1, rests });
    }
    group[index] = g;
    const to = rests ? index : indexOf(moved(values, own));
    if (!rests) moves.set(index, own);
    next[index] = to;
    return to;
  };

  const queue: number[] = [];
  const arrive = (index: number, from: number, steps: number): void => {
    if (distance[index] !== -1) return;
    distance[index] = steps;
    parent[index] = from;
    queue.push(index);
    const g = groups[group[index] ?? -1];
    if (g === undefined) return;
    g.count++;
    if (g.distance === -1 || (g.distance === steps && index < g.example)) {
      g.distance = steps;
      g.example = index;
    }
  };
  const transients = new Map<string, ReachedTransient>();
  const watched = movers.some((m) => m.overlaps.length > 0);
  const meet = (values: Uint8Array, mover: number, to: number, prior: number, steps: number): void => {
    const itself = movers[mover]?.itself === true;
    const from = values[mover] ?? 0;
    const overlap = movers[mover]?.overlaps.find(
      (o) => (o.from === from && o.to === to) || (o.from === to && o.to === from),
    );
    if (overlap === undefined) return;
    const both = values.slice();
    both[mover] = overlap.value;
    for (const sources of pairsInParallel(core, judge.look(both))) {
      const key = [mover, from, to, itself, ...sources].join();
      const known = transients.get(key);
      if (known !== undefined && known.distance <= steps) continue;
      transients.set(key, { mover, from, to, sources, itself, distance: steps, before: values.slice(), prior: prior < 0 ? null : valuesOf(prior) }); // prettier-ignore
    }
  };
  const watchOwn = (index: number, prior: number, steps: number): void => {
    if (!watched) return;
    const values = valuesOf(index);
    for (const own of moves.get(index) ?? []) meet(values, own.mover, own.to, prior, steps);
  };
  /** Follows what moves by itself; all states of an endless round are arrived at. */
  const follow = (index: number, from: number, steps: number): void => {
    let at = index;
    const way = new Set<number>();
    for (;;) {
      const to = goes(at);
      if (to === at) {
        arrive(at, from, steps);
        return;
      }
      watchOwn(at, from, steps);
      if (way.has(at)) break;
      way.add(at);
      at = to;
    }
    for (let round = at; ;) {
      arrive(round, from, steps);
      round = goes(round);
      if (round === at) return;
    }
  };

  const start = indexOf(Uint8Array.from(movers, (m) => m.start));
  if (isLawful(start)) follow(start, -1, 0);
  const before = new Uint8Array(count);
  for (let i = 0; i < queue.length; i++) {
    if (groups.length > most) return { tooLarge: "groups", limit: most, count: groups.length };
    const at = queue[i] ?? 0;
    const steps = (distance[at] ?? 0) + 1;
    if (watched) valuesOf(at, before);
    for (let m = 0; m < count; m++) {
      const mover = movers[m];
      if (mover === undefined || mover.itself) continue;
      const w = weight[m] ?? 1;
      const value = Math.floor(at / w) % mover.real;
      for (let to = 0; to < mover.real; to++) {
        if (to === value) continue;
        const index = at + (to - value) * w;
        if (!isLawful(index)) continue;
        if (watched) meet(before, m, to, at, steps);
        follow(index, at, steps);
      }
    }
  }

  return {
    groups: groups.flatMap((g): ReachedGroup[] => (g.count === 0 ? [] : [{ ...g, example: valuesOf(g.example) }])),
    transients: [...transients.values()],
    ...countCombinations(core, total, valuesOf, (i) => distance[i] !== -1),
    taken: movers.map((m, i) =>
      Array.from({ length: m.real }, (_, v) => queue.some((s) => Math.floor(s / (weight[i] ?? 1)) % m.real === v)),
    ),
    wayTo: (example) => {
      const way: Uint8Array[] = [];
      for (let at = indexOf(example); at !== -1; at = parent[at] ?? -1) way.unshift(valuesOf(at));
      return way;
    },
  };
}

/** Counts combinations of what hands and the outside move. */
function countCombinations(
  core: Core,
  total: number,
  valuesOf: (index: number, into?: Uint8Array<ArrayBuffer>) => Uint8Array,
  isReached: (index: number) => boolean,
): Pick<Reached, "combinations" | "reachedCombinations" | "forbidden" | "enclosed"> {
  const { movers } = core;
  const combinations = combinationsOf(core, (itself) => !itself);
  if (core.interlocks.length === 0 && !movers.some((m) => m.itself)) {
    return { combinations, reachedCombinations: combinations, forbidden: [], enclosed: null };
  }
  // What moves by itself is left out of the number of a combination.
  const reached = new Uint8Array(combinations);
  const least = new Int32Array(combinations).fill(-1);
  const values = new Uint8Array(movers.length);
  for (let index = 0; index < total; index++) {
    valuesOf(index, values);
    let c = 0;
    movers.forEach((m, i) => {
      if (!m.itself) c = c * m.real + (values[i] ?? 0);
    });
    if (least[c] === -1) least[c] = index;
    if (isReached(index)) reached[c] = 1;
  }
  const forbidden = core.interlocks.map(() => 0);
  const byHand = core.interlocks.map((never) => never.every((c) => c.mover < 0 || movers[c.mover]?.itself !== true));
  let enclosed = 0;
  let example = -1;
  for (let c = 0; c < combinations; c++) {
    valuesOf(least[c] ?? 0, values);
    let lawful = true;
    core.interlocks.forEach((never, k) => {
      if (byHand[k] !== true || !never.every((at) => at.mover < 0 || ((at.mask >> (values[at.mover] ?? 0)) & 1) === 1))
        return;
      lawful = false;
      forbidden[k] = (forbidden[k] ?? 0) + 1;
    });
    if (!lawful || reached[c] === 1) continue;
    enclosed++;
    if (example === -1) example = least[c] ?? 0;
  }
  return {
    combinations,
    reachedCombinations: reached.reduce((sum, r) => sum + r, 0),
    forbidden,
    enclosed: enclosed === 0 ? null : { count: enclosed, example: valuesOf(example) },
  };
}
