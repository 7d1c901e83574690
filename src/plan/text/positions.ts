import type { Span } from "../../diagnostic.ts";
import { lineEnd, lineStart } from "./lines.ts";

/** A place as people and editors count it. */
export interface Position {
  /** From 1. */
  readonly line: number;
  /** From 1, in characters: what an editor's status line shows. */
  readonly column: number;
  /** From 0, in UTF-16 units from the start of the line: what editors exchange among programs. */
  readonly unit: number;
}

/** A line of the plan with a mark under the place that a message is about. */
export interface Excerpt {
  readonly position: Position;
  /** The line, tabs as spaces, unseen characters as a sign, the ends cut where it is too long. */
  readonly line: string;
  /** Spaces and carets; the same width as the marked part has on a screen of fixed width. */
  readonly mark: string;
}

/** Where the lines of a text start; worked out once, many offsets can be placed. */
export function lineStartsOf(text: string): readonly number[] {
  const starts = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
}

/**
 * Line and column of an offset.
 *
 * @param offset 0 to the length of the text; beyond it the end is meant
 * @param starts of the lines of this text, when they are known
 * @example
 * positionAt("a: 1\nb: 2", 8) //=> { line: 2, column: 4, unit: 3 }
 */
export function positionAt(text: string, offset: number, starts: readonly number[] = lineStartsOf(text)): Position {
  const at = Math.max(0, Math.min(offset, text.length));
  let [low, high] = [0, starts.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= at) low = middle;
    else high = middle - 1;
  }
  const start = starts[low] ?? 0;
  const before = text.slice(start, at);
  return { line: low + 1, column: Array.from(before).length + 1, unit: before.length };
}

/**
 * The line that a span starts on, with carets under the span.
 *
 * @param span to its end, or to the end of its first line
 * @param width most columns of the line, at least 20
 * @param starts of the lines of this text, when they are known
 * @example
 * excerpt("a: 1\nW14: { length: 3.2 }", [20, 23]).mark //=> "               ^^^"
 */
export function excerpt(text: string, span: Span, width = 100, starts?: readonly number[]): Excerpt {
  const position = positionAt(text, span[0], starts);
  const start = lineStart(text, span[0]);
  const end = lineEnd(text, span[0]);
  const to = Math.max(span[0] + 1, Math.min(span[1], end));
  // Only what can be shown is looked at: a line may be as long as the plan.
  const from = Math.max(start, span[0] - width);
  const cells = cellsOf(text.slice(from, Math.min(end, span[0] + 2 * width)), from);
  const found = cells.findIndex((cell) => cell.at >= span[0]);
  const first = found < 0 ? cells.length : found;
  const lead = sum(cells.slice(0, first));
  const fits = from === start && end - start < 2 * width && sum(cells) <= width;
  const room = fits || lead <= width / 2 ? lead : Math.floor(width / 3);
  let [left, right] = [first, first];
  while (left > 0 && sum(cells.slice(left - 1, first)) <= room) left--;
  const cutLeft = left > 0 || from > start;
  const columns = fits ? width : width - (cutLeft ? 1 : 0) - 1;
  while (right < cells.length && sum(cells.slice(left, right + 1)) <= columns) right++;
  const cutRight = right < cells.length || Math.min(end, span[0] + 2 * width) < end;
  const shown = cells.slice(left, right);
  const marked = Math.max(1, sum(shown.filter(({ at }) => at >= span[0] && at < to)));
  const line = (cutLeft ? "…" : "") + shown.map(({ sign }) => sign).join("") + (cutRight ? "…" : "");
  const before = (cutLeft ? 1 : 0) + sum(cells.slice(left, first));
  return { position, line, mark: " ".repeat(before) + "^".repeat(marked) };
}

interface Cell {
  readonly at: number;
  readonly sign: string;
  /** Columns on a screen of fixed width. */
  readonly width: number;
}

const sum = (cells: readonly Cell[]): number => cells.reduce((total, { width }) => total + width, 0);

function cellsOf(line: string, from: number): Cell[] {
  const cells: Cell[] = [];
  let at = from;
  for (const character of line) {
    cells.push(
      character === "\t" ? { at, sign: "  ", width: 2 } : { at, sign: shown(character), width: widthOf(character) },
    );
    at += character.length;
  }
  return cells;
}

/** Control characters as their pictures, other unseen ones as the replacement character. */
function shown(character: string): string {
  const code = character.charCodeAt(0);
  if (code < 32) return String.fromCharCode(0x2400 + code);
  if (code === 127) return "␡";
  return UNSEEN.test(character) ? "�" : character;
}

const UNSEEN = /^(?:[\u0080-\u009f\u00ad\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff]|\p{Cs})$/u;
/** Marks that sit on the character before them take no column. */
const MARKS = /^[\p{Mn}\p{Me}\u200c\u200d\ufe00-\ufe0f]$/u;
/** Scripts and pictures that take two columns. */
const WIDE = /^(?:[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}|[\u{20000}-\u{3fffd}])$/u; // prettier-ignore

function widthOf(character: string): number {
  if (MARKS.test(character)) return 0;
  return WIDE.test(character) ? 2 : 1;
}
