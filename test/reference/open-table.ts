import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readTable } from "../../tools/make-reference.ts";

type Cells = Readonly<Record<string, string | number | null>>;

/** Rows of a published table, with the column names of its CSV; the columns that the program does not carry are there too. */
export function openTable(id: string): readonly Cells[] {
  const file = join(import.meta.dirname, "../../reference", `${id}.csv`);
  return readTable(id, readFileSync(file, "utf8")).rows.map(({ cells }) => cells);
}

/** The number in a cell; NaN where it is empty or a word, so that a comparison with it fails. */
export function number(row: Cells | undefined, column: string): number {
  const cell = row?.[column];
  return typeof cell === "number" ? cell : NaN;
}

/** Whether two numbers agree within a relative tolerance. */
export const near = (a: number, b: number, tolerance: number) => Math.abs(a / b - 1) <= tolerance;

/** Half a unit of the last significant digit, relative: what rounding alone can do to a number printed with so many digits. */
export function rounding(printed: number, digits: number): number {
  return (0.5 * 10 ** (Math.floor(Math.log10(Math.abs(printed))) + 1 - digits)) / Math.abs(printed);
}
