import type { Diagnostic, Level } from "../diagnostic.ts";
import { excerpt, lineStartsOf, positionAt, type Position } from "../plan/text/index.ts";
import { counted } from "./figures.ts";
import type { Tally } from "./documents.ts";
import type { Paint, Style } from "./terminal.ts";
import { textWidth, wrap } from "./text-width.ts";

const styles: Readonly<Record<Level, Style>> = { error: "red", warning: "yellow", hint: "cyan", note: "dim" };

export interface DiagnosticsOptions {
  readonly width: number;
  readonly paint: Paint;
  /** Notes are left out; the tally counts them. */
  readonly withoutNotes?: boolean;
}

/** Columns that the first word of a message takes, and its own lines are indented by. */
const INDENT = 9;
const MOST_PLACES = 6;

/**
 * Messages about a plan as people read them: what and where, the line with its mark, the next step. Notes take one line each.
 *
 * @param file as it was named
 */
export function printDiagnostics(
  file: string,
  text: string,
  diagnostics: readonly Diagnostic[],
  options: DiagnosticsOptions,
): string[] {
  const starts = lineStartsOf(text);
  const placeOf: PlaceOf = (offset) => positionAt(text, offset, starts);
  const blocks = diagnostics
    .filter(({ level }) => level !== "note")
    .map((diagnostic) => printOne(file, text, diagnostic, placeOf, options));
  const notes = diagnostics.filter(({ level }) => level === "note");
  if (notes.length > 0 && options.withoutNotes !== true) blocks.push(printNotes(notes, placeOf, options));
  return blocks.flatMap((block, i) => (i === 0 ? block : ["", ...block]));
}

type PlaceOf = (offset: number) => Position;

const lineAndColumn = ({ line, column }: Position): string => `${line}:${column}`;
const indented = (text: string, width: number, first = ""): string[] =>
  wrap(text, width - INDENT).map((line, i) => (i === 0 ? first : "").padEnd(INDENT) + line);

function printOne(
  file: string,
  text: string,
  { id, level, at, message, hint }: Diagnostic,
  placeOf: PlaceOf,
  { width, paint }: DiagnosticsOptions,
): string[] {
  const [first, ...others] = at;
  const where = first === undefined ? file : `${file}:${lineAndColumn(placeOf(first[0]))}`;
  const lines = [`${paint(styles[level], level.padEnd(INDENT - 2))}  ${where}  ${paint("dim", id)}`];
  if (first === undefined) lines.push(...indented(message, width));
  else {
    const gutter = `${placeOf(first[0]).line} |`.padStart(INDENT - 1);
    const { line, mark } = excerpt(text, first, width - gutter.length - 1);
    const bar = "|".padStart(gutter.length);
    lines.push(`${paint("dim", gutter)} ${line}`.trimEnd());
    // Behind the mark where there is room, else below.
    const fits = gutter.length + 1 + textWidth(mark) + 1 + textWidth(message) <= width;
    lines.push(...(fits ? [`${bar} ${mark} ${message}`] : [`${bar} ${mark}`, ...indented(message, width)]));
  }
  if (others.length > 0) {
    const places = others.slice(0, MOST_PLACES).map(([start]) => lineAndColumn(placeOf(start)));
    lines.push(...indented(`also at ${places.join(", ")}${others.length > MOST_PLACES ? " …" : ""}`, width));
  }
  if (hint !== undefined && hint !== "") lines.push(...indented(hint, width, "hint"));
  return lines;
}

/** A note in one line: what it is about is seldom worth looking at. */
function printNotes(notes: readonly Diagnostic[], placeOf: PlaceOf, { width, paint }: DiagnosticsOptions): string[] {
  const left = 2 * INDENT;
  return notes.flatMap(({ at, message, hint }) => {
    const place = at[0] === undefined ? "" : lineAndColumn(placeOf(at[0][0]));
    const words = hint === undefined || hint === "" ? message : `${message}; ${hint}`;
    const [first = "", ...more] = wrap(words, width - left);
    const head = `${paint("dim", "note".padEnd(INDENT))}${place.padEnd(INDENT)}`;
    return [head + first, ...more.map((line) => " ".repeat(left) + line)];
  });
}

/** `2 errors, 1 warning, no hints, 17 notes` */
export function printTally({ errors, warnings, hints, notes }: Tally): string {
  const say = (n: number, one: string): string => (n === 0 ? `no ${one}s` : counted(n, one));
  return [say(errors, "error"), say(warnings, "warning"), say(hints, "hint"), say(notes, "note")].join(", ");
}
