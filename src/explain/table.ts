import type { Citation } from "./citation.ts";
import { isRecording, recordStep } from "./steps.ts";
import type { Trust } from "./trust.ts";

/** A cell: empty cells of a published table are null. */
export type Cell = number | string | null;

/** A column of a published table. */
export interface Column {
  /** Empty for words and bare numbers. */
  readonly unit: string;
  /** Of its cells, except those that the table lists under `exceptions`. */
  readonly trust: Trust;
}

/** What a row of a published table is: named cells. */
export type RowOf<Row> = { readonly [Name in keyof Row]: Cell };

/** A published table as generated from `reference/`, where the CSV says in full how its values were obtained. */
export interface Table<Row extends RowOf<Row>> {
  /** `<subject>/<name>`, the place of the CSV under `reference/`. */
  readonly id: string;
  /** Document and clause; its trust gives way to that of the cell taken. */
  readonly cite: Citation;
  /** The columns whose values together name a row; a search by number uses the first. */
  readonly key: readonly ColumnOf<Row>[];
  readonly columns: Readonly<Record<ColumnOf<Row>, Column>>;
  /** Cells that are trusted otherwise than their column: index of the row, column, trust. */
  readonly exceptions: readonly (readonly [row: number, column: ColumnOf<Row>, trust: Trust])[];
  readonly rows: readonly Row[];
}

/** Names of a row's columns. */
export type ColumnOf<Row> = keyof Row & string;

/** A value out of a table, with the place it was taken from; plain data. */
export interface LookedUp<Value = number> {
  readonly value: Value;
  readonly unit: string;
  readonly table: string;
  /** Label of the row, e.g. `"10"` or `"2/0"`. */
  readonly row: string;
  readonly column: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** What the cells of a column hold when they are not empty. */
export type ValueOf<Row, C extends keyof Row> = Exclude<Row[C], null>;

/** The text that names a row: its key cells, set apart by a space. */
export function labelOfRow<Row extends RowOf<Row>>(table: Table<Row>, row: Row): string {
  return table.key.map((name) => String(row[name] ?? "")).join(" ");
}

/** Exceptions of each table by row and column, made when the first of its cells is taken. */
const exceptionsOf = new WeakMap<object, ReadonlyMap<unknown, ReadonlyMap<string, Trust>>>();

function exceptionsIn<Row extends RowOf<Row>>(table: Table<Row>): ReadonlyMap<unknown, ReadonlyMap<string, Trust>> {
  let found = exceptionsOf.get(table);
  if (found === undefined) {
    const byRow = new Map<unknown, Map<string, Trust>>();
    for (const [at, name, trust] of table.exceptions) {
      const row = table.rows[at];
      const own = byRow.get(row);
      if (own === undefined) byRow.set(row, new Map([[name, trust]]));
      else if (!own.has(name)) own.set(name, trust);
    }
    exceptionsOf.set(table, (found = byRow));
  }
  return found;
}

/** Trust of one cell: the exception where the table lists one, else that of the column. */
export function trustOfCell<Row extends RowOf<Row>>(table: Table<Row>, row: Row, column: ColumnOf<Row>): Trust {
  const own = table.exceptions.length === 0 ? undefined : exceptionsIn(table).get(row)?.get(column);
  return own ?? table.columns[column].trust;
}

/**
 * Takes a cell out of a row that was found by other means.
 *
 * @param sought what was looked for, where it is not the row's own label
 * @returns null when the cell is empty
 */
export function takeCell<Row extends RowOf<Row>, C extends ColumnOf<Row>>(
  table: Table<Row>,
  row: Row,
  column: C,
  sought?: string,
): LookedUp<ValueOf<Row, C>> | null {
  const cell = row[column];
  if (cell === null) return null;
  const trust = trustOfCell(table, row, column);
  const { unit } = table.columns[column];
  const source: Citation = { ...table.cite, trust };
  const label = labelOfRow(table, row);
  if (isRecording()) {
    recordStep({
      kind: "look-up",
      table: table.id,
      row: label,
      column,
      sought: sought ?? label,
      gives: cell,
      unit,
      source,
    });
  }
  const value = cell as ValueOf<Row, C>; // null was sent away above; the compiler does not narrow an indexed type
  return { value, unit, table: table.id, row: label, column, trust, source };
}

/** Rows by label, made at the first search of a table; sizing asks thousands of times. */
const indexes = new WeakMap<object, ReadonlyMap<string, unknown>>();

/** The row with a label; null when there is none. */
export function findRow<Row extends RowOf<Row>>(table: Table<Row>, label: string | number): Row | null {
  let index = indexes.get(table) as ReadonlyMap<string, Row> | undefined; // only the line below puts one in, of this table's rows
  if (index === undefined)
    indexes.set(table, (index = new Map(table.rows.map((row) => [labelOfRow(table, row), row]))));
  return index.get(String(label)) ?? null;
}

/**
 * The value in a named row.
 *
 * @param label of the row: the value of the table's key column, several set apart by a space
 * @returns null when there is no such row or the cell is empty
 */
export function lookUp<Row extends RowOf<Row>, C extends ColumnOf<Row>>(
  table: Table<Row>,
  label: string | number,
  column: C,
): LookedUp<ValueOf<Row, C>> | null {
  const row = findRow(table, label);
  return row === null ? null : takeCell(table, row, column);
}

/**
 * The value in the next row down: the greatest key that does not exceed what is sought. For tables whose value grows with the key
 * and whose steps must not be interpolated.
 *
 * @param at in the unit of the first key column, whose rows ascend
 * @returns null below the first row, and where the cell is empty
 */
export function lookUpNextDown<Row extends RowOf<Row>, C extends ColumnOf<Row>>(
  table: Table<Row>,
  at: number,
  column: C,
): LookedUp<ValueOf<Row, C>> | null {
  const key = table.key[0];
  const row = table.rows.findLast((candidate) => {
    const start: Cell = key === undefined ? null : candidate[key];
    return typeof start === "number" && start <= at;
  });
  return row === undefined ? null : takeCell(table, row, column, String(at));
}

/**
 * The value in the next row up: the least key that is not below what is sought; for "not exceeding" tables and for bands.
 *
 * @param at in the unit of the key column, whose rows ascend
 * @param key another ascending column to search, e.g. the upper end of a band; an empty cell there has no end
 * @returns null above the last row, and where the cell is empty
 */
export function lookUpNextUp<Row extends RowOf<Row>, C extends ColumnOf<Row>>(
  table: Table<Row>,
  at: number,
  column: C,
  key: ColumnOf<Row> | undefined = table.key[0],
): LookedUp<ValueOf<Row, C>> | null {
  const row = table.rows.find((candidate) => {
    const end: Cell = key === undefined ? null : candidate[key];
    return end === null || (typeof end === "number" && at <= end);
  });
  return row === undefined ? null : takeCell(table, row, column, String(at));
}
