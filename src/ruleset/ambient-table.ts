import type { LookedUp, RowOf, Table } from "../explain/index.ts";
import type { Celsius } from "../quantity/index.ts";
import { numberCell, type NumberColumnOf } from "./ampacity-table.ts";

/** What hot air leaves of an ampacity, by the temperature that the conductor may reach. */
export interface AmbientColumn {
  readonly ratingC: Celsius;
  /** Ascending; the first whose air is not cooler counts. */
  readonly steps: readonly { readonly toC: Celsius; readonly factor: LookedUp }[];
  /** Above the last step: nothing may be carried, or the square-root form goes on. */
  readonly beyond: "nothing" | "square root";
}

/** A published table of ambient factors, made ready. */
export interface AmbientTable {
  /** By rating, ascending. */
  readonly columns: readonly AmbientColumn[];
}

/**
 * Makes columns of a published table ready.
 *
 * @param toC the air that a row holds up to, °C
 */
export const ambientColumns = <Row extends RowOf<Row>>(
  table: Table<Row>,
  toC: (row: Row) => Celsius,
  beyond: AmbientColumn["beyond"],
  columns: readonly (readonly [Celsius, NumberColumnOf<Row>])[],
): readonly AmbientColumn[] =>
  columns.map(([ratingC, name]) => ({
    ratingC,
    beyond,
    steps: table.rows.flatMap((row) => {
      const factor = numberCell(table, row, name);
      return factor === null ? [] : [{ toC: toC(row), factor }];
    }),
  }));

/** The columns of several tables as one. */
export const ambientTable = (...columns: readonly (readonly AmbientColumn[])[]): AmbientTable => ({
  columns: columns.flat().sort((a, b) => a.ratingC - b.ratingC),
});

/** The column for a rating: the hottest that does not ask for more. Null below the first. */
export const ambientColumn = (table: AmbientTable, ratingC: number): AmbientColumn | null =>
  table.columns.findLast((column) => column.ratingC <= ratingC) ?? null;
