import { findAmps, findSlope, findVolts, LAW, type Circuit } from "./circuit.ts";
import { raiseDemand } from "./find-collapse.ts";
import { LEAST_OHMS } from "./set-branches.ts";
import { findPathVolts } from "./path-volts.ts";
import { hasFaded, settleVolts, type Settling } from "./settle-volts.ts";

/**
 * The two sides of each converter made to agree.
 *
 * For the network a converter is two branches that know nothing of each other: an input that takes a power, an output
 * that pushes up to a limit. One number a converter ties them, and is settled in rounds:
 *
 * - it *needs*: the number is the power W that the input takes, and must be  W = P(out) ÷ η + idle;
 * - it *passes*: the input is held (a tracker by its volts, any other by its greatest input current), and the number is
 *   the most that the output may push, and must be  P(most) = η · (P(in) − idle).
 *
 * Each round solves the network and looks at what the numbers should have been. The next guess is Newton's, from the
 * response of every port to every number (a path solution each). Where a loop through the network amplifies, as of a
 * charger that holds the volts of the very bank that feeds its inverter, there may be nothing to meet below the
 * charger's limit: then the numbers run there, as they would in time. Everything starts from nothing and rises, as when
 * the gear is switched on.
 */

export interface Converters {
  readonly count: number;
  /** By converter: its two branches. */
  readonly input: Int32Array;
  readonly output: Int32Array;
  /** By converter: 1 = takes part. */
  readonly on: Uint8Array;
  readonly tracks: Uint8Array;
  readonly efficiency: Float64Array;
  readonly idleWatts: Float64Array;
  readonly inputAmps: Float64Array;
  readonly trackVolts: Float64Array;
  /** The most the output can ever push, W. */
  readonly mostWatts: Float64Array;
  /** 1 = passes on what arrives, 0 = takes what it needs. */
  readonly passes: Uint8Array;
  /** The number that ties the two sides, W. */
  readonly tie: Float64Array;
}

const MOST_ROUNDS = 100;
const LEAST_PART = 1 / 64;
/**
 * How closely the two sides agree, as a part of the converter's greatest power; the volts of a stiff output leave a
 * 1e-10 of noise.
 */
const AGREED = 1e-9;
/** How often one converter may change between needing and passing before it is left as it is. */
const MOST_CHANGES = 6;
const SAME = 1e-7;

/** Leaves each converter as it is when nothing flows yet. */
export function resetConverters(k: Converters): void {
  for (let j = 0; j < k.count; j++) {
    k.passes[j] = k.tracks[j] ?? 0;
    k.tie[j] = k.tracks[j] === 1 ? 0 : (k.idleWatts[j] ?? 0);
  }
}

/** Gives the branches of the converters their laws and numbers. */
function setTies(c: Circuit, k: Converters): void {
  for (let j = 0; j < k.count; j++) {
    if (k.on[j] === 0) continue;
    const i = k.input[j] ?? 0;
    const o = k.output[j] ?? 0;
    const tie = k.tie[j] ?? 0;
    const inputAmps = k.inputAmps[j] ?? Infinity;
    c.amps[i] = inputAmps;
    if (k.passes[j] === 0) {
      c.law[i] = LAW.watts;
      c.watts[i] = tie;
      c.watts[o] = Infinity;
    } else {
      c.watts[o] = tie;
      if (k.tracks[j] === 1) {
        const track = k.trackVolts[j] ?? 0;
        c.law[i] = LAW.clamp;
        c.volts[i] = track;
        // As stiff as a source: a millionth of its volts over the current that its full power needs.
        const watts = (k.mostWatts[j] ?? 0) / (k.efficiency[j] ?? 1) + 1e-3;
        c.siemens[i] = Math.min(1 / LEAST_OHMS, (watts / track / track) * 1e6);
      } else c.law[i] = LAW.amps;
    }
  }
}

const findWatts = (c: Circuit, b: number): number => {
  const v = findVolts(c, b);
  return v * findAmps(c, b, v);
};

/** How it ended. */
export interface ConverterOutcome {
  /** Empty, or by branch the part that each load has in a collapse: then nothing else counts. */
  readonly collapse: ReadonlyMap<number, number>;
  /** Whether the volts settled in the last round. */
  readonly settled: boolean;
  /** Whether the two sides of every converter agree. */
  readonly agreed: boolean;
}

/**
 * Settles the volts together with what the converters take and pass.
 *
 * @param start volts without load; where the volts of an input have to be looked for from above, it starts there again
 */
export function settleConverters(c: Circuit, k: Converters, start: Float64Array, told: Settling): ConverterOutcome {
  const none: ReadonlyMap<number, number> = new Map();
  let active = 0;
  for (let j = 0; j < k.count; j++) active += k.on[j] ?? 0;
  const target = new Float64Array(k.count);
  const before = new Float64Array(k.count);
  const changes = new Uint8Array(k.count);
  let leapt = false;
  let last: Float64Array = new Float64Array(k.count);
  let part = 1;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    setTies(c, k);
    if (settleVolts(c, told) !== "settled" || hasFaded(c)) {
      if (leapt) {
        // A guess may overshoot what the network can bear: the plain next value first, before anything is called a
        // collapse.
        leapt = false;
        k.tie.set(before);
        c.x.set(start);
        continue;
      }
      const collapse = raiseDemand(c, start, told);
      if (collapse !== null) return { collapse, settled: false, agreed: false };
    }
    if (active === 0) return { collapse: none, settled: true, agreed: true };
    const { changed, farthest } = findTargets(c, k, target, changes, start);
    if (changed) {
      leapt = false;
      continue;
    }
    if (farthest <= AGREED) return { collapse: none, settled: true, agreed: true };
    before.set(target);
    const step = findTieStep(c, k, target);
    // Two conditions may take turns about a corner that lies between them: shorter steps then lead to it.
    let along = 0;
    for (let j = 0; j < k.count; j++) along += (step[j] ?? 0) * (last[j] ?? 0);
    part = along < 0 ? Math.max(part / 2, LEAST_PART) : Math.min(1, part * 1.5);
    last = step;
    leapt = true;
    for (let j = 0; j < k.count; j++) {
      if (k.on[j] === 0) continue;
      const tie = k.tie[j] ?? 0;
      const most = (k.mostWatts[j] ?? 0) / (k.efficiency[j] ?? 1) + (k.idleWatts[j] ?? 0);
      const top = k.passes[j] === 1 ? Math.max(target[j] ?? 0, tie) : Math.max(most, target[j] ?? 0);
      k.tie[j] = Math.min(Math.max(0, tie + part * (step[j] ?? 0)), top);
    }
  }
  return { collapse: none, settled: true, agreed: false };
}

/** What the ties should have been; and which converters have to change between needing and passing. */
function findTargets(
  c: Circuit,
  k: Converters,
  target: Float64Array,
  changes: Uint8Array,
  start: Float64Array,
): { readonly changed: boolean; readonly farthest: number } {
  let changed = false;
  let farthest = 0;
  let restart = false;
  for (let j = 0; j < k.count; j++) {
    if (k.on[j] === 0) continue;
    const i = k.input[j] ?? 0;
    const o = k.output[j] ?? 0;
    const tie = k.tie[j] ?? 0;
    const eta = k.efficiency[j] ?? 1;
    const idle = k.idleWatts[j] ?? 0;
    const pushed = -findWatts(c, o);
    const vIn = findVolts(c, i);
    const needed = Math.max(0, pushed) / eta + idle;
    const passed = Math.max(0, eta * (vIn * findAmps(c, i, vIn) - idle));
    const mayChange = (changes[j] ?? 0) < MOST_CHANGES;
    if (k.passes[j] === 0) {
      target[j] = needed;
      const isBound =
        k.tracks[j] === 1
          ? vIn < (k.trackVolts[j] ?? 0) * (1 - SAME)
          : tie > 0 && findAmps(c, i, vIn) >= (k.inputAmps[j] ?? Infinity) * (1 - SAME);
      if (isBound && mayChange) {
        k.passes[j] = 1;
        k.tie[j] = k.tracks[j] === 1 ? 0 : passed;
        changes[j] = (changes[j] ?? 0) + 1;
        changed = true;
      }
    } else {
      target[j] = passed;
      // The output does not take all that it may have, and that much does arrive.
      if (pushed < tie * (1 - SAME) && tie <= passed * (1 + SAME) && mayChange) {
        k.passes[j] = 0;
        k.tie[j] = needed;
        changes[j] = (changes[j] ?? 0) + 1;
        changed = true;
        // A tracker that takes less than arrives works above its tracking volts: to be looked for from above.
        if (k.tracks[j] === 1) restart = true;
      }
    }
    const size = Math.max(k.mostWatts[j] ?? 0, idle, tie, 1e-9);
    farthest = Math.max(farthest, Math.abs((target[j] ?? 0) - tie) / size);
  }
  if (restart) c.x.set(start);
  return { changed, farthest };
}

/**
 * The step for all ties at once, (1 + σ − J)·Δ = target − tie with J = ∂target/∂tie.
 *
 * With σ = 0 it is Newton's. Where a loop amplifies, that would lead back to where the loop hangs in unstable balance;
 * a σ above the gain beyond 1 is a step in time instead (implicit, of length 1/σ) of gear that follows its demand with
 * some delay, and leads away from there.
 */
function findTieStep(c: Circuit, k: Converters, target: Float64Array): Float64Array {
  const n = k.count;
  const gap = new Float64Array(n);
  for (let j = 0; j < n; j++) gap[j] = k.on[j] === 0 ? 0 : (target[j] ?? 0) - (k.tie[j] ?? 0);
  const jacobian = findResponses(c, k);
  if (jacobian === null) return gap;
  const isSolved = (delay: number, step: Float64Array) =>
    solveWithoutExchange(
      jacobian.map((value, at) => (Math.floor(at / n) === at % n ? 1 + delay : 0) - value),
      step,
      n,
    );
  for (let delay = 0; delay < 1e3; delay = Math.max(0.005, 2 * delay)) {
    const step = gap.slice();
    if (!isSolved(delay, step)) continue;
    if (delay === 0) return step;
    // Twice the delay that just does: away at a measured pace, not at a bound.
    step.set(gap);
    return isSolved(2 * delay, step) ? step : gap;
  }
  return gap;
}

/** J = ∂target/∂tie, row by row; null if no converter feels another, or itself. */
function findResponses(c: Circuit, k: Converters): Float64Array | null {
  const n = k.count;
  // What a converter feels, it feels at the port that its target is worked out from; and only from its own island.
  const port = (j: number) => (k.passes[j] === 1 ? k.input[j] : k.output[j]) ?? 0;
  const islandOf = (b: number) => c.island[c.plus[b] ?? 0] ?? -1;
  const feeling = new Map<number, number[]>();
  for (let j = 0; j < n; j++) {
    if (k.on[j] === 0) continue;
    const island = islandOf(port(j));
    const others = feeling.get(island);
    if (others === undefined) feeling.set(island, [j]);
    else others.push(j);
  }
  let jacobian: Float64Array | null = null;
  for (let s = 0; s < n; s++) {
    if (k.on[s] === 0) continue;
    // One watt more of the tie: where it is drawn, and how much current that is.
    const b = (k.passes[s] === 1 ? k.output[s] : k.input[s]) ?? 0;
    const felt = feeling.get(islandOf(b)) ?? [];
    const v = findVolts(c, b);
    const moves =
      v > 0 &&
      (k.passes[s] === 1
        ? -findAmps(c, b, v) * v >= (k.tie[s] ?? 0) * (1 - SAME)
        : findAmps(c, b, v) < (k.inputAmps[s] ?? Infinity) * (1 - SAME));
    if (!moves || felt.length === 0) continue;
    jacobian ??= new Float64Array(n * n);
    const watched = Int32Array.from(felt, port);
    const response = new Float64Array(felt.length);
    findPathVolts(c, b, (k.passes[s] === 1 ? -1 : 1) / v, watched, response);
    for (const [at, j] of felt.entries()) {
      const w = watched[at] ?? 0;
      const vw = findVolts(c, w);
      const perVolt = findAmps(c, w, vw) + vw * findSlope(c, w, vw);
      const eta = k.efficiency[j] ?? 1;
      jacobian[j * n + s] = (k.passes[j] === 1 ? eta * perVolt : -perVolt / eta) * (response[at] ?? 0);
    }
  }
  return jacobian;
}

/** The least pivot that counts as positive: a loop of a gain of 0.999 is one that amplifies. */
const LEAST_PIVOT = 1e-3;

/**
 * Gaussian elimination in place, without exchange of rows; false if a pivot is not positive.
 *
 * For 1 − J with J ≥ 0 all pivots are positive exactly if all loops die away (it is then an M-matrix); of a single loop
 * of gain γ the last pivot is 1 − γ, whatever the sign of γ.
 */
function solveWithoutExchange(a: Float64Array, b: Float64Array, n: number): boolean {
  for (let k = 0; k < n; k++) {
    const pivot = a[k * n + k] ?? 0;
    if (!(pivot > LEAST_PIVOT)) return false;
    for (let i = k + 1; i < n; i++) {
      const factor = (a[i * n + k] ?? 0) / pivot;
      if (factor === 0) continue;
      for (let j = k; j < n; j++) a[i * n + j] = (a[i * n + j] ?? 0) - factor * (a[k * n + j] ?? 0);
      b[i] = (b[i] ?? 0) - factor * (b[k] ?? 0);
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = b[k] ?? 0;
    for (let j = k + 1; j < n; j++) sum -= (a[k * n + j] ?? 0) * (b[j] ?? 0);
    b[k] = sum / (a[k * n + k] ?? 1);
  }
  return true;
}
