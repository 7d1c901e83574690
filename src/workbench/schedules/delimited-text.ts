import type { ColumnHead, TableRow } from "./table.ts";

/** What a spreadsheet takes for a formula, also behind blanks. Names come from plans and may hold anything. */
const FORMULA = /^[\s\u00a0]*[=+\-@＝＋－＠]/;
const PLAIN_NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;
/** What cannot stand in a cell of either form, and what steers a terminal. */
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2060-\u206f]+/g;

const plain = (text: string): string => {
  const flat = text.replace(CONTROL, " ");
  return FORMULA.test(flat) && !PLAIN_NUMBER.test(flat) ? `'${flat}` : flat;
};

const quoted = (text: string): string =>
  /[",;]/.test(text) || text.trim() !== text ? `"${text.replaceAll('"', '""')}"` : text;

/**
 * A table as text for other programs: by tabs, as spreadsheets take a paste, or by commas after RFC 4180.
 *
 * @param form what stands between cells
 */
export function printDelimited(
  columns: readonly ColumnHead[],
  rows: readonly TableRow[],
  form: "tabs" | "commas",
): string {
  const line = (cells: readonly string[]): string =>
    form === "tabs" ? `${cells.map(plain).join("\t")}\n` : `${cells.map((c) => quoted(plain(c))).join(",")}\r\n`;
  return [columns.map((c) => c.says ?? c.head), ...rows.map((r) => r.cells.map((c) => c.text))].map(line).join("");
}
