/** One cell: words, or a number with the digits that it is printed with. */
export type CsvCell = string | { readonly number: number; readonly decimals: number } | null | undefined;

/**
 * A table as comma-separated values: RFC 4180, lines ended by CR LF, UTF-8.
 *
 * @param head names of the columns, snake case with their unit
 */
export function printCsv(head: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  return [head, ...rows].map((row) => `${row.map(printCell).join(",")}\r\n`).join("");
}

/** A number for a cell; null stays an empty cell. */
export const csvNumber = (number: number | null | undefined, decimals: number): CsvCell =>
  number === null || number === undefined || !Number.isFinite(number) ? null : { number, decimals };

function printCell(cell: CsvCell): string {
  if (cell === null || cell === undefined) return "";
  if (typeof cell === "string") return quote(disarm(cell.replace(CONTROL, "·")));
  const text = cell.number.toFixed(cell.decimals).replace(/\.?0+$/, (zeros) => (cell.decimals > 0 ? "" : zeros));
  return text === "-0" ? "0" : text;
}

/** What could steer a terminal that a file is shown on; line ends and tabs are lawful in a cell. */
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2060-\u206f]/g;

/** What a spreadsheet takes for a formula, also behind blanks. */
const FORMULA = /^[\s\u00a0]*[=+\-@\t\r＝＋－＠]/;
const PLAIN_NUMBER = /^[+-]?\d+(?:\.\d+)?$/;

/**
 * Takes the sting out of a text that a spreadsheet would run: an apostrophe before it makes it words again.
 *
 * A plain number is left alone.
 *
 * @example
 * disarm("=1+2") //=> "'=1+2"
 * disarm("-2.5") //=> "-2.5"
 */
export const disarm = (text: string): string => (FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text);

const quote = (text: string): string =>
  /[",\r\n]/.test(text) || text.trim() !== text ? `"${text.replaceAll('"', '""')}"` : text;

/**
 * A person's name as the head of a column, snake case.
 *
 * @example
 * snakeCase("Hauling the anchor!") //=> "hauling_the_anchor"
 */
export const snakeCase = (name: string): string =>
  name
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, "_")
    .replace(/^_+|_+$/g, "");
