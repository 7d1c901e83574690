import { factorCircuit, findAmps, findSlope, findVolts, LAW, type Circuit } from "./circuit.ts";
import { findPathVolts } from "./path-volts.ts";
import { hasFaded, settleVolts, type Settling } from "./settle-volts.ts";

/**
 * When what the draws ask for together is more than the network can bear: which draw gives way, how much it could have
 * had, and what stands in its way.
 *
 * A load of constant power takes the more current the lower its volts. Behind E and R it can have at most E²/4R, at
 * half the volts; beyond that there is no operating point. Loads of constant current pull the volts of a charger that
 * has come to its limit down to nothing. In a network with many loads the demand of all is raised together from
 * nothing, until one of the two is about to happen. The direction in which the volts then give most easily (the weakest
 * of the matrix, w) says who is the cause: the part of a load is i/v · w². The load with the greatest part is taken off
 * and the rest is solved again.
 */

/** The demand is raised in steps, halved where they fail, down to this part of the whole. */
const LEAST_STEP = 1 / 64;
/** Rounding leaves in doubt what is nearer to the limit than this. */
const BEYOND = 1 + 1e-9;

/**
 * Raises the demand of all loads from nothing to what they ask for.
 *
 * @param start volts without load
 * @param told counts the work
 * @returns null if the whole demand can be met after all (the volts are then those of the circuit); else, by branch,
 * its part in the collapse
 */
export function raiseDemand(c: Circuit, start: Float64Array, told: Settling): Map<number, number> | null {
  const loads: number[] = [];
  for (let k = 0; k < c.curvedCount; k++) {
    const b = c.curved[k] ?? 0;
    if (c.law[b] === LAW.watts || c.law[b] === LAW.amps) loads.push(b);
  }
  const of = (b: number) => (c.law[b] === LAW.watts ? c.watts : c.amps);
  const asked = loads.map((b) => of(b)[b] ?? 0);
  const demand = (part: number) => {
    loads.forEach((b, k) => (of(b)[b] = (asked[k] ?? 0) * part));
  };
  const best = start.slice();
  let reached = 0;
  let step = 0.5;
  while (reached < 1 && step >= LEAST_STEP) {
    const next = Math.min(1, reached + step);
    c.x.set(best);
    demand(next);
    if (settleVolts(c, told) === "settled" && !hasFaded(c)) {
      best.set(c.x);
      reached = next;
    } else step /= 2;
  }
  c.x.set(best);
  if (reached === 1) return null;

  // The weakest direction at the last demand that could be met, by inverse iteration.
  demand(reached);
  setSlopes(c);
  const w = new Float64Array(c.nodeCount);
  for (const b of loads) spread(c, b, w, 1);
  if (factorCircuit(c) < 0) {
    for (let i = 0; i < 4; i++) {
      c.matrix.solve(w);
      let most = 0;
      for (const x of w) most = Math.max(most, Math.abs(x));
      for (let n = 0; n < w.length; n++) w[n] = (w[n] ?? 0) / (most > 0 ? most : 1);
    }
  }
  demand(1);
  const parts = new Map<number, number>();
  for (const b of loads) {
    const v = findVolts(c, b);
    const dw = (w[c.plus[b] ?? 0] ?? 0) - (w[c.minus[b] ?? 0] ?? 0);
    const amps = findAmps(c, b, v);
    if (amps > 0) parts.set(b, (amps / v) * dw * dw);
  }
  return parts;
}

/**
 * Loads that ask for more than they could have if they were alone, with every source at its stiffest: more than v²/4R,
 * or than v/R.
 *
 * @param start volts without load
 */
export function findHopeless(c: Circuit, start: Float64Array): readonly number[] {
  c.x.set(start);
  const loads: number[] = [];
  for (let k = 0; k < c.curvedCount; k++) {
    const b = c.curved[k] ?? 0;
    const isLoad = c.law[b] === LAW.watts || c.law[b] === LAW.amps;
    c.slope[b] = isLoad ? 0 : (c.siemens[b] ?? 0);
    // What limits its own current does not pull its volts down to nothing.
    if (isLoad && (c.law[b] === LAW.amps || c.amps[b] === Infinity)) loads.push(b);
  }
  c.isFactored = false;
  if (factorCircuit(c) >= 0) return [];
  c.isFactored = false;
  const response = new Float64Array(1);
  return loads.filter((b) => {
    findPathVolts(c, b, 1, Int32Array.of(b), response);
    const ohms = -(response[0] ?? 0);
    const v = findVolts(c, b);
    const isOver =
      c.law[b] === LAW.watts ? 4 * ohms * (c.watts[b] ?? 0) > v * v * BEYOND : ohms * (c.amps[b] ?? 0) > v * BEYOND;
    return ohms > 0 && isOver;
  });
}

/** Adds a current drawn at the ends of a branch to a right-hand side. */
export function spread(c: Circuit, b: number, into: Float64Array, drawn: number): void {
  const p = c.plus[b] ?? 0;
  const m = c.minus[b] ?? 0;
  if (c.isReference[p] === 0) into[p] = (into[p] ?? 0) - drawn;
  if (c.isReference[m] === 0) into[m] = (into[m] ?? 0) + drawn;
}

/** Takes the slopes of all laws at the present volts; the matrix then has to be factored. */
export function setSlopes(c: Circuit): void {
  for (let k = 0; k < c.curvedCount; k++) {
    const b = c.curved[k] ?? 0;
    c.slope[b] = findSlope(c, b, findVolts(c, b));
  }
}
