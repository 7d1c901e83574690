import type { PageThing } from "../worker/protocol.ts";

/** A line of the plan. */
export interface PlanTextLine {
  /** From 1. */
  readonly number: number;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The line on which a thing of the plan has its key.
 *
 * @param thing its place may be of an earlier text: then its key is looked for near by
 * @returns null: it stands nowhere any more
 */
export function lineOfThing(text: string, thing: PageThing): PlanTextLine | null {
  const [start, end] = thing.at;
  const written = text.slice(start, end);
  if (unquoted(written) === thing.id && isKeyAt(text, start, end)) return lineAt(text, start);
  let best: number | null = null;
  const key = new RegExp(
    `^[ \\t]*["']?${thing.id.replace(/[\\^$.*+?()[\]{}|/-]/g, "\\$&")}["']?[ \\t]*:(?=\\s|$)`,
    "gm",
  );
  for (const found of text.matchAll(key)) {
    if (best === null || Math.abs(found.index - start) < Math.abs(best - start)) best = found.index;
  }
  return best === null ? null : lineAt(text, best);
}

const unquoted = (text: string): string => text.replace(/^(["'])(.*)\1$/, "$2");

const isKeyAt = (text: string, start: number, end: number): boolean =>
  /^[ \t]*:/.test(text.slice(end, end + 10)) && /^[\s{,]?$/.test(text.charAt(start - 1));

/** The line of an offset, its end without the line break of whichever kind. */
export function lineAt(text: string, offset: number): PlanTextLine {
  const start = offset <= 0 ? 0 : text.lastIndexOf("\n", offset - 1) + 1;
  const newline = text.indexOf("\n", offset);
  let end = newline < 0 ? text.length : newline;
  if (end > start && text.charAt(end - 1) === "\r") end--;
  let number = 1;
  for (let at = text.indexOf("\n"); at >= 0 && at < start; at = text.indexOf("\n", at + 1)) number++;
  return { number, start, end, text: text.slice(start, end) };
}

/**
 * The thing whose lines an offset stands in.
 *
 * @param things with their places in this very text, in its order
 * @returns null between things
 */
export function thingAt<T extends Pick<PageThing, "at">>(text: string, offset: number, things: readonly T[]): T | null {
  const line = lineAt(text, offset);
  let found: T | null = null;
  for (const thing of things) {
    if (thing.at[0] > line.end) break;
    found = thing;
  }
  if (found === null) return null;
  const own = lineAt(text, found.at[0]);
  const indent = indentOf(own.text);
  for (let at = own.end; at < line.end;) {
    const next = text.indexOf("\n", at) + 1;
    if (next === 0) break;
    const below = lineAt(text, next);
    const isBare = /^\s*(?:#|$)/.test(below.text);
    if (!isBare && indentOf(below.text) <= indent && !/^\s*[}\]]/.test(below.text)) return null;
    at = Math.max(below.end, next);
  }
  return found;
}

const indentOf = (line: string): number => /^[ \t]*/.exec(line)?.[0].length ?? 0;
