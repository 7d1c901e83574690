import type { Citation, Trust } from "../explain/index.ts";
import { amps, type Amps, type Seconds } from "../quantity/index.ts";
import type { DeviceFamilyId } from "./family.ts";
import { gatesOf, type Gate } from "./opening-time.ts";

/** A current that a device has to carry, or to open, in a time. */
export interface ConventionalCurrent {
  readonly current: Amps;
  /** Of the rating. */
  readonly multiple: number;
  readonly s: Seconds;
  readonly trust: Trust;
  readonly source: Citation;
}

/** The currents that standards on conductors speak of. */
export interface ConventionalCurrents {
  /** Greatest current that it carries for an hour or more; null: not published. */
  readonly nonTrip: ConventionalCurrent | null;
  /** Least current that certainly opens it, in whatever time the standard gives it (I₂ of IEC 60364-4-43); null: not published. */
  readonly trip: ConventionalCurrent | null;
}

/** s: the shortest conventional time in use. */
const AN_HOUR = 3600;

/**
 * The conventional non-tripping and tripping current of a device.
 *
 * @param rating A, of the device
 * @source the gates of `gatesOf`: IEC 60269-1 Table 2, IEC 60898-1 Table 7, UL/CSA 248-1, ISO 8820
 * @example
 * conventional("mcb_C", 16).trip.current //=> 23.2
 * conventional("mcb_C", 16).nonTrip.current //=> 18.08
 * conventional("iec_gG", 63).trip.multiple //=> 1.6
 * conventional("ul_class_T", 200).nonTrip //=> null
 */
export function conventional(family: DeviceFamilyId, rating: number): ConventionalCurrents {
  const gates = gatesOf(family, rating);
  const holds = gates.findLast((gate) => gate.minS !== null && gate.minS >= AN_HOUR);
  const opens = gates.find((gate) => gate.maxS !== null);
  return { nonTrip: at(holds, holds?.minS ?? null, rating), trip: at(opens, opens?.maxS ?? null, rating) };
}

function at(gate: Gate | undefined, s: Seconds | null, rating: number): ConventionalCurrent | null {
  if (gate === undefined || s === null) return null;
  const { multiple, trust, source } = gate;
  return { current: amps(multiple * rating), multiple, s, trust, source };
}
