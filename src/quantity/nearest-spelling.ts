import type { Dimension } from "./dimension.ts";
import { spellingsOf } from "./spellings.ts";

/** A slip of the finger is one or two letters; further away, a guess is no help. */
const MOST_SLIPS = 2;
const LONGEST = 24;

/** The spelling of a unit that is fewest slips away from a word, or null where none is near. */
export function nearestSpelling(word: string, dimensions: readonly Dimension[]): string | null {
  if (word.length > LONGEST) return null;
  let nearest: string | null = null;
  let least = Math.min(MOST_SLIPS, Math.ceil(word.length / 2) - 1) + 1;
  for (const [spelling] of dimensions.flatMap(spellingsOf)) {
    const slips = slipsBetween(word.toLowerCase(), spelling.toLowerCase());
    if (slips < least) {
      least = slips;
      nearest = spelling;
    }
  }
  return nearest;
}

/** Letters to add, leave out or change, and neighbours to swap, that make one word of the other. */
function slipsBetween(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const isSame = a.charAt(i - 1) === b.charAt(j - 1);
      const isSwap = i > 1 && j > 1 && a.charAt(i - 1) === b.charAt(j - 2) && a.charAt(i - 2) === b.charAt(j - 1);
      row[j] = Math.min(
        (last[j] ?? 0) + 1,
        (row[j - 1] ?? 0) + 1,
        (last[j - 1] ?? 0) + (isSame ? 0 : 1),
        isSwap ? (beforeLast[j - 2] ?? 0) + 1 : Infinity,
      );
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? 0;
}
