import { takeCell, type Citation, type Trust } from "../explain/index.ts";
import { letThrough as limits, type LetThroughRow } from "../reference/let-through.ts";
import { citeRow, deviceFamily, type DeviceFamilyId, type Supply } from "./family.ts";
import { interruptRating } from "./interrupt-rating.ts";
import type { Stated } from "./melting-energy.ts";
import { greatestOpeningTime } from "./opening-time.ts";

/** The most that a device lets through until the current is nought, arc and all. */
export interface LetThrough {
  /** A²s, greatest; null: no bound is known. */
  readonly i2t: number | null;
  /** A, greatest instant; null: no bound is known. */
  readonly peak: number | null;
  readonly how: "limit of the standard" | "opening time" | "nothing";
  /** Of the energy, or missing. */
  readonly trust: Trust;
  readonly source: Citation;
  /** Why there is no bound, in words; null where there is one. */
  readonly notProven: string | null;
  /** A²s, a limit of alternating-current tests: an indication on direct current, and no bound. */
  readonly indication: Stated | null;
}

/**
 * Energy by current, and peak, that a device lets through while it clears a fault.
 *
 * The lesser of the limit that the standard of the family sets for alternating current and of the square of the current over the greatest opening
 * time. Nothing above the interrupt rating at the volts, or where that is not known: it may then not clear at all. The rise of the current in a
 * circuit with inductance is not looked at; it makes the true energy less.
 *
 * @param rating A, of the device
 * @param current A, prospective, steady
 * @param volts greatest that can stand across the open device
 * @source UL/CSA 248-8 and 248-15 (memory); else the gates of `openingBand`
 * @example a 15 A blade fuse has opened by 0.1 s at 6 times its rating
 * letThrough("blade_type_C", 15, 100, 14.6).i2t //=> 1000
 * letThrough("blade_type_C", 15, 2000, 14.6).notProven //=> "2000 A is more than the blade fuse opens at 14.6 V (1000 A)"
 * letThrough("ul_class_T", 200, 10000, 120, { supply: "AC" }).i2t //=> 150000
 * letThrough("ul_class_T", 200, 10000, 58.4).indication.value //=> 150000
 */
export function letThrough(
  family: DeviceFamilyId,
  rating: number,
  current: number,
  volts: number,
  { supply = "DC", interruptAmps }: { readonly supply?: Supply; readonly interruptAmps?: number } = {},
): LetThrough {
  const cannot = whyNotCleared(family, rating, current, volts, supply, interruptAmps);
  const row = limitRow(family, rating, current, volts);
  const energy = row === null ? null : takeCell(limits, row, "clearingA2s", `${current} A`);
  const limit = energy === null || row === null ? null : { ...energy, source: citeLimit(row, energy.trust) };
  const indication = limit === null ? null : { value: limit.value, trust: limit.trust, source: limit.source };
  if (cannot !== null) return nothing(family, cannot, supply === "DC" ? indication : null);

  const byTime = boundByTime(family, rating, current);
  if (supply === "AC" && limit !== null && (byTime === null || limit.value <= byTime.value)) {
    const peak = row === null ? null : takeCell(limits, row, "peakA");
    const { value, trust, source } = limit;
    return {
      i2t: value,
      // A limit above the current itself says nothing, and the first half-wave can be up to 2.3 times it.
      peak: peak === null ? null : peak.value,
      how: "limit of the standard",
      trust,
      source,
      notProven: null,
      indication: null,
    };
  }
  if (byTime === null) {
    const { name } = deviceFamily(family);
    return nothing(family, `nothing is published of when the ${name} has opened at ${print(current)} A`, indication);
  }
  const { value, trust, source } = byTime;
  return { i2t: value, peak: null, how: "opening time", trust, source, notProven: null, indication };
}

const print = (value: number): string => String(Number(value.toPrecision(4)));

function whyNotCleared(
  family: DeviceFamilyId,
  rating: number,
  current: number,
  volts: number,
  supply: Supply,
  marked: number | undefined,
): string | null {
  const { name } = deviceFamily(family);
  const listed = interruptRating(family, volts, { supply, rating });
  const amps = marked ?? listed.current;
  if (amps === null) {
    return listed.state === "too many volts"
      ? `the usual ${name} is not for ${print(volts)} V ${supply}`
      : `the interrupt rating of the ${name} at ${print(volts)} V ${supply} is not known`;
  }
  return current > amps
    ? `${print(current)} A is more than the ${name} opens at ${print(volts)} V (${print(amps)} A)`
    : null;
}

function limitRow(family: DeviceFamilyId, rating: number, current: number, volts: number): LetThroughRow | null {
  const rows = limits.rows.filter(
    (row) =>
      row.family === family &&
      row.ratingMinA <= rating &&
      rating <= row.ratingMaxA &&
      row.prospectiveA >= current &&
      row.upToVolts >= volts,
  );
  return rows[0] ?? null; // prospective currents ascend: the next row up
}

const citeLimit = (row: LetThroughRow, trust: Trust): Citation =>
  citeRow({ document: row.document, clause: "let-through limits" }, trust);

function boundByTime(family: DeviceFamilyId, rating: number, current: number): Stated | null {
  const time = greatestOpeningTime(family, rating, current);
  return time === null ? null : { value: current * current * time.value, trust: time.trust, source: time.source };
}

function nothing(family: DeviceFamilyId, notProven: string, indication: Stated | null): LetThrough {
  const { source } = deviceFamily(family);
  return {
    i2t: null,
    peak: null,
    how: "nothing",
    trust: "missing",
    source: { ...source, trust: "missing" },
    notProven,
    indication,
  };
}
