import { indentOf, isFirstOnLine, isLastOnLine, lineBreak, lineEnd, lineStart, nextLine } from "./lines.ts";
import type { Level } from "./locate.ts";
import type { Splice } from "./splice.ts";

/**
 * Splices that put something into brackets, in the style that is there: on the line, or on a line of its own.
 *
 * @param after index of the part it comes after; -1: it comes first
 * @param written without a comma
 */
export function putInBrackets(text: string, level: Level, after: number, written: string): Splice[] {
  const [first, before] = [level.parts[0], level.parts[after]];
  const newLine = (at: number) => lineBreak(text) + indentOf(text, at);
  if (first === undefined) {
    const [open, close] = [level.span[0] + 1, level.span[1] - 1];
    const space = level.kind === "map" ? " " : "";
    const end = text.slice(open, close).trim() === "" ? close : open;
    return [{ start: open, end, text: space + written + space }];
  }
  if (before === undefined) {
    const own = isFirstOnLine(text, first.start);
    return [insert(first.start, `${written},${own ? newLine(first.start) : " "}`)];
  }
  if (!isFirstOnLine(text, before.start)) return [insert(before.end, `, ${written}`)];
  const comma = commaAfter(text, before.end, level.span[1]);
  if (comma >= 0) {
    if (!isLastOnLine(text, comma + 1)) return [insert(comma + 1, ` ${written},`)];
    return [insert(lineEnd(text, comma), `${newLine(before.start)}${written},`)];
  }
  if (!isLastOnLine(text, before.end)) return [insert(before.end, `,${newLine(before.start)}${written}`)];
  return [insert(before.end, ","), insert(lineEnd(text, before.end), newLine(before.start) + written)];
}

/** Splices that take a part out of brackets, with one comma, and with its line when it has one of its own. */
export function takeFromBrackets(text: string, level: Level, index: number): Splice[] {
  const [before, part, next] = [level.parts[index - 1], level.parts[index], level.parts[index + 1]];
  if (part === undefined) return [];
  const comma = commaAfter(text, part.end, next?.start ?? level.span[1]);
  const end = comma < 0 ? part.end : comma + 1;
  if (isFirstOnLine(text, part.start) && isLastOnLine(text, end)) {
    return [remove(lineStart(text, part.start), nextLine(text, end))];
  }
  const onOneLine = (from: number, to: number) => !text.slice(from, to).includes("\n");
  if (next !== undefined) return [remove(part.start, onOneLine(part.end, next.start) ? next.start : end)];
  if (before !== undefined)
    return onOneLine(before.end, part.start) ? [remove(before.end, part.end)] : [remove(part.start, end)];
  const [open, close] = [level.span[0] + 1, level.span[1] - 1];
  return [onOneLine(open, close) ? remove(open, close) : remove(part.start, end)];
}

/** The next comma, behind nothing but space and comments; -1: none before `to`. */
function commaAfter(text: string, from: number, to: number): number {
  for (let at = from; at < to; at++) {
    const sign = text.charAt(at);
    if (sign === ",") return at;
    if (sign === "#") at = lineEnd(text, at) - 1;
    else if (sign.trim() !== "") return -1;
  }
  return -1;
}

export const insert = (at: number, text: string): Splice => ({ start: at, end: at, text });

export const remove = (start: number, end: number): Splice => ({ start, end, text: "" });
