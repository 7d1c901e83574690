import type { Splice } from "../../plan/text/splice.ts";

/**
 * The least that has to change for one text to become another: line by line where as many lines stand between what is the same at both ends, else in one piece.
 *
 * @returns in the order of the text; empty where the two are the same
 */
export function splicesBetween(before: string, after: string): Splice[] {
  if (before === after) return [];
  const whole = between(before, after, 0);
  // Whole lines around the change, so that lines can be compared with lines.
  const start = whole.start === 0 ? 0 : before.lastIndexOf("\n", whole.start - 1) + 1;
  const tail = before.indexOf("\n", whole.end);
  const end = tail < 0 ? before.length : tail;
  const old = before.slice(start, end).split("\n");
  const fresh = after.slice(start, after.length - (before.length - end)).split("\n");
  if (old.length !== fresh.length || old.length < 2) return [whole];
  const splices: Splice[] = [];
  let at = start;
  for (const [i, line] of old.entries()) {
    const now = fresh[i] ?? "";
    if (line !== now) splices.push(between(line, now, at));
    at += line.length + 1;
  }
  return splices;
}

/** One splice between the first and the last sign that differ. */
function between(before: string, after: string, offset: number): Splice {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before.charCodeAt(head) === after.charCodeAt(head)) head++;
  let tail = 0;
  while (
    tail < most - head &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail++;
  return { start: offset + head, end: offset + before.length - tail, text: after.slice(head, after.length - tail) };
}

/**
 * What became of a line, in words for the list of steps.
 *
 * @example
 * changeInWords("W13: { length: 5.2 m }", "W13: { length: 6 m }") //=> "5.2 m → 6 m"
 */
export function changeInWords(before: string, after: string): string {
  const { start, end, text } = between(before, after, 0);
  const from = start - (/[^,{}[\]:#]*$/.exec(before.slice(0, start))?.[0].length ?? 0);
  const rest = /^[^,{}[\]#]*/.exec(before.slice(end))?.[0] ?? "";
  const lead = before.slice(from, start);
  const old = `${lead}${before.slice(start, end)}${rest}`.trim();
  const now = `${lead}${text}${rest}`.trim();
  return `${clipped(old)} → ${clipped(now)}`;
}

const clipped = (text: string): string => (text === "" ? "nothing" : text.length > 40 ? `${text.slice(0, 39)}…` : text);
