import { insert, remove } from "./flow-splices.ts";
import { isFirstOnLine, lineBreak, lineEnd, lineStart, nextLine } from "./lines.ts";
import { afterColon, type Level, type Part } from "./locate.ts";
import type { Splice } from "./splice.ts";

/** How much further in an entry stands than the name it belongs to, where there is no neighbour to go by. */
const STEP = "  ";

/**
 * Splices that put an entry on a line of its own.
 *
 * @param after index of the entry it comes after; -1: it comes first
 */
export function putOnLine(text: string, level: Level, after: number, written: string): Splice[] {
  const [first, before] = [level.parts[0], level.parts[after]];
  if (first === undefined) return [];
  const indent = lineBreak(text) + " ".repeat(first.start - lineStart(text, first.start));
  if (before === undefined) return [insert(first.start, written + indent)];
  return [insert(lineEnd(text, before.end), indent + written)];
}

/** Splices that put the first entry under a name that has nothing after its colon. */
export function putUnder(text: string, part: Part, written: string): Splice[] {
  const at = lineEnd(text, afterColon(text, part.keySpan[1]));
  const column = part.start - lineStart(text, part.start);
  return [insert(at, lineBreak(text) + " ".repeat(column) + STEP + written)];
}

/** Splices that put a section after the end of the plan, perhaps with a first entry. */
export function putAtEnd(text: string, written: readonly string[]): Splice[] {
  const newLine = lineBreak(text);
  const ended = text.replace(/^\ufeff/, "") === "" ? "" : text.endsWith("\n") ? newLine : newLine + newLine;
  return [insert(text.length, ended + written.join(newLine + STEP) + newLine)];
}

/**
 * Splices that take an entry, or a list item, off its lines; with the comment behind it, and without those above it.
 *
 * @returns null when it shares its line with something that has to stay
 */
export function takeLines(text: string, level: Level, index: number): Splice[] | null {
  const [part, next] = [level.parts[index], level.parts[index + 1]];
  if (part === undefined) return null;
  const start = level.kind === "list" ? dashBefore(text, part.start) : part.start;
  if (start === null) return null;
  if (isFirstOnLine(text, start)) return [remove(lineStart(text, start), nextLine(text, part.end))];
  // The first entry of a map in a list: `- kind: fuse`.
  const kept = next === undefined || text.slice(part.end, next.start).includes("#");
  return kept ? null : [remove(part.start, next.start)];
}

/** Where the dash of a list item stands that is on the line of the item. */
function dashBefore(text: string, at: number): number | null {
  const dash = text.slice(lineStart(text, at), at).trimEnd();
  return dash.endsWith("-") ? lineStart(text, at) + dash.length - 1 : null;
}

/** The lines of an entry as they stand, with the comment behind it but without indent and last line end. */
export function sourceLines(text: string, part: Part): string {
  return text.slice(part.start, isFirstOnLine(text, part.start) ? lineEnd(text, part.end) : part.end);
}
