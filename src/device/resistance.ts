import { takeCell, weakestTrust, type Citation, type Trust } from "../explain/index.ts";
import { ohms, volts, type Ohms, type Volts } from "../quantity/index.ts";
import { drops, type DropsRow } from "../reference/drops.ts";
import { citeRow, groupByFamily, type DeviceFamilyId } from "./family.ts";

/** What a device adds to its circuit, without holder and joints. */
export interface DeviceResistance {
  /** At rated current and steady: volts dropped over amperes. */
  readonly hot: Ohms;
  /** Volts dropped at rated current. */
  readonly dropAtRating: Volts;
  /** At room temperature with little current; null where not published: a study of the greatest fault current then leaves the device out. */
  readonly cold: Ohms | null;
  readonly trust: Trust;
  readonly source: Citation;
}

/** Ratings ascend; an empty one stands for all others. */
const rowsOf = groupByFamily(drops.rows);

/**
 * Resistance of a protective device.
 *
 * Typical values, except for miniature breakers, where it is the greatest that the standard allows. A rating that has no row takes the drop of the
 * next smaller one and the cold resistance of the next larger one, the safe side of each.
 *
 * @param rating A, above 0
 * @returns the device alone; holder and joints are counted elsewhere
 * @accuracy blade fuses as in data sheets; others about ±40 %, common practice
 * @source data sheets as quoted; IEC 60898-1, greatest power loss a pole; common practice for the rest
 * @example
 * deviceResistance("blade_type_C", 40).dropAtRating //=> 0.096
 * deviceResistance("blade_type_C", 40).cold //=> 0.00144
 * deviceResistance("anl_limiter", 300).hot //=> 0.0003
 */
export function deviceResistance(family: DeviceFamilyId, rating: number): DeviceResistance {
  const rows = rowsOf(family);
  const own = rows.filter((row) => row.ratingA !== null);
  const common = rows.find((row) => row.ratingA === null);
  const exact = own.find((row) => row.ratingA === rating);
  const lower = own.findLast((row) => (row.ratingA ?? 0) <= rating) ?? own[0];
  const upper = own.find((row) => (row.ratingA ?? 0) >= rating) ?? own.at(-1);
  // A family's common row is for the ratings without their own; where there is none, the neighbours speak.
  const row = exact ?? common ?? lower;
  if (row === undefined) throw new Error(`device/drops has no ${family}`);
  return resistanceOf(row, common !== undefined ? exact : upper, rating);
}

function resistanceOf(row: DropsRow, forCold: DropsRow | undefined, rating: number): DeviceResistance {
  const drop = takeCell(drops, row, "dropMV", String(rating));
  if (drop === null) throw new Error(`device/drops has no drop of ${row.family}`);
  const cold = forCold === undefined ? null : takeCell(drops, forCold, "coldMohm", String(rating));
  const trust = weakestTrust(drop.trust, cold?.trust ?? drop.trust);
  return {
    hot: ohms(drop.value / 1000 / rating),
    dropAtRating: volts(drop.value / 1000),
    cold: cold === null ? null : ohms(cold.value / 1000),
    trust,
    source: citeRow(row, trust),
  };
}
