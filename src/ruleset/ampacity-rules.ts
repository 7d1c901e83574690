import {
  findRow,
  takeCell,
  type Citation,
  type ColumnOf,
  type LookedUp,
  type RowOf,
  type Table,
} from "../explain/index.ts";
import type { Celsius } from "../quantity/index.ts";
import type { Metal, Strands, WireSize } from "../wire/index.ts";

/** A column of an ampacity table as a rule set uses it. */
export interface AmpacityColumn {
  readonly name: string;
  /** Least temperature rating of the insulation that may use it. */
  readonly from: Celsius;
  /** Conductor temperature that its values stand for: a better insulation gains nothing above it. */
  readonly to: Celsius;
  /** Multiplies in engine spaces; null where such insulation may not be used there. */
  readonly engineFactor: LookedUp | null;
}

/** A row of an ampacity table. */
export interface AmpacityRow {
  readonly size: WireSize;
  /** One for each column; null where the table is empty. */
  readonly cells: readonly (LookedUp | null)[];
}

/** A published ampacity table, made ready for any rule set. Plain data; every value keeps its place and its trust. */
export interface AmpacityTable {
  readonly id: string;
  readonly source: Citation;
  /** What it is made for. */
  readonly metal: Metal;
  /** Strands of the conductors it is made for, by which conductors of other systems find their row. */
  readonly strands: Strands;
  /** By rating, ascending. */
  readonly columns: readonly AmpacityColumn[];
  /** By size, ascending. */
  readonly rows: readonly AmpacityRow[];
}

/** A step of the bundle factors. */
export interface BundleStep {
  /** Current-carrying conductors that lie together, both ends included; null has no end. */
  readonly from: number;
  readonly to: number | null;
  readonly factor: LookedUp;
}

/** What a reader of a bundle factor has to know. */
export interface BundleNote {
  readonly from: number;
  readonly to: number | null;
  readonly says: string;
}

/** How a rule set rates conductors. */
export interface AmpacityRules {
  readonly table: AmpacityTable;
  /** Temperature of the air that the table holds for. */
  readonly baseAmbientC: Celsius;
  /** Temperature of the air in an engine space for which no plan states one. */
  readonly engineAmbientC: Celsius;
  readonly engineAmbientSource: Citation;
  /** Why insulation without an engine factor is refused in engine spaces. */
  readonly engineRefusal: string;
  readonly engineRefusalSource: Citation;
  readonly bundle: readonly BundleStep[];
  readonly bundleNotes: readonly BundleNote[];
}

/** Names of the columns that hold numbers. */
export type NumberColumnOf<Row> = {
  [C in ColumnOf<Row>]: Row[C] extends number | null ? C : never;
}[ColumnOf<Row>];

/** How the rows and columns of a published table are to be read. */
export interface AmpacityReading<Row extends RowOf<Row>> {
  readonly metal: Metal;
  readonly strands: Strands;
  readonly sizeOf: (row: Row) => WireSize | null;
  readonly columns: readonly {
    readonly name: NumberColumnOf<Row>;
    readonly from: Celsius;
    readonly to: Celsius;
    readonly engineFactor: LookedUp | null;
  }[];
}

/**
 * Makes a published table ready for look-ups by conductor, insulation and place.
 *
 * @throws Error when the table holds a row that is no size, or rows or columns that do not rise: a defect of ours, found when the program loads
 */
export function ampacityTable<Row extends RowOf<Row>>(table: Table<Row>, reading: AmpacityReading<Row>): AmpacityTable {
  const rows = table.rows.map((row): AmpacityRow => {
    const size = reading.sizeOf(row);
    if (size === null) throw new Error(`${table.id}: a row is no size`);
    return { size, cells: reading.columns.map(({ name }) => numberCell(table, row, name)) };
  });
  const rises = (numbers: readonly number[]): boolean => numbers.every((x, i) => i === 0 || x > (numbers[i - 1] ?? x));
  if (!rises(rows.map(({ size }) => size.areaMm2))) throw new Error(`${table.id}: rows do not rise`);
  if (!rises(reading.columns.flatMap(({ from, to }) => (from === to ? [from] : [from, to])))) {
    throw new Error(`${table.id}: columns do not rise`);
  }
  const { metal, strands, columns } = reading;
  return { id: table.id, source: table.cite, metal, strands, columns, rows };
}

/** A cell of a column of numbers. */
function numberCell<Row extends RowOf<Row>>(table: Table<Row>, row: Row, column: NumberColumnOf<Row>): LookedUp | null {
  const cell = takeCell(table, row, column);
  return cell !== null && typeof cell.value === "number" ? { ...cell, value: cell.value } : null;
}

/**
 * The cell of a table that a rule set cannot do without.
 *
 * @throws Error when it is not there: a defect of ours, found when the program loads
 */
export function neededCell<Row extends RowOf<Row>>(
  table: Table<Row>,
  label: string | number,
  column: NumberColumnOf<Row>,
): LookedUp {
  const row = findRow(table, label);
  const cell = row === null ? null : numberCell(table, row, column);
  if (cell === null) throw new Error(`${table.id} has no ${column} for ${label}`);
  return cell;
}

/** The bundle steps of a published table with the columns that such tables have here. */
export const bundleSteps = (
  table: Table<{ readonly conductorsMin: number; readonly conductorsMax: number | null; readonly factor: number }>,
): readonly BundleStep[] =>
  table.rows.map(({ conductorsMin, conductorsMax }) => ({
    from: conductorsMin,
    to: conductorsMax,
    factor: neededCell(table, conductorsMin, "factor"),
  }));
