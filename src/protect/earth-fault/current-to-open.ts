import { deviceFamily, gatesOf, type DeviceFamilyId } from "../../device/index.ts";
import type { Citation, Trust } from "../../explain/index.ts";

/** The current at which a device is sure to open in a time. */
export interface OpeningCurrent {
  readonly amps: number;
  readonly trust: Trust;
  readonly source: Citation;
}

/**
 * Ia: the least current at which every device of a kind has opened within a time.
 *
 * From the gates of its standard alone; typical curves prove nothing. Where the time falls between two gates the stricter one counts: of gG fuses 0.4 s is
 * judged by the current of 0.1 s, which is up to twice that of the curve.
 *
 * @param seconds s; above 0
 * @returns null where no such gate is published
 * @source IEC 60898-1 Table 7: B 5, C 10, D 20 times the rating within 0.1 s; IEC 60269-1 Table 3
 * @example
 * currentToOpen("mcb_B", 16, 0.4).amps //=> 80
 * currentToOpen("mcb_C", 16, 5).amps //=> 160
 * currentToOpen("iec_gG", 32, 5).amps //=> 150
 * currentToOpen("branch_breaker", 20, 0.4) //=> null
 */
export function currentToOpen(family: DeviceFamilyId, rating: number, seconds: number): OpeningCurrent | null {
  const gate = gatesOf(family, rating).find(({ maxS }) => maxS !== null && maxS <= seconds);
  return gate === undefined ? null : { amps: gate.multiple * rating, trust: gate.trust, source: gate.source };
}

/**
 * The current up to which a device may be taken as too slow for a time.
 *
 * Of breakers with a magnetic release that is Ia itself, for between its two edges nothing is promised. Of fuses, whose curve runs on between its gates, only what
 * lies below the next slower gate is sure to be too slow.
 *
 * @returns A; Infinity: no gate is within that time; 0: nothing can be said
 * @example
 * surelyTooSlowTo("mcb_B", 16, 0.4) //=> 80
 * surelyTooSlowTo("iec_gG", 32, 0.4) //=> 150
 * surelyTooSlowTo("branch_breaker", 20, 0.4) //=> 0
 */
export function surelyTooSlowTo(family: DeviceFamilyId, rating: number, seconds: number): number {
  const open = currentToOpen(family, rating, seconds);
  if (open === null) {
    // Up to the greatest current at which it is bound to stay closed for longer than that.
    const held = gatesOf(family, rating).findLast(({ minS }) => minS !== null && minS > seconds);
    return held === undefined ? 0 : held.multiple * rating;
  }
  if (deviceFamily(family).kind === "breaker") return open.amps;
  const slower = gatesOf(family, rating).findLast(
    ({ maxS, multiple }) => maxS !== null && maxS > seconds && multiple * rating < open.amps,
  );
  return slower === undefined ? 0 : slower.multiple * rating;
}
