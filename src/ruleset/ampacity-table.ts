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
  /** Multiplies in engine spaces; null where such insulation may not be used there, or where the set counts an engine space as hot air. */
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
  /** Loaded conductors that it holds for at most; absent: it does not ask. */
  readonly loaded?: number;
  /** By rating, ascending. */
  readonly columns: readonly AmpacityColumn[];
  /** By size, ascending. */
  readonly rows: readonly AmpacityRow[];
}

/** Names of the columns that hold numbers. */
export type NumberColumnOf<Row> = {
  [C in ColumnOf<Row>]: Row[C] extends number | null ? C : never;
}[ColumnOf<Row>];

/** How the rows and columns of a published table are to be read. */
export interface AmpacityReading<Row extends RowOf<Row>> {
  readonly metal: Metal;
  readonly strands: Strands;
  readonly loaded?: number;
  readonly sizeOf: (row: Row) => WireSize | null;
  readonly columns: readonly {
    readonly name: NumberColumnOf<Row>;
    readonly from: Celsius;
    readonly to: Celsius;
    /** Null where left out. */
    readonly engineFactor?: LookedUp | null;
  }[];
}

/**
 * Makes a published table ready for look-ups by conductor, insulation and place.
 *
 * @throws Error when the table holds a row that is no size, or rows or columns that do not rise: a defect of ours, found when the program loads
 */
export function ampacityTable<Row extends RowOf<Row>>(table: Table<Row>, reading: AmpacityReading<Row>): AmpacityTable {
  const rows = table.rows.flatMap((row): AmpacityRow[] => {
    const size = reading.sizeOf(row);
    if (size === null) throw new Error(`${table.id}: a row is no size`);
    const cells = reading.columns.map(({ name }) => numberCell(table, row, name));
    // A row that has nothing here may have something in another reading of the same table.
    return cells.every((cell) => cell === null) ? [] : [{ size, cells }];
  });
  const rises = (numbers: readonly number[]): boolean => numbers.every((x, i) => i === 0 || x > (numbers[i - 1] ?? x));
  if (!rises(rows.map(({ size }) => size.areaMm2))) throw new Error(`${table.id}: rows do not rise`);
  if (!rises(reading.columns.flatMap(({ from, to }) => (from === to ? [from] : [from, to])))) {
    throw new Error(`${table.id}: columns do not rise`);
  }
  const { metal, strands, loaded } = reading;
  const columns = reading.columns.map(({ name, from, to, engineFactor = null }) => ({ name, from, to, engineFactor }));
  return {
    id: table.id,
    source: table.cite,
    metal,
    strands,
    ...(loaded === undefined ? {} : { loaded }),
    columns,
    rows,
  };
}

/** A table whose smaller sizes another one has to lend: the rows of `below` up to the first row of `above`, whose name and columns it keeps. */
export function withSmallerRows(above: AmpacityTable, below: AmpacityTable): AmpacityTable {
  const first = above.rows[0]?.size.areaMm2 ?? Infinity;
  return { ...above, rows: [...below.rows.filter(({ size }) => size.areaMm2 < first), ...above.rows] };
}

/** A cell of a column of numbers. */
export function numberCell<Row extends RowOf<Row>>(
  table: Table<Row>,
  row: Row,
  column: NumberColumnOf<Row>,
): LookedUp | null {
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
