import { spliceBetween } from "../keep/splices-between.ts";

/**
 * What became of a line, in words for the list of steps.
 *
 * @example
 * changeInWords("W13: { length: 5.2 m }", "W13: { length: 6 m }") //=> "5.2 m → 6 m"
 */
export function changeInWords(before: string, after: string): string {
  const { start, end, text } = spliceBetween(before, after);
  const from = start - (/[^,{}[\]:#]*$/.exec(before.slice(0, start))?.[0].length ?? 0);
  const rest = /^[^,{}[\]#]*/.exec(before.slice(end))?.[0] ?? "";
  const lead = before.slice(from, start);
  const old = `${lead}${before.slice(start, end)}${rest}`.trim();
  const now = `${lead}${text}${rest}`.trim();
  return `${clipped(old)} → ${clipped(now)}`;
}

const clipped = (text: string): string => (text === "" ? "nothing" : text.length > 40 ? `${text.slice(0, 39)}…` : text);
