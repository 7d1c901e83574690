import { changesOf, linesOf, type ChangedLines } from "./changed-lines.ts";

/**
 * Brings together what two people made of one text, line by line.
 *
 * @param base what both started from
 * @returns both changes, or null where both changed the same or neighbouring lines in different ways
 * @example
 * mergeLines("a\nb\nc\n", "A\nb\nc\n", "a\nb\nc\nd\n") //=> "A\nb\nc\nd\n"
 * mergeLines("a\nb\nc\n", "A\nb\nc\n", "X\nb\nc\n") //=> null
 */
export function mergeLines(base: string, mine: string, theirs: string): string | null {
  const [first, left, right] = [base, mine, theirs].map(linesOf);
  if (first === undefined || left === undefined || right === undefined) return null;
  const ours = changesOf(first, left);
  const others = changesOf(first, right);
  const merged: string[] = [];
  let at = 0;
  let [i, k] = [0, 0];
  for (;;) {
    const [a, b] = [ours[i], others[k]];
    const [change, lines] = b === undefined || (a !== undefined && a.start <= b.start) ? [a, left] : [b, right];
    if (change === undefined) break;
    if (a !== undefined && b !== undefined && a.start <= b.end && b.start <= a.end) {
      if (!isSame(a, left, b, right)) return null;
      [i, k] = [i + 1, k + 1];
    } else if (change === a) {
      i++;
    } else {
      k++;
    }
    merged.push(...first.slice(at, change.start), ...lines.slice(change.from, change.to));
    at = change.end;
  }
  return [...merged, ...first.slice(at)].join("");
}

function isSame(a: ChangedLines, left: readonly string[], b: ChangedLines, right: readonly string[]): boolean {
  return (
    a.start === b.start && a.end === b.end && left.slice(a.from, a.to).join("") === right.slice(b.from, b.to).join("")
  );
}
