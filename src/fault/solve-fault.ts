import type { EdgeFlow } from "./fault-metal.ts";
import {
  ampsAtEnd,
  findFault,
  limitedAmps,
  storeAmps,
  throughCore,
  voltsDuring,
  type FaultPlace,
  type Found,
} from "./find-fault.ts";
import type { LaidFaults } from "./lay-faults.ts";

/** What a short between two points draws, before anything opens. */
export interface SolvedFault {
  /** Steady current through the short, A; 0 where no source reaches both points. */
  readonly amps: number;
  /** Volts between the points while nothing is shorted, and resistance seen from them, Ω. */
  readonly openVolts: number;
  readonly ohms: number;
  /** Every edge in which the fault makes current flow. */
  readonly flows: readonly EdgeFlow[];
  /** Amps that each source pushes; those that push nothing are left out. */
  readonly stores: readonly { readonly store: number; readonly amps: number }[];
  readonly limited: readonly { readonly limited: number; readonly amps: number }[];
}

const NO_FAULT: SolvedFault = { amps: 0, openVolts: 0, ohms: Infinity, flows: [], stores: [], limited: [] };

/** Currents below this share of the fault's are rounding. */
const ROUNDING = 1e-9;

/**
 * Solves a short at one place of a laid case.
 *
 * Steady current: inductance only delays it. Heating of the wire while it flows is left out. Limited sources push their limit as long as the volts across them
 * let them.
 *
 * @param faultOhms of the short itself; 0: bolted
 */
export function solveFault(laid: LaidFaults, place: FaultPlace, faultOhms = 0): SolvedFault {
  const found = findFault(laid, place, faultOhms);
  return found === null || !(Math.abs(found.amps) > 0) ? NO_FAULT : describeFault(laid, found);
}

/**
 * The current of a short alone, A: what `solveFault` gives, without where it flows.
 */
export const faultAmps = (laid: LaidFaults, place: FaultPlace): number => findFault(laid, place, 0)?.amps ?? 0;

function describeFault(laid: LaidFaults, found: Found): SolvedFault {
  const { coreEdges, ports } = laid.shape;
  const { amps, ohms, plus, minus, pair } = found;
  const volts = voltsDuring(laid, found);
  const flows: EdgeFlow[] = [];
  for (const { edge, atA, atB } of plus.way) flows.push({ edge, atA: amps * atA, atB: amps * atB });
  for (const { edge, atA, atB } of minus.way) flows.push({ edge, atA: -amps * atA, atB: -amps * atB });
  const least = ROUNDING * Math.abs(amps);
  for (let k = 0; k < coreEdges.length; k++) {
    const edge = coreEdges[k] ?? 0;
    const through = throughCore(laid, found, volts, k);
    const atA = ampsAtEnd(found, edge, through, "a");
    const atB = ampsAtEnd(found, edge, through, "b");
    if (Math.abs(atA) > least || Math.abs(atB) > least) flows.push({ edge, atA, atB });
  }
  const stores: { store: number; amps: number }[] = [];
  for (let s = 0; s < ports.stores.length; s++) {
    const pushes = storeAmps(laid, found, volts, s);
    if (pushes !== null) stores.push({ store: s, amps: pushes });
  }
  const limited: { limited: number; amps: number }[] = [];
  const { on } = pair.limited;
  for (let i = 0; i < on.length; i++) {
    const pushes = limitedAmps(laid, found, volts, i);
    if (pushes > least) limited.push({ limited: on[i] ?? 0, amps: pushes });
  }
  return { amps, openVolts: pair.openVolts, ohms, flows, stores, limited };
}
