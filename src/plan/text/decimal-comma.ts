/** A number in digits at the end, as the whole of the text or after a space, a sign or the word of a range. */
const ENDS_IN_NUMBER = /(?:^|[\s…±~≈<>≤≥]|\.\.)[+\-−–]?\d+$/u;
/** Starts and ends with whole numbers and has something between them: `2-3`, `4 m ± 0`. */
const isRange = (text: string): boolean => /^\d+[^\d./]/u.test(text) && /[^\d./]\d+$/u.test(text);
/** Whole digits, perhaps the start of a range, then a unit: never `4.5 m`, `1/2 in` or a bare `4`. */
const STARTS_WITH_DECIMALS_AND_UNIT = /^\d+(?:\s*(?:…|\.{2,3}|–|-|−|±|to)\s*\d+(?:\.\d+)?)?\s*[\p{L}%°′″'"‰]/u;
/** Ends in something that only a number has before its last digits. */
const ENDS_IN_FRACTION = /\d[./]\d+$/u;

/**
 * What commas without a space mean inside brackets, where a comma also separates: `3,4 m` is one length, `1,2,3` is
 * anybody's guess and is asked back.
 *
 * @param parts what stands between the commas; a digit on both sides of each comma
 * @returns `joined`: one value with decimals, a unit follows · `separate`: several values, since what stands before the
 * comma is a name · `ambiguous`: could be either
 * @example
 * judgeCommas(["3", "4 m"]) //=> "joined"
 * judgeCommas(["2", "4…3", "1 m"]) //=> "joined"
 * judgeCommas(["1", "2", "3"]) //=> "ambiguous"
 * judgeCommas(["1", "1/2 in"]) //=> "ambiguous"
 * judgeCommas(["B1", "2 fridges"]) //=> "separate"
 */
export function judgeCommas(parts: readonly string[]): "joined" | "separate" | "ambiguous" {
  const head = parts[0] ?? "";
  const tail = parts.at(-1) ?? "";
  if (!ENDS_IN_NUMBER.test(head) && !isRange(head) && !ENDS_IN_FRACTION.test(head)) return "separate";
  if (ENDS_IN_FRACTION.test(head)) return "ambiguous";
  const between = parts.slice(1, -1);
  return between.every(isRange) && STARTS_WITH_DECIMALS_AND_UNIT.test(tail) ? "joined" : "ambiguous";
}
