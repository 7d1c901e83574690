import { ambiguousLetters, clearLetters, colourNames, type ColourLetters } from "./colour-letters.ts";

interface Word {
  readonly text: string;
  readonly to: number;
}

/** Letters of any script. */
export function isLetter(code: number): boolean {
  if (code < 128) return (code >= 65 && code <= 90) || (code >= 97 && code <= 122);
  return code > 0 && /\p{L}/u.test(String.fromCharCode(code));
}

/** One thing that a colour word can be: a base, or base and tracers where letters are written together. */
export interface WordChoice {
  readonly letters: readonly ColourLetters[];
  /** Who reads it so; null where every dialect does. */
  readonly by: string | null;
  /** Letters that only the German list has: beside them `BL` is blue. */
  readonly german?: true;
}

/** What one colour word can be. */
export type WordChoices = readonly WordChoice[];

/** No colour has more than three parts; a longer one is another thing. */
export const mostParts = 3;

/** Longer words are no colours, and a text made to be slow is cut. */
const longestWord = 24;

/** Letters from a place on; null where none stand there. */
function wordAt(text: string, at: number): Word | null {
  let to = at;
  while (to - at < longestWord && isLetter(text.charCodeAt(to))) to++;
  return to === at ? null : { text: text.slice(at, to), to };
}

/** `BKWHYE` → BK WH YE: letters of IEC 60757, two by two. */
function joined(upper: string): readonly ColourLetters[] | null {
  if (upper.length < 4 || upper.length > 2 * mostParts || upper.length % 2 !== 0) return null;
  const parts: ColourLetters[] = [];
  for (let i = 0; i < upper.length; i += 2) {
    const two = upper.slice(i, i + 2);
    const letters = Object.hasOwn(clearLetters, two) ? clearLetters[two] : undefined;
    // Only letters of IEC 60757 are written without a mark between them.
    if (letters !== two) return null;
    parts.push(letters);
  }
  return parts;
}

/** `BLKWHT`, `YELRED`: American shortenings of three letters written together. */
function joinedThrees(upper: string): readonly ColourLetters[] | null {
  if (upper.length !== 6) return null;
  const [a, b] = [upper.slice(0, 3), upper.slice(3)];
  const base = Object.hasOwn(clearLetters, a) ? clearLetters[a] : undefined;
  const tracer = Object.hasOwn(clearLetters, b) ? clearLetters[b] : undefined;
  return base === undefined || tracer === undefined ? null : [base, tracer];
}

const germanOnly: readonly string[] = ["SW", "RT", "GE", "WS", "RS"];

function choicesOfWord(word: string): WordChoices | null {
  const lower = word.toLowerCase();
  const named = colourNames.get(lower);
  if (named !== undefined) return [{ letters: [named], by: null }];
  const upper = word.toUpperCase();
  // `or` is a word of English as well.
  if (lower === word && (upper === "OR" || upper.length === 1)) return null;
  const clear = Object.hasOwn(clearLetters, upper) ? clearLetters[upper] : undefined;
  if (clear !== undefined)
    return [{ letters: [clear], by: null, ...(germanOnly.includes(upper) ? { german: true as const } : {}) }];
  const several = Object.hasOwn(ambiguousLetters, upper) ? ambiguousLetters[upper] : undefined;
  if (several !== undefined) return several.map(({ letters, by }) => ({ letters: [letters], by }));
  const letters = joined(upper) ?? joinedThrees(upper);
  return letters === null ? null : [{ letters, by: null }];
}

const shades: Readonly<Record<string, readonly [light: ColourLetters, dark: ColourLetters]>> = {
  BU: ["LBU", "DBU"],
  GN: ["LGN", "DGN"],
  GY: ["LGY", "DGY"],
};
const shadeWords: Readonly<Record<string, 0 | 1>> = { light: 0, lt: 0, pale: 0, sky: 0, dark: 1, dk: 1, navy: 1 };

/** A colour word at a place, with a shade before it where there is one: `dark grey`, `lt. blue`. */
export function colourWordAt(text: string, at: number): { readonly to: number; readonly choices: WordChoices } | null {
  const word = wordAt(text, at);
  if (word === null) return null;
  const lower = word.text.toLowerCase();
  const shade = Object.hasOwn(shadeWords, lower) ? shadeWords[lower] : undefined;
  if (shade !== undefined) {
    const gap = /^\.?[ -]?/.exec(text.slice(word.to))?.[0].length ?? 0;
    const next = wordAt(text, word.to + gap);
    const base = next === null ? null : choicesOfWord(next.text);
    const letters = base?.length === 1 ? base[0]?.letters : undefined;
    const pair = letters?.length === 1 ? shades[letters[0] ?? ""] : undefined;
    if (next !== null && pair !== undefined) return { to: next.to, choices: [{ letters: [pair[shade]], by: null }] };
  }
  const choices = choicesOfWord(word.text);
  return choices === null ? null : { to: word.to, choices };
}
