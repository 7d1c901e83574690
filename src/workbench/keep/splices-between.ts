import type { Splice } from "../../plan/text/splice.ts";
import { changesOf, linesOf } from "./changed-lines.ts";

/**
 * The least that has to change for one text to become another: lines that are the same stay, of a line that gave way to another only what
 * differs is changed. Where more lines or fewer came instead, they are one piece.
 *
 * @returns in the order of the text, none overlapping; empty where the two are the same
 * @example
 * splicesBetween("a\nb\n", "a\nc\nb\n") //=> [{ start: 2, end: 2, text: "c\n" }]
 * splicesBetween("a: 5.2 m\nb\n", "a: 6 m\nb\n") //=> [{ start: 3, end: 6, text: "6" }]
 */
export function splicesBetween(before: string, after: string): Splice[] {
  const [old, now] = [linesOf(before), linesOf(after)];
  const offsets = [0];
  for (const line of old) offsets.push((offsets.at(-1) ?? 0) + line.length);
  return changesOf(old, now).flatMap(({ start, end, from, to }) => {
    const [gone, put] = [old.slice(start, end), now.slice(from, to)];
    const at = offsets[start] ?? 0;
    if (gone.length !== put.length) return [spliceBetween(gone.join(""), put.join(""), at)];
    return gone.flatMap((line, i) =>
      line === put[i] ? [] : [spliceBetween(line, put[i] ?? "", offsets[start + i] ?? 0)],
    );
  });
}

/**
 * One splice between the first and the last sign that differ.
 *
 * @param offset where both begin
 */
export function spliceBetween(before: string, after: string, offset = 0): Splice {
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
