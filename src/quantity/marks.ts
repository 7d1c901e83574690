import { isBlank, isDash, skipBlanks } from "./characters.ts";

/** A sign between two numbers. */
export interface Mark {
  readonly means: "range" | "tolerance";
  readonly start: number;
  readonly end: number;
  /** Whether no blank stands on either side. */
  readonly isTight: boolean;
}

const PLUS = 43;

/** The sign between two numbers that follows at an offset, if any: `…`, `..`, `-`, `to`; `±`, `+/-`. */
export function markAt(text: string, behind: number): Mark | null {
  const start = skipBlanks(text, behind);
  if (start === text.length) return null;
  const mark = (means: Mark["means"], length: number): Mark => {
    const end = start + length;
    return { means, start, end, isTight: start === behind && !isBlank(text.charCodeAt(end)) };
  };
  const first = text.charAt(start);
  if (first === "…") return mark("range", 1);
  if (first === "±") return mark("tolerance", 1);
  if (isDash(text.charCodeAt(start))) {
    // `5 -3 A` may be a range or two numbers; `5 - 3` and `5-3` can only be a range.
    return start > behind === isBlank(text.charCodeAt(start + 1)) ? mark("range", 1) : null;
  }
  if (text.startsWith("..", start)) return mark("range", text.charAt(start + 2) === "." ? 3 : 2);
  if (text.charCodeAt(start) === PLUS) {
    const dash = text.charAt(start + 1) === "/" ? start + 2 : start + 1;
    return isDash(text.charCodeAt(dash)) ? mark("tolerance", dash + 1 - start) : null;
  }
  const isTo = start > behind && wordAt(text, start) === "to" && isBlank(text.charCodeAt(start + 2));
  return isTo ? mark("range", 2) : null;
}

const ABOUT: ReadonlySet<string> = new Set(["about", "approx", "approximately", "around", "ca", "circa", "roughly"]);

/** End of a sign or word that says "about"; `start` where there is none. */
export function aboutEnd(text: string, start: number): number {
  if ("~≈∼".includes(text.charAt(start))) return start + 1;
  const word = wordAt(text, start);
  if (!ABOUT.has(word)) return start;
  const end = start + word.length;
  return text.charAt(end) === "." ? end + 1 : end;
}

/** End of a `?` or of the word `unknown`; `start` where there is neither. */
export function unknownEnd(text: string, start: number): number {
  if (text.charAt(start) === "?") return start + 1;
  return wordAt(text, start) === "unknown" ? start + "unknown".length : start;
}

const LONGEST_WORD = "approximately".length;

/** The Latin letters at an offset, in lower case, no more of them than the longest word above has and one. */
function wordAt(text: string, start: number): string {
  let end = start;
  while (end <= start + LONGEST_WORD && isLetter(text.charCodeAt(end))) end++;
  return end === start ? "" : text.slice(start, end).toLowerCase();
}

const isLetter = (code: number): boolean => (code >= 65 && code <= 90) || (code >= 97 && code <= 122);
