import { cordAt } from "./cord.ts";
import { hd361At } from "./hd361.ts";
import { namedType, spellingsFrom } from "./named-types.ts";
import type { TypeAt, TypeCode } from "./type-code.ts";
import { boatMarkAt, vehicleWireAt } from "./vehicle-and-boat.ts";

/** Letters of any script; those of ASCII without a search, since a reader asks at every place. */
const isLetter = (character: string | undefined): boolean => {
  if (character === undefined) return false;
  const code = character.charCodeAt(0);
  if (code < 128) return (code >= 65 && code <= 90) || (code >= 97 && code <= 122);
  return /\p{L}/u.test(character);
};
const isDigit = (character: string | undefined) => character !== undefined && character >= "0" && character <= "9";
const isHyphen = (character: string | undefined) => character === "-" || character === "–" || character === "‑";
const isSpace = (character: string | undefined) => character === " " || character === "\t" || character === "\u00a0";

/**
 * Where a spelling ends that begins at a place; −1 where it does not stand there.
 * A hyphen before a letter may be left out or be a space (`NM-B`, `NMB`, `NM B`); before a digit it may be left out, but no space stands
 * for it: `THWN 2` is THWN of size 2.
 */
function endOf(spelling: string, upper: string, from: number): number {
  let at = from;
  for (let i = 0; i < spelling.length; i++) {
    const wanted = spelling[i];
    if (wanted === "-") {
      if (isHyphen(upper[at])) at++;
      else if (isSpace(upper[at]) && isLetter(spelling[i + 1])) at++;
    } else if (wanted === " ") {
      if (isHyphen(upper[at])) at++;
      else while (isSpace(upper[at])) at++;
    } else if (upper[at] === wanted) at++;
    else return -1;
  }
  // A longer word is another word, and a digit after a digit another number.
  return isLetter(upper[at]) || (isDigit(spelling.at(-1)) && isDigit(upper[at])) ? -1 : at;
}

/** Marks that hold letters together with what stands beside them: `B&S`, `A.C.`, `B-spec`, `100W`. */
const holds = (character: string | undefined): boolean =>
  isDigit(character) || isHyphen(character) || (character !== undefined && "&+.'°".includes(character));

/** A type that is a plain word as well counts only in capitals, and only where nothing touches it. */
const stands = (type: TypeCode, text: string, from: number, to: number) =>
  type.alsoMeans === null ||
  (text.slice(from, to).toUpperCase() === text.slice(from, to) && !holds(text[to]) && !holds(text[from - 1]));

/**
 * The longest cable type that begins at a place of a text; all of them where the same letters name several.
 *
 * Letter O for digit 0 and the reverse are not forgiven here.
 *
 * @param text at most some hundred characters
 * @param from index of the first character; a letter before it means that no type begins here
 * @returns null where none begins
 * @example
 * typeAt("12/3 SOOW", 5)?.types.map(({ code }) => code) //=> ["SOOW"]
 * typeAt("H07RN-F3G2.5", 0)?.to //=> 7
 * typeAt("2-2-4 SE", 6)?.types.map(({ family }) => family) //=> ["flexible cord", "service cable"]
 */
export function typeAt(text: string, from: number): TypeAt | null {
  if (isLetter(text[from - 1])) return null;
  return typeInCapitals(text, capitals(text), from);
}

let lastText = "";
let lastCapitals = "";

/** The text in capitals, character by character, so that places stay the same; the last one is kept: a reader asks for place after place. */
function capitals(text: string): string {
  if (text !== lastText) {
    const upper = text.toUpperCase();
    lastCapitals =
      upper.length === text.length
        ? upper
        : Array.from(text, (c) => (c.toUpperCase().length === c.length ? c.toUpperCase() : c)).join("");
    lastText = text;
  }
  return lastCapitals;
}

interface Found {
  readonly to: number;
  readonly type: TypeCode;
}

/** The type whose letters follow a grammar. */
function byGrammar(upper: string, from: number): Found | null {
  switch (upper[from]) {
    case "H":
    case "A":
      return hd361At(upper, from);
    case "S":
      return cordAt(upper, from);
    case "F":
      return vehicleWireAt(upper, from);
    case "B":
      return boatMarkAt(upper, from);
    default:
      return null;
  }
}

/** Adds the types of the table whose spelling has a beginning and stands at a place. */
function addNamed(beginning: string, upper: string, from: number, found: Found[]): void {
  for (const { text, row } of spellingsFrom(beginning)) {
    const to = endOf(text, upper, from);
    if (to >= 0) found.push({ to, type: namedType(row) });
  }
}

function typeInCapitals(text: string, upper: string, from: number): TypeAt | null {
  const found: Found[] = [];
  const lettered = byGrammar(upper, from);
  if (lettered !== null) found.push(lettered);
  addNamed(upper.charAt(from), upper, from, found);
  if (from + 1 < upper.length) addNamed(upper.slice(from, from + 2), upper, from, found);
  if (found.length === 0) return null;
  const whole = found.filter(({ to, type }) => !isLetter(upper[to]) && stands(type, text, from, to));
  const to = Math.max(...whole.map((one) => one.to));
  const [first, ...rest] = new Set(whole.filter((one) => one.to === to).map(({ type }) => type));
  return first === undefined ? null : { to, types: [first, ...rest] };
}

/**
 * Every type that a word names: none, one, or two where standards use the same letters.
 *
 * @example
 * typeChoices("SE").length //=> 2
 * typeChoices("nonsense") //=> []
 */
export function typeChoices(word: string): readonly TypeCode[] {
  const trimmed = word.trim();
  const found = trimmed === "" ? null : typeAt(trimmed, 0);
  return found?.to === trimmed.length ? found.types : [];
}

/**
 * What a cable type says: volts, temperature, what it bears, what its number of conductors counts and what misleads.
 *
 * The word is the designation alone, without cores and size; several types joined by a slash are several words.
 *
 * @param word `SOOW`, `nm-b`, `H07RN-F`, `FLRY-B`, `BC-5W2`, `twin and earth`
 * @returns null where no type or more than one has the letters; {@link typeChoices} tells which
 * @example
 * readTypeCode("SJOOW")?.volts //=> 300
 * readTypeCode("h07v-k")?.stranding?.name //=> "class 5"
 * readTypeCode("BC-5W2")?.wetTemperatureC //=> 75
 * readTypeCode("SE") //=> null
 */
export function readTypeCode(word: string): TypeCode | null {
  const [only, more] = typeChoices(word);
  return more === undefined ? (only ?? null) : null;
}
