import { takeCell, trustOfCell, type Citation, type Trust } from "../explain/index.ts";
import { amps, volts, type Amps, type Volts } from "../quantity/index.ts";
import { interruptRatings, type InterruptRatingsRow } from "../reference/interrupt-ratings.ts";
import { citeRow, deviceFamily, groupByFamily, type DeviceFamilyId, type Supply } from "./family.ts";

/** The greatest current that a device opens, at a voltage. */
export interface InterruptRating {
  /**
   * `too many volts`: the usual grade is not for them. `not known`: usable at the volts, but no interrupt rating is published, be it for none of the
   * family or for a rating beyond those listed.
   */
  readonly state: "rated" | "too many volts" | "not known";
  /** Null unless rated. */
  readonly current: Amps | null;
  /** Volts of the step that was used; null where there is none. */
  readonly upToVolts: Volts | null;
  readonly trust: Trust;
  readonly source: Citation;
}

/** What an interrupt rating is asked for. */
export interface InterruptQuestion {
  /** DC where left out. */
  readonly supply?: Supply;
  /** A, of the device; the least of all ratings where left out. */
  readonly rating?: number;
}

const rowsOf = groupByFamily(interruptRatings.rows);

const isInBand = (row: InterruptRatingsRow, rating: number | undefined): boolean =>
  rating === undefined || (row.ratingMinA <= rating && rating <= row.ratingMaxA);

/**
 * The interrupt rating of a kind of device at a voltage: that of the next step up in volts.
 *
 * Of the usual grade as sold; what is marked on the part wins.
 *
 * @param systemVolts greatest that can stand across the open device, e.g. the charging voltage
 * @source ISO 8820-3 scope, UL/CSA 248-14, data sheets and common practice: see the result
 * @example
 * interruptRating("terminal_post", 14.6).current //=> 5000
 * interruptRating("terminal_post", 13.8).current //=> 10000
 * interruptRating("blade_type_C", 58.4).state //=> "too many volts"
 * interruptRating("hydraulic_breaker", 14.6, { rating: 3 }).state //=> "not known"
 */
export function interruptRating(
  family: DeviceFamilyId,
  systemVolts: number,
  { supply = "DC", rating }: InterruptQuestion = {},
): InterruptRating {
  const rows = rowsOf(family).filter(
    (row) => row.supply === supply && row.upToVolts >= systemVolts && isInBand(row, rating),
  );
  if (rows.length === 0) {
    const { source, dcVoltsTrust } = deviceFamily(family);
    const ofFamily = rowsOf(family).filter((row) => row.supply === supply);
    const isListed = ofFamily.some((row) => isInBand(row, rating));
    const isForVolts = ofFamily.some((row) => row.upToVolts >= systemVolts);
    return {
      // What is said of other ratings of the family is no word on one that is not listed, but its volts are the family's.
      state: !isListed && isForVolts ? "not known" : "too many volts",
      current: null,
      upToVolts: null,
      trust: dcVoltsTrust,
      source: { ...source, trust: dcVoltsTrust },
    };
  }
  const step = Math.min(...rows.map((row) => row.upToVolts));
  // Several bands of ratings can share the step: without a rating the weakest of them stands for all.
  const row = rows
    .filter((candidate) => candidate.upToVolts === step)
    .reduce((least, candidate) => ((candidate.interruptA ?? 0) < (least.interruptA ?? 0) ? candidate : least));
  const cell = takeCell(interruptRatings, row, "interruptA", `${systemVolts} V ${supply}`);
  const trust = cell?.trust ?? trustOfCell(interruptRatings, row, "upToVolts");
  const common = { upToVolts: volts(row.upToVolts), trust, source: citeRow(row, trust) };
  return cell === null
    ? { state: "not known", current: null, ...common }
    : { state: "rated", current: amps(cell.value), ...common };
}

/**
 * The greatest voltage that a kind of device is made for.
 *
 * @returns null where the family is not for the supply at all, or the rating is not listed
 * @example
 * greatestVolts("ul_class_T", { supply: "AC" }) //=> 300
 * greatestVolts("surface_breaker", { rating: 200 }) //=> 30
 */
export function greatestVolts(family: DeviceFamilyId, { supply = "DC", rating }: InterruptQuestion = {}): Volts | null {
  const steps = rowsOf(family)
    .filter((row) => row.supply === supply)
    .filter((row) => isInBand(row, rating))
    .map((row) => row.upToVolts);
  return steps.length === 0 ? null : volts(Math.max(...steps));
}
