import { isRecording, takeCell, trustOfCell, type Citation, type LookedUp, type Trust } from "../explain/index.ts";
import { seconds, type Seconds } from "../quantity/index.ts";
import { ggGates, type GgGatesRow } from "../reference/gg-gates.ts";
import { openingGates, type OpeningGatesRow } from "../reference/opening-gates.ts";
import { citeRow, groupByFamily, type DeviceFamilyId } from "./family.ts";

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

/** A gate before anything is taken out of its table: a recorder is to see only the one that is used. */
interface Stated {
  readonly multiple: number;
  readonly minS: number | null;
  readonly maxS: number | null;
  readonly trust: Trust;
  readonly document: string;
  readonly clause: string | null;
  readonly take: (side: "minS" | "maxS", sought: string) => LookedUp | null;
}

const ofRow = (row: OpeningGatesRow): Stated => ({
  multiple: row.multiple,
  minS: row.minS,
  maxS: row.maxS,
  trust: trustOfCell(openingGates, row, row.minS === null ? "maxS" : "minS"),
  document: row.document,
  clause: row.clause,
  take: (side, sought) => takeCell(openingGates, row, side, sought),
});

/** The columns of the gG table, which fixes currents for a time where the other gates fix times for a current. */
const ggColumns = [
  ["min10sA", 10, null],
  ["max5sA", null, 5],
  ["min100msA", 0.1, null],
  ["max100msA", null, 0.1],
] as const;

const ofGgRow = (row: GgGatesRow): readonly Stated[] =>
  ggColumns.map(([column, minS, maxS]) => ({
    multiple: row[column] / row.ratingA,
    minS,
    maxS,
    trust: trustOfCell(ggGates, row, column),
    document: ggGates.cite.id,
    clause: row.ratingA < 16 ? "gates of the small ratings" : ggGates.cite.clause,
    take: (_side, sought) => takeCell(ggGates, row, column, sought),
  }));

const rowsOf = groupByFamily(openingGates.rows);

/** What is stated of a family at a rating, as it was last asked for. */
interface Known {
  readonly stated: readonly Stated[];
  readonly gates: readonly Gate[];
}

const known = new Map<DeviceFamilyId, Map<number, Known>>();
/** Ratings come from plans: of each family so many are kept. */
const MOST_KEPT = 500;

function knownOf(family: DeviceFamilyId, rating: number): Known {
  let ofFamily = known.get(family);
  if (ofFamily === undefined) known.set(family, (ofFamily = new Map<number, Known>()));
  let found = ofFamily.get(rating);
  if (found === undefined) {
    if (ofFamily.size >= MOST_KEPT) ofFamily.clear();
    const stated = statedFor(family, rating);
    ofFamily.set(rating, (found = { stated, gates: stated.map(gateOf) }));
  }
  return found;
}

function statedFor(family: DeviceFamilyId, rating: number): readonly Stated[] {
  const stated = rowsOf(family)
    .filter((row) => row.ratingMinA <= rating && rating <= row.ratingMaxA)
    .map(ofRow);
  if (family === "iec_gG") stated.push(...ggGates.rows.filter((row) => row.ratingA === rating).flatMap(ofGgRow));
  return stated.sort((a, b) => a.multiple - b.multiple);
}

const gateOf = ({ multiple, minS, maxS, trust, document, clause }: Stated): Gate => ({
  multiple,
  minS: minS === null ? null : seconds(minS),
  maxS: maxS === null ? null : seconds(maxS),
  trust,
  source: citeRow({ document, clause }, trust),
});

/**
 * The opening-time gates of a device, by rising multiple of its rating; none where no gates are published for it.
 *
 * @param rating A, of the device
 */
export const gatesOf = (family: DeviceFamilyId, rating: number): readonly Gate[] => knownOf(family, rating).gates;

/** Bounds that gates were found to give, which are the same at every multiple. */
const bounds = { minS: new WeakMap<Stated, OpeningTime>(), maxS: new WeakMap<Stated, OpeningTime>() };

function bound(stated: Stated, side: "minS" | "maxS", multiple: number): OpeningTime | null {
  // A recorder is to see the table at every question.
  if (isRecording()) return takeBound(stated, side, multiple);
  let found = bounds[side].get(stated) ?? null;
  if (found === null) {
    found = takeBound(stated, side, multiple);
    if (found !== null) bounds[side].set(stated, found);
  }
  return found;
}

function takeBound(stated: Stated, side: "minS" | "maxS", multiple: number): OpeningTime | null {
  const cell = stated.take(side, `${String(Number(multiple.toPrecision(3)))} times the rating`);
  const value = stated[side];
  if (cell === null || value === null) return null;
  return { value: seconds(value), multiple: stated.multiple, trust: cell.trust, source: citeRow(stated, cell.trust) };
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
  const gate = knownOf(family, rating).stated.find((stated) => stated.multiple >= multiple && stated.minS !== null);
  return gate === undefined ? null : bound(gate, "minS", multiple);
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
  const gate = knownOf(family, rating).stated.findLast((stated) => stated.multiple <= multiple && stated.maxS !== null);
  return gate === undefined ? null : bound(gate, "maxS", multiple);
}
