import { printTable, type Column } from "./table.ts";
import { plain, type Paint } from "./terminal.ts";
import { wrap } from "./text-width.ts";

/** Columns of a page that is as wide as usual: on it free text is cut before a table is given up. */
const USUAL = 80;
/** Facts of a row stand in by so much. */
const IN = 2;

const joined = (text: string | readonly string[]): string => (typeof text === "string" ? text : text.join(" "));

/**
 * A table where it fits, else its rows below each other: no cell is lost however narrow the page is, and on a page narrower than usual none is cut.
 *
 * @param width columns that it may take
 * @param shorter the same table with fewer columns, the fullest first: better than rows below each other
 */
export function printRows<R>(
  columns: readonly Column<R>[],
  rows: readonly R[],
  width: number,
  paint: Paint = plain,
  ...shorter: readonly (readonly Column<R>[])[]
): string[] {
  for (const some of [columns, ...shorter]) {
    const table = printTable(uncut(some, width), rows, width, paint);
    if (table !== null) return table;
  }
  return stackRows(columns, rows, width);
}

/** Columns of a table whose text may be cut, unless the page is narrower than usual. */
export const uncut = <R>(columns: readonly Column<R>[], width: number): readonly Column<R>[] =>
  width >= USUAL ? columns : columns.map(({ head, cell, align = "left" }) => ({ head, cell, align }));

/** Each row as a block: what stands first in it, then a line for each further cell with the head of its column. */
export function stackRows<R>(columns: readonly Column<R>[], rows: readonly R[], width: number): string[] {
  return rows.flatMap((row) => {
    const cells = columns
      .map(({ head, cell }) => ({ head: joined(head), says: joined(cell(row)) }))
      .filter(({ says }) => says !== "");
    return cells.flatMap(({ head, says }, i) => {
      const text = i === 0 || head === "" ? says : `${head}: ${says}`;
      const inner = i === 0 ? 0 : IN;
      return wrap(text, width - inner, i === 0 ? 4 : 2).map((line) => " ".repeat(inner) + line);
    });
  });
}
