import type { PrintedColour } from "../make/wire-make.ts";
import { nameOfLetters, type ColourLetters } from "./colour-letters.ts";
import { colourWordAt, isLetter, mostParts, type WordChoices } from "./colour-word.ts";

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

/** A word as the German list reads it, where that has it; for words beside letters that only that list has. */
export function inGerman(part: WordChoices): WordChoices {
  const read = part.filter(({ by }) => by?.startsWith("German") === true);
  return read.length === 0 ? part : read.map(({ letters }) => ({ letters, by: null }));
}

/** Every colour that its parts, base first, can make together. */
export function combined(parts: readonly WordChoices[], saysTracer: boolean): readonly ColourChoice[] {
  const isGerman = parts.some((part) => part.some(({ german }) => german === true));
  let found: { letters: readonly ColourLetters[]; by: readonly string[] }[] = [{ letters: [], by: [] }];
  for (const part of parts) {
    found = found.flatMap(({ letters, by }) =>
      (isGerman ? inGerman(part) : part).map((choice) => ({
        letters: [...letters, ...choice.letters],
        by: choice.by === null || by.includes(choice.by) ? by : [...by, choice.by],
      })),
    );
  }
  return found.flatMap(({ letters, by }): ColourChoice[] => {
    const colour = letters.length > mostParts ? null : asColour(letters, saysTracer);
    return colour === null ? [] : [{ colour, name: nameOf(colour), by }];
  });
}

/** What may stand beside letters that are vague: nothing, a space, a comma, a bracket. */
const isEdge = (character: string | undefined): boolean => character === undefined || " \t,;()[]".includes(character);

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
  if (from > 0 && isLetter(text.charCodeAt(from - 1))) return null;
  const first = colourWordAt(text, from);
  if (first === null) return null;
  const parts: WordChoices[] = [first.choices];
  let to = first.to;
  let saysTracer = false;
  for (;;) {
    const join = joiner.exec(text.slice(to, to + 12))?.[0] ?? "";
    const next = join === "" ? null : colourWordAt(text, to + join.length);
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
    const second = colourWordAt(text, to + 1);
    const said = second === null ? null : tracerWord.exec(text.slice(second.to, second.to + 12));
    if (second !== null && said !== null) {
      parts.push(second.choices);
      saysTracer = true;
      to = second.to + said[0].length;
    }
  }
  // `600V`, `5G4`, `B&S`, `w/G`: letters that are a colour to some only stand for one where nothing touches them.
  const isVague = parts.some((part) => part.some(({ by }) => by !== null));
  if (isVague && !(isEdge(text[from - 1]) && isEdge(text[to]))) return null;
  // `THHN OR THWN`: the word, unless a tracer or a base stands beside it.
  if (parts.length === 1 && text.slice(from, to).toUpperCase() === "OR") return null;
  const [one, ...more] = combined(parts, saysTracer);
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
