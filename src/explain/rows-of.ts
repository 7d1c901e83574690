import type { Cell, ColumnOf, RowOf } from "./table.ts";

/**
 * Rows of a table of which each line holds its cells alone, in the order of the columns: with the names of the columns in every line a third of what is published
 * would be those names.
 *
 * @param columns names, in the order of the cells
 * @param lines cells, one line a row, as many as there are columns
 * @example
 * rowsOf(["size", "ohms"], [["10", 1.2], ["12", 2.0]])[1].ohms //=> 2
 */
export const rowsOf = <Row extends RowOf<Row>>(
  columns: readonly ColumnOf<Row>[],
  lines: readonly (readonly Cell[])[],
): Row[] =>
  lines.map((cells) => Object.fromEntries(columns.map((name, i) => [name, cells[i] ?? null])) as unknown as Row); // the generator takes names and cells of one table
