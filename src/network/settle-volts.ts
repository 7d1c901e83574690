import { factorCircuit, findAmps, findSlope, findVolts, LAW, type Circuit } from "./circuit.ts";

/**
 * Newton's method for the volts of all nodes.
 *
 * The currents out of the nodes, as functions of their volts, are the slope of one scalar function (the *content*: for
 * each branch the area under its current over its volts). The matrix of the method is the curvature of that function.
 * So each step goes downhill, a search along the step says how far, and a round can neither repeat nor go back: the
 * corners of chargers and controllers (holding, at the limit, blocked) need no trying out of combinations.
 *
 * Only loads of constant power bend the other way (−P/v²). Started at the volts without load, the steps fall towards
 * the highest volts at which the network can stand (on a network with one return the matrix is an M-matrix there and
 * the fall is monotone: Newton's method on a convex, isotone system). Where the matrix is not positive definite the
 * network cannot stand: all the chargers that still rise may be at their limits and the loads go on pulling. Then the
 * steps go downhill without the bending of the loads, to where another source comes in, or to where the loads have no
 * volts left; that is a collapse, and `find-collapse.ts` looks into it.
 */

export type Settled = "settled" | "collapsed" | "capped";

/** Rounds allowed; a network far from its limits needs four or five, one a billionth below its limit about twenty. */
const MOST_ROUNDS = 80;
/** A step smaller than this part of the greatest source volts is the last. */
const SETTLED = 1e-12;
/** No step changes volts by more than this many times the greatest source volts. */
const MOST_STEP = 2;
/** A step smaller than this part is taken whole: rounding hides which way is down. */
const TINY = 1e-10;
/** Where rounding keeps steps from shrinking further, they are accepted below this part. */
const NOISE = 1e-9;

/** What is told about a run, for those who count. */
export interface Settling {
  rounds: number;
  factorings: number;
}

/**
 * Brings the volts of a circuit to where every node gives away what it gets.
 *
 * Starts from the volts that are there, and leaves its result there. The references keep their 0 V.
 *
 * @returns "settled"; "collapsed" once loads have lost their volts where nothing holds them; "capped" when the rounds
 * are used up
 */
export function settleVolts(c: Circuit, told: Settling): Settled {
  const { x, step, residual, isReference } = c;
  const n = c.nodeCount;
  let lastSize = Infinity;
  let small = 0;
  setStay(c, 1);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    told.rounds++;
    const changed = setResidual(c);
    // The last step may have crossed a corner, where a hair of a volt is a current: then once more.
    if (small > 0 && (!changed || small > 3)) return "settled";
    if (changed || !c.isFactored) {
      told.factorings++;
      if (factorCircuit(c) >= 0 && factorCircuit(c, true) >= 0) return "capped";
    }
    let size = 0;
    for (let i = 0; i < n; i++) step[i] = isReference[i] === 1 ? 0 : -(residual[i] ?? 0);
    c.matrix.solve(step);
    for (let i = 0; i < n; i++) size = Math.max(size, Math.abs(step[i] ?? 0));
    if (!(size < Infinity)) return "capped";
    const length = c.curvedCount === 0 || size <= TINY * c.voltScale ? 1 : findStepLength(c, size);
    for (let i = 0; i < n; i++) x[i] = (x[i] ?? 0) + length * (step[i] ?? 0);
    if (c.isSoft && hasFaded(c)) return "collapsed";
    const isSmall =
      size <= SETTLED * c.voltScale || (length === 1 && size <= NOISE * c.voltScale && size > lastSize * 0.9);
    small = isSmall && c.stayTimes === 1 && !c.isSoft ? small + 1 : 0;
    // Where nearly nothing of a step can be taken, something that hardly anything holds is in the way of all the rest:
    // hold it more.
    if (length < 0.1) setStay(c, Math.min(c.stayTimes * 100, 1e8));
    else if (length >= 0.5) setStay(c, Math.max(c.stayTimes / 100, 1));
    lastSize = length === 1 ? size : Infinity;
  }
  return "capped";
}

/** Whether there are loads whose volts are all but gone though they have some without load. */
export function hasFaded(c: Circuit): boolean {
  for (let k = 0; k < c.curvedCount; k++) {
    const b = c.curved[k] ?? 0;
    if (c.law[b] !== LAW.amps && c.law[b] !== LAW.watts) continue;
    const fade = c.fade[b] ?? 0;
    if (findVolts(c, b) < fade * (1 - 1e-9) && findAmps(c, b, fade) > 0) return true;
  }
  return false;
}

function setStay(c: Circuit, times: number): void {
  if (c.stayTimes === times) return;
  c.stayTimes = times;
  c.isFactored = false;
}

/** Works out the current missing at each node; true if a slope is no longer the one that the matrix was factored with. */
function setResidual(c: Circuit): boolean {
  const { residual, plus, minus, x, siemens, volts, linear, curved, slope } = c;
  residual.fill(0);
  for (let k = 0, count = c.linearCount; k < count; k++) {
    const b = linear[k] ?? 0;
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    const i = (siemens[b] ?? 0) * ((x[p] ?? 0) - (x[m] ?? 0) - (volts[b] ?? 0));
    residual[p] = (residual[p] ?? 0) + i;
    residual[m] = (residual[m] ?? 0) - i;
  }
  let changed = false;
  for (let k = 0, count = c.curvedCount; k < count; k++) {
    const b = curved[k] ?? 0;
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    const v = (x[p] ?? 0) - (x[m] ?? 0);
    const i = findAmps(c, b, v);
    residual[p] = (residual[p] ?? 0) + i;
    residual[m] = (residual[m] ?? 0) - i;
    const now = findSlope(c, b, v);
    // A difference of a millionth in a slope costs one more cheap round at most, a factoring costs more than that.
    if (Math.abs(now - (slope[b] ?? 0)) > 1e-6 * Math.abs(now)) {
      slope[b] = now;
      changed = true;
    }
  }
  return changed;
}

/**
 * How much of the step to take: all of it, unless that would go past the lowest point along it, far beyond the volts of
 * any source, or take from a load of constant power more than half of its volts at once.
 *
 * @param size the greatest change of volts in the step
 */
function findStepLength(c: Circuit, size: number): number {
  const { plus, minus, x, step, curved, law, linear, siemens, volts } = c;
  const curvedCount = c.curvedCount;
  let most = (MOST_STEP * c.voltScale) / size;
  for (let k = 0; k < curvedCount; k++) {
    const b = curved[k] ?? 0;
    if (law[b] !== LAW.watts) continue;
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    const v = (x[p] ?? 0) - (x[m] ?? 0);
    const d = (step[p] ?? 0) - (step[m] ?? 0);
    if (v > 0 && v + most * d < v / 2) most = -v / 2 / d;
  }
  // Slope of the content along the step: at the start, and what the linear branches add per unit of way.
  let start = 0;
  let perWay = 0;
  for (let k = 0, count = c.linearCount; k < count; k++) {
    const b = linear[k] ?? 0;
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    const d = (step[p] ?? 0) - (step[m] ?? 0);
    const g = siemens[b] ?? 0;
    start += g * ((x[p] ?? 0) - (x[m] ?? 0) - (volts[b] ?? 0)) * d;
    perWay += g * d * d;
  }
  const slopeAt = (t: number): number => {
    let slope = start + t * perWay;
    for (let k = 0; k < curvedCount; k++) {
      const b = curved[k] ?? 0;
      const p = plus[b] ?? 0;
      const m = minus[b] ?? 0;
      const d = (step[p] ?? 0) - (step[m] ?? 0);
      slope += findAmps(c, b, (x[p] ?? 0) - (x[m] ?? 0) + t * d) * d;
    }
    return slope;
  };
  const first = slopeAt(0);
  let hi = Math.min(1, most);
  let slopeHi = slopeAt(hi);
  // Where nothing but the stay resists, or nothing at all, the matrix makes steps that are far too short.
  while (slopeHi < first / 2 && hi < most) {
    hi = Math.min(hi * 10, most);
    slopeHi = slopeAt(hi);
  }
  let lo = 0;
  // Rounding makes a slope of nothing at all look like a little of either sign.
  if (slopeHi <= 1e-9 * Math.abs(first)) {
    const isPast = (t: number) => slopeAt(t) >= -1e-6 * Math.abs(first);
    if (slopeHi < -1e-9 * Math.abs(first) || !isPast(hi / 2)) return hi;
    // Level ground, as above the volts at which the last of the chargers is blocked: no further than to its edge.
    for (let i = 0; i < 60; i++) {
      const t = (lo + hi) / 2;
      if (isPast(t)) hi = t;
      else lo = t;
    }
    return hi;
  }
  let slopeLo = first;
  for (let i = 0; i < 60; i++) {
    // Regula falsi, and a halving every other time: the slope may jump at a corner.
    const falsi = lo + ((hi - lo) * -slopeLo) / (slopeHi - slopeLo);
    const t = i % 2 === 0 && falsi > lo && falsi < hi ? falsi : (lo + hi) / 2;
    const slope = slopeAt(t);
    // Only short of the lowest point it is certain that the way went down.
    if (slope <= 0 && slope >= -0.05 * Math.abs(first)) return t;
    if (slope > 0) {
      hi = t;
      slopeHi = slope;
    } else {
      lo = t;
      slopeLo = slope;
    }
  }
  return lo > 0 ? lo : hi;
}
