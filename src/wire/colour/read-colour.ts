import type { PrintedColour } from "../make/wire-make.ts";
import { ambiguousLetters, clearLetters, colourNames, nameOfLetters, type ColourLetters } from "./colour-letters.ts";

/** One way in which colour letters can be meant. */
export interface ColourChoice {
  readonly colour: PrintedColour;
  /** In words: `blue with white tracer`. */
  readonly name: string;
  /** Who reads the letters so; empty where every dialect does. */
  readonly by: readonly string[];
}

/** A colour at a place of a text. */
export interface ColourAt {
  /** First character after it. */
  readonly to: number;
  /** One where it is clear; several where dialects differ. */
  readonly choices: readonly [ColourChoice, ...ColourChoice[]];
}

interface Word {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** What one colour word can be; the outer list are the choices, the inner the base and the tracers of letters written together. */
type WordChoices = readonly { readonly letters: readonly ColourLetters[]; readonly by: string | null }[];

/** No colour has more than three parts; a longer one is another thing. */
const mostParts = 3;

const wordAt = (text: string, at: number): Word | null => {
  const match = /^\p{L}+/u.exec(text.slice(at, at + 24));
  return match === null ? null : { text: match[0], from: at, to: at + match[0].length };
};

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

function choicesOfWord(word: string): WordChoices | null {
  const lower = word.toLowerCase();
  if (Object.hasOwn(colourNames, lower)) {
    const letters = colourNames[lower];
    return letters === undefined ? null : [{ letters: [letters], by: null }];
  }
  const upper = word.toUpperCase();
  // `or` is a word of English as well.
  if (lower === word && (upper === "OR" || upper.length === 1)) return null;
  const clear = Object.hasOwn(clearLetters, upper) ? clearLetters[upper] : undefined;
  if (clear !== undefined) return [{ letters: [clear], by: null }];
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
function partAt(text: string, at: number): { readonly to: number; readonly choices: WordChoices } | null {
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

const joiner = /^(?: ?[/\-–] ?| (?:with|w\/) ?(?:an? )?)/i;
const tracerWord = /^ (?:tracer|stripe|stripes|striped|trace)(?!\p{L})/iu;

function nameOf([base, ...tracers]: PrintedColour): string {
  if (tracers.length === 0) return nameOfLetters(base);
  return `${nameOfLetters(base)} with ${tracers.map(nameOfLetters).join(" and ")} tracer${tracers.length > 1 ? "s" : ""}`;
}

/** Base and tracers as a colour; green and yellow together are the one colour of the protective conductor, unless yellow is said to be the base. */
function asColour(letters: readonly ColourLetters[], saysTracer: boolean): PrintedColour | null {
  const [base, ...tracers] = letters;
  if (base === undefined) return null;
  if (tracers.length === 1) {
    const [tracer] = tracers;
    if (base === "GN" && tracer === "YE") return ["GNYE"];
    if (base === "YE" && tracer === "GN" && !saysTracer) return ["GNYE"];
  }
  return [base, ...tracers];
}

/**
 * The longest colour that begins at a place of a text: `red`, `BKWHYE`, `yellow/red stripe`, `dark grey`.
 *
 * A slash or a hyphen sets a tracer apart; on a cable of two cores the same words are the two cores, which a reader of whole labels decides.
 *
 * @param from a letter before it means that no colour begins here
 * @returns null where none begins
 * @example
 * colourAt("14 AWG YEL/RED stripe", 7)?.choices[0].name //=> "yellow with red tracer"
 * colourAt("2.5 mm² BL", 8)?.choices.map(({ name }) => name) //=> ["blue", "black"]
 */
export function colourAt(text: string, from: number): ColourAt | null {
  if (from > 0 && /\p{L}/u.test(text.charAt(from - 1))) return null;
  const first = partAt(text, from);
  if (first === null) return null;
  const parts: WordChoices[] = [first.choices];
  let to = first.to;
  let saysTracer = false;
  for (;;) {
    const join = joiner.exec(text.slice(to, to + 12))?.[0] ?? "";
    const next = join === "" ? null : partAt(text, to + join.length);
    if (next === null || parts.length === mostParts) break;
    if (/with|w\//i.test(join)) saysTracer = true;
    parts.push(next.choices);
    to = next.to;
  }
  const tracer = tracerWord.exec(text.slice(to, to + 12));
  if (tracer !== null && parts.length > 1) {
    saysTracer = true;
    to += tracer[0].length;
  }
  // `yellow red stripe`: no mark between, but the word says that the second is a tracer.
  if (parts.length === 1 && text[to] === " ") {
    const second = partAt(text, to + 1);
    const said = second === null ? null : tracerWord.exec(text.slice(second.to, second.to + 12));
    if (second !== null && said !== null) {
      parts.push(second.choices);
      saysTracer = true;
      to = second.to + said[0].length;
    }
  }
  let found: { letters: readonly ColourLetters[]; by: readonly string[] }[] = [{ letters: [], by: [] }];
  for (const part of parts) {
    found = found.flatMap(({ letters, by }) =>
      part.map((choice) => ({
        letters: [...letters, ...choice.letters],
        by: choice.by === null || by.includes(choice.by) ? by : [...by, choice.by],
      })),
    );
  }
  const choices = found.flatMap(({ letters, by }): ColourChoice[] => {
    const colour = letters.length > mostParts ? null : asColour(letters, saysTracer);
    return colour === null ? [] : [{ colour, name: nameOf(colour), by }];
  });
  const [one, ...more] = choices;
  return one === undefined ? null : { to, choices: [one, ...more] };
}

/**
 * Every colour that a text can name: none, one, or several where dialects use the same letters.
 *
 * @example
 * colourChoices("GR").map(({ name }) => name) //=> ["grey", "green"]
 * colourChoices("R/Y").map(({ name, by }) => [name, by.length]) //=> [["red with yellow tracer", 1]]
 */
export function colourChoices(text: string): readonly ColourChoice[] {
  const trimmed = text.trim();
  if (trimmed === "" || trimmed.length > 60) return [];
  const found = colourAt(trimmed, 0);
  return found?.to === trimmed.length ? found.choices : [];
}

/**
 * The colour that a text names without doubt, with its tracers.
 *
 * One letter is never without doubt, and `BL` or `GR` are two colours in two dialects: null, and {@link colourChoices} tells which.
 *
 * @param text a name, American shortenings, letters of IEC 60757 apart or joined; at most 60 characters
 * @example
 * readColour("yellow/red stripe") //=> ["YE", "RD"]
 * readColour("BKWHYE") //=> ["BK", "WH", "YE"]
 * readColour("green with yellow tracer") //=> ["GNYE"]
 * readColour("gray") //=> ["GY"]
 * readColour("BL") //=> null
 */
export function readColour(text: string): PrintedColour | null {
  const [only, more] = colourChoices(text);
  if (only === undefined || more !== undefined) return null;
  return only.by.length === 0 ? only.colour : null;
}

/**
 * A colour in words.
 *
 * @example
 * colourName(["BN", "YE"]) //=> "brown with yellow tracer"
 * colourName(["GNYE"]) //=> "green-yellow"
 */
export const colourName = (colour: PrintedColour): string => nameOf(colour);
