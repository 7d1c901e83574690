import { takeCell, trustOfCell, type Citation, type Trust } from "../explain/index.ts";
import { seconds, type Seconds } from "../quantity/index.ts";
import { openingGates, type OpeningGatesRow } from "../reference/opening-gates.ts";
import { citeRow, type DeviceFamilyId } from "./family.ts";

/** Times at one multiple of the rating, for the ratings of a band. */
export interface Gate {
  readonly multiple: number;
  /** Must not have opened before; null where nothing is fixed. */
  readonly minS: Seconds | null;
  /** Must have opened by; null where nothing is fixed. */
  readonly maxS: Seconds | null;
  readonly trust: Trust;
  readonly source: Citation;
}

/** A bound on the time in which a device opens. */
export interface OpeningTime {
  readonly value: Seconds;
  /** The multiple at which the gate stands that gives the bound. */
  readonly multiple: number;
  readonly trust: Trust;
  readonly source: Citation;
}

function rowsOf(family: DeviceFamilyId, rating: number): readonly OpeningGatesRow[] {
  return openingGates.rows
    .filter((row) => row.family === family && row.ratingMinA <= rating && rating <= row.ratingMaxA)
    .sort((a, b) => a.multiple - b.multiple);
}

/**
 * The opening-time gates of a device, by rising multiple of its rating; none where no gates are published for it.
 *
 * @param rating A, of the device
 */
export const gatesOf = (family: DeviceFamilyId, rating: number): readonly Gate[] =>
  rowsOf(family, rating).map((row) => {
    const trust = trustOfCell(openingGates, row, row.minS === null ? "maxS" : "minS");
    return {
      multiple: row.multiple,
      minS: row.minS === null ? null : seconds(row.minS),
      maxS: row.maxS === null ? null : seconds(row.maxS),
      trust,
      source: citeRow(row, trust),
    };
  });

function bound(row: OpeningGatesRow, column: "minS" | "maxS", multiple: number): OpeningTime | null {
  const cell = takeCell(openingGates, row, column, `${String(Number(multiple.toPrecision(3)))} times the rating`);
  if (cell === null) return null;
  return { value: seconds(cell.value), multiple: row.multiple, trust: cell.trust, source: citeRow(row, cell.trust) };
}

/**
 * A time before which a device certainly stays closed.
 *
 * That of the next gate up that has a least time: at less current it opens no sooner. Between gates nothing is interpolated.
 *
 * @param rating A, of the device
 * @param current A, steady from the cold state
 * @returns null where no gate at or above the current has a least time
 * @example 55 A through a 40 A large blade fuse is 1.375 times its rating; the next gate is at 2.0
 * leastOpeningTime("blade_type_E", 40, 55).value //=> 2
 */
export function leastOpeningTime(family: DeviceFamilyId, rating: number, current: number): OpeningTime | null {
  const multiple = current / rating;
  const row = rowsOf(family, rating).find((gate) => gate.multiple >= multiple && gate.minS !== null);
  return row === undefined ? null : bound(row, "minS", multiple);
}

/**
 * A time by which a device has certainly opened.
 *
 * That of the next gate down that has a greatest time: with more current it opens no later.
 *
 * @param rating A, of the device
 * @param current A, steady; must be below its interrupt rating, which is not looked at here
 * @returns null where no gate at or below the current has a greatest time
 * @example
 * greatestOpeningTime("blade_type_E", 40, 55).value //=> 1800
 * greatestOpeningTime("anl_limiter", 300, 3000) //=> null
 */
export function greatestOpeningTime(family: DeviceFamilyId, rating: number, current: number): OpeningTime | null {
  const multiple = current / rating;
  const row = rowsOf(family, rating).findLast((gate) => gate.multiple <= multiple && gate.maxS !== null);
  return row === undefined ? null : bound(row, "maxS", multiple);
}
