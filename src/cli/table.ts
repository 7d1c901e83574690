import { clip, textWidth, wrap } from "./text-width.ts";
import { plain, type Paint } from "./terminal.ts";

/** A column of a table; the unit of its numbers stands in its head. */
export interface Column<R> {
  /** One line, or several: `["drop", "%"]`. */
  readonly head: string | readonly string[];
  /** What stands in a row: one line, or several below each other. */
  readonly cell: (row: R) => string | readonly string[];
  /** number: right-aligned on the decimal point. */
  readonly align?: "left" | "number";
  /** Free text: may be cut down to this many columns where the table is too wide. */
  readonly least?: number;
}

const GAP = "  ";
const NUMBER = /^[−-]?\d+(?:\.\d+)?$/;

const lines = (text: string | readonly string[]): readonly string[] => (typeof text === "string" ? [text] : text);

/** A column with its cells laid out; all of one width. */
interface Laid {
  readonly head: readonly string[];
  readonly cells: readonly (readonly string[])[];
  readonly isNumber: boolean;
  readonly least: number | null;
  width: number;
}

/**
 * Lays a table out: columns two blanks apart, numbers on their decimal point, units in the head.
 *
 * Only columns of free text are ever cut, and what is cut shows as `…`.
 *
 * @param width columns that it may take
 * @returns its lines, none with blanks at the end; null when it cannot be made that narrow
 */
export function printTable<R>(
  columns: readonly Column<R>[],
  rows: readonly R[],
  width: number,
  paint: Paint = plain,
): string[] | null {
  const laid = columns.map((column): Laid => {
    const isNumber = column.align === "number";
    const raw = rows.map((row) => lines(column.cell(row)));
    const cells = isNumber ? alignNumbers(raw) : raw;
    const head = lines(column.head);
    const widest = Math.max(0, ...head.map(textWidth), ...cells.flat().map(textWidth));
    return { head, cells, isNumber, least: column.least ?? null, width: widest };
  });
  if (!shrink(laid, width)) return null;

  const line = (pick: (column: Laid) => string): string =>
    laid
      .map((column) => pad(clip(pick(column), column.width), column.width, column.isNumber))
      .join(GAP)
      .trimEnd();
  const headLines = Math.max(...laid.map(({ head }) => head.length));
  // Heads stand on the rows: what is shorter begins lower.
  const head = Array.from({ length: headLines }, (_, i) =>
    line((column) => column.head[i - headLines + column.head.length] ?? ""),
  );
  const body = rows.flatMap((_, r) => {
    const high = Math.max(1, ...laid.map(({ cells }) => cells[r]?.length ?? 0));
    return Array.from({ length: high }, (_, i) => line(({ cells }) => cells[r]?.[i] ?? ""));
  });
  return [...head.map((text) => paint("bold", text)), ...body];
}

function pad(text: string, width: number, toTheRight: boolean): string {
  const blanks = " ".repeat(Math.max(0, width - textWidth(text)));
  return toTheRight ? blanks + text : text + blanks;
}

/** Pads what stands behind the point, so that numbers set to the right stand on their point; words are left as they are. */
function alignNumbers(cells: readonly (readonly string[])[]): (readonly string[])[] {
  const behind = (text: string): number => (text.includes(".") ? text.length - text.indexOf(".") : 0);
  const most = Math.max(0, ...cells.flat().map((text) => (NUMBER.test(text) ? behind(text) : 0)));
  return cells.map((cell) => cell.map((text) => (NUMBER.test(text) ? text + " ".repeat(most - behind(text)) : text)));
}

/** Takes columns off the widest free text until the table fits; false when there is nothing left to take. */
function shrink(laid: readonly Laid[], width: number): boolean {
  let over = laid.reduce((sum, column) => sum + column.width, 0) + GAP.length * (laid.length - 1) - width;
  while (over > 0) {
    const free = laid.filter(
      (column) => column.least !== null && column.width > Math.max(column.least, headWidth(column)),
    );
    const widest = free.reduce<Laid | null>((a, b) => (a === null || b.width > a.width ? b : a), null);
    if (widest === null) return false;
    widest.width--;
    over--;
  }
  return true;
}

const headWidth = ({ head }: Laid): number => Math.max(0, ...head.map(textWidth));

/** The words of a name one below the other, so that it heads a narrow column: `["hauling", "the anchor"]`. */
export function stackedHead(name: string, most: number): readonly string[] {
  const stacked = wrap(name, most);
  return stacked.length <= 3 ? stacked : [...stacked.slice(0, 2), clip(`${stacked.slice(2).join(" ")} `, most)];
}
