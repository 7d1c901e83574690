import type { Citation, Trust } from "../explain/index.ts";
import type { Amps, Seconds } from "../quantity/index.ts";
import { deviceFamily, type DeviceFamilyId } from "./family.ts";
import { leastOpeningTime } from "./opening-time.ts";

/** A device has to stay closed for so many times the start, since starts vary and repeat. Common practice. */
export const START_MARGIN = 1.5;

/** Whether a device carries a start, and what that rests on. */
export interface StartVerdict {
  /** `no`: it may open. `cannot tell`: nothing is published that could tell. */
  readonly answer: "yes" | "no" | "cannot tell";
  /** It stays closed at least so long at the start current; null where it carries it for good, or nothing is published. */
  readonly leastOpeningS: Seconds | null;
  readonly trust: Trust;
  readonly source: Citation;
}

/**
 * Judges whether a device stays closed while a load starts.
 *
 * Takes the least time that its gates promise at the start current and asks that it be 1.5 times the start. A start at or below the rating
 * is always carried. Ignores a warm device, an ambient above 20 °C and starts that follow each other.
 *
 * @param rating A, of the device
 * @param startA A, taken as steady for the whole start
 * @param startS s
 * @source gates as in `gatesOf`; the margin is common practice
 * @example
 * judgeStart("blade_type_C", 15, 40, 0.1).answer //=> "no"
 * judgeStart("blade_type_E", 40, 70, 1).answer //=> "yes"
 */
export function judgeStart(family: DeviceFamilyId, rating: number, startA: number, startS: number): StartVerdict {
  const { source, ratingsTrust } = deviceFamily(family);
  if (startA <= rating) return { answer: "yes", leastOpeningS: null, trust: ratingsTrust, source };
  const least = leastOpeningTime(family, rating, startA);
  if (least === null)
    return { answer: "cannot tell", leastOpeningS: null, trust: "missing", source: { ...source, trust: "missing" } };
  return {
    answer: least.value >= START_MARGIN * startS ? "yes" : "no",
    leastOpeningS: least.value,
    trust: least.trust,
    source: least.source,
  };
}

/**
 * Whether a device stays closed while a load starts; `judgeStart` tells what that rests on.
 *
 * @param rating A, of the device
 * @param startA A, taken as steady for the whole start
 * @param startS s
 * @example
 * carriesStart("blade_type_C", 15, 12, 5) //=> "yes"
 * carriesStart("anl_limiter", 100, 250, 1) //=> "cannot tell"
 */
export const carriesStart = (
  family: DeviceFamilyId,
  rating: number,
  startA: number,
  startS: number,
): StartVerdict["answer"] => judgeStart(family, rating, startA, startS).answer;

/**
 * The least rating on sale that certainly carries a start.
 *
 * @param startA A, taken as steady for the whole start
 * @param startS s
 * @returns null when none does
 * @example 90 A for 0.4 s: at 50 A the gate at 2.0 times the rating promises 2 s
 * leastRatingForStart("blade_type_E", 90, 0.4) //=> 50
 */
export const leastRatingForStart = (family: DeviceFamilyId, startA: number, startS: number): Amps | null =>
  deviceFamily(family).standardRatings.find((rating) => carriesStart(family, rating, startA, startS) === "yes") ?? null;
