import { isAllowed, type Moment, type MomentJudge } from "./judge-moment.ts";
import type { Core } from "./lay-core.ts";

/** One move that a mover makes by itself. */
export interface OwnMove {
  readonly mover: number;
  readonly from: number;
  readonly to: number;
  readonly after: number;
}

/**
 * What moves next by itself: of all that would go elsewhere those that wait least, together. A move that an interlock forbids does not happen; nor do
 * moves at one time that may not both be.
 *
 * Every wait begins anew after each move, so the order of two waits that began at different moments is that of their lengths.
 *
 * @returns empty: it rests
 */
export function nextMoves(core: Core, judge: MomentJudge, moment: Moment): readonly OwnMove[] {
  let waiting: OwnMove[] | null = null;
  for (let m = 0; m < core.movers.length; m++) {
    if (core.movers[m]?.itself !== true) continue;
    const r = judge.rule(moment, m);
    const rule = core.rules[m]?.[r];
    const from = moment.values[m] ?? 0;
    if (rule === undefined || rule.to === from) continue;
    const move = { mover: m, from, to: rule.to, after: rule.after };
    if (isAllowed(core, moved(moment.values, [move]))) (waiting ??= []).push(move);
  }
  if (waiting === null) return NONE;
  waiting.sort((a, b) => a.after - b.after);
  for (let i = 0; i < waiting.length;) {
    const after = waiting[i]?.after;
    const together = waiting.filter((w) => w.after === after);
    if (isAllowed(core, moved(moment.values, together))) return together;
    i += together.length;
  }
  return NONE;
}

const NONE: readonly OwnMove[] = [];

/** The same positions after some moves. */
export function moved(
  values: Uint8Array,
  moves: readonly { readonly mover: number; readonly to: number }[],
): Uint8Array {
  const after = values.slice();
  for (const { mover, to } of moves) after[mover] = to;
  return after;
}

/** What follows by itself, move by move, until it rests or a state comes again. */
export function settle(
  core: Core,
  judge: MomentJudge,
  values: Uint8Array,
): {
  readonly path: readonly { readonly moves: readonly OwnMove[]; readonly values: Uint8Array }[];
  readonly rests: boolean;
} {
  const path: { moves: readonly OwnMove[]; values: Uint8Array }[] = [];
  const seen = new Set([values.join()]);
  for (let at = values; ;) {
    const moves = nextMoves(core, judge, judge.look(at));
    if (moves.length === 0) return { path, rests: true };
    at = moved(at, moves);
    path.push({ moves, values: at });
    const key = at.join();
    if (seen.has(key)) return { path, rests: false };
    seen.add(key);
  }
}

/** Pairs of sources whose lines are one piece of metal while both give. */
export function pairsInParallel(core: Core, { gives, joined, lineOf }: Moment): readonly (readonly [number, number])[] {
  const pairs = new Map<number, readonly [number, number]>();
  for (let node = 0; node < joined.length; node++) {
    const mask = lineOf[node] ?? 0;
    if ((mask & (mask - 1)) === 0) continue;
    for (let a = 0; a < core.sources.length; a++) {
      if (((mask >> a) & 1) === 0 || core.sources[a]?.alternating !== true) continue;
      for (let b = a + 1; b < core.sources.length; b++) {
        if (((mask >> b) & 1) === 1 && ((gives >> b) & 1) === 1 && core.sources[b]?.alternating === true) {
          pairs.set(a * 64 + b, [a, b]);
        }
      }
    }
  }
  return [...pairs.entries()].sort(([a], [b]) => a - b).map(([, pair]) => pair);
}
