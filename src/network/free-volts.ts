import { factorCircuit, type Circuit } from "./circuit.ts";
import type { Settled, Settling } from "./settle-volts.ts";

/**
 * The volts of a circuit while nothing is drawn, kept for the next state that differs from the last one by its loads alone: of a build that is solved load by load
 * that is most of them.
 */
export interface FreeVolts {
  /** What they follow from: as they were found with the circuit's own numbers of every branch that took part. */
  readonly on: Uint8Array;
  readonly law: Uint8Array;
  readonly isReference: Uint8Array;
  readonly siemens: Float64Array;
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  readonly watts: Float64Array;
  readonly stay: Float64Array;
  readonly stayTimes: number;
  readonly voltScale: number;
  /** What was found, and what it took. */
  readonly x: Float64Array;
  readonly slope: Float64Array;
  readonly stayAfter: number;
  readonly took: Settling;
}

/** Within fewer rounds the matrix is factored with just the slopes that were found last (see `settleVolts`). */
const MOST_ROUNDS = 5;

/**
 * Finds the volts without load, or gives back those that are known of the very same circuit; with the matrix factored as it would be, so that all that follows
 * is the same to the last digit.
 *
 * @param known of the last state; null: none
 * @param find finds them in the circuit
 * @returns how it ended, and what is known for the next state
 */
export function findFreeVolts(
  c: Circuit,
  known: FreeVolts | null,
  told: Settling,
  find: () => Settled,
): { readonly outcome: Settled; readonly free: FreeVolts | null } {
  if (known !== null && isOf(c, known)) {
    c.x.set(known.x);
    c.slope.set(known.slope);
    c.stayTimes = known.stayAfter;
    factorCircuit(c);
    told.rounds += known.took.rounds;
    told.factorings += known.took.factorings;
    return { outcome: "settled", free: known };
  }
  const free = {
    on: c.on.slice(),
    law: c.law.slice(),
    isReference: c.isReference.slice(),
    siemens: c.siemens.slice(),
    volts: c.volts.slice(),
    amps: c.amps.slice(),
    watts: c.watts.slice(),
    stay: c.stay.slice(),
    stayTimes: c.stayTimes,
    voltScale: c.voltScale,
  };
  const { rounds, factorings } = told;
  const outcome = find();
  const took = { rounds: told.rounds - rounds, factorings: told.factorings - factorings };
  if (outcome !== "settled" || !c.isFactored || took.rounds >= MOST_ROUNDS) return { outcome, free: null };
  return { outcome, free: { ...free, x: c.x.slice(), slope: c.slope.slice(), stayAfter: c.stayTimes, took } };
}

function isOf(c: Circuit, known: FreeVolts): boolean {
  if (c.stayTimes !== known.stayTimes || c.voltScale !== known.voltScale) return false;
  for (let i = 0; i < c.nodeCount; i++) if (c.isReference[i] !== known.isReference[i]) return false;
  for (let b = 0; b < c.branchCount; b++) {
    if (c.on[b] !== known.on[b]) return false;
    if (c.on[b] === 0) continue;
    if (c.law[b] !== known.law[b] || c.siemens[b] !== known.siemens[b] || c.volts[b] !== known.volts[b]) return false;
    if (c.amps[b] !== known.amps[b] || c.watts[b] !== known.watts[b] || c.stay[b] !== known.stay[b]) return false;
  }
  return true;
}
