import type { LabelProblem } from "./label-reading.ts";
import type { Part, Unknown } from "./part.ts";
import type { PlainText } from "./plain-text.ts";
import { quote } from "./refuse.ts";
import { saysNumber } from "./spoken-figures.ts";

/** How plainly a label tells a size: not at all (0), by a width (1), by a gauge (2), with the unit of an area or of American gauge (3). */
export type Plainness = 0 | 1 | 2 | 3;

const UNIT = /mm\^?2|sq|²|qmm|mmq|awg|kcmil|mcm|b ?(?:&|and) ?s|swg|^\d{1,2} ?g ?\d/;
const HINT = /g[au]|\/ ?0|^\d{1,2}[/-]\d{1,2}$|^#|^\d{1,2} ?x ?\d/;

/** How plainly a label tells a size. */
export function plainnessOf(parts: readonly Part[], low: string): Plainness {
  let most: Plainness = 0;
  let isTyped = false;
  for (const { start, end, options } of parts) {
    const facts = options[0]?.facts;
    if (facts?.type !== undefined && !facts.type.inWords && facts.type.alsoMeans === null) isTyped = true;
    if (facts?.size === undefined && facts?.strands === undefined) continue;
    const written = low.slice(start, end);
    if (UNIT.test(written)) return 3;
    if (facts.strands !== undefined || HINT.test(written)) most = 2;
    else if (most === 0 && written.includes("m")) most = 1;
  }
  return most === 2 && isTyped ? 3 : most;
}

const PROSE = /^\p{L}+(?:['’-]\p{L}+)*[.!:?]?$/u;
const VOWEL = /[aeiouyàáâäåæèéêëìíîïòóôöøùúûü]/i;
/** `W7`, `F12:`, `CB-3`: a thing on a drawing or in a list. */
const DESIGNATOR = /^[A-Z]{1,4}[-_.]?\d{1,4}[A-Za-z]?(?:[:.-]\d{1,3})?[:.]?$/;
/** The bolt that a lug goes on. */
const STUD = /^M(?:[34568]|1[026])$/;
const BEFORE_DESIGNATOR =
  /(?:^|[:;,([] ?|(?:^|\s)(?:from|to|at|on|for|via|and|ref|item|wire|cable|circuit|fuse|no\.?|or|-) )$/i;

/** Words whose loss would make another wire of it; a slip of one letter must not. */
const WEIGHTY = [
  "three",
  "seven",
  "eleven",
  "twelve",
  "twenty",
  "thirty",
  "forty",
  "fifty",
  "sixty",
  "hundred",
  "copper",
  "aluminium",
  "aluminum",
  "tinned",
  "gauge",
  "square",
  "solid",
  "stranded",
  "duplex",
  "triplex",
];

/** Whether one letter more, less or another makes one word of the other. */
function isSlipOf(word: string, other: string): boolean {
  if (Math.abs(word.length - other.length) > 1) return false;
  let [from, a, b] = [0, word.length, other.length];
  while (from < a && word.charCodeAt(from) === other.charCodeAt(from)) from++;
  while (a > from && b > from && word.charCodeAt(a - 1) === other.charCodeAt(b - 1)) [a, b] = [a - 1, b - 1];
  return a - from <= 1 && b - from <= 1;
}

/**
 * Whether a stretch that was not understood could change what the label means: figures may be a size, letters in capitals a type, a word for a number
 * anything. Other words, as in a note or the name of a shop, are only noted; the fewer letters they have, the plainer the size must be told.
 */
function canMatter({ text, start }: Unknown, plain: PlainText, plainness: Plainness): boolean {
  if (text === "?") return false;
  if (!PROSE.test(text)) {
    if (plainness < 3) return true;
    if (STUD.test(text)) return false;
    return (
      !(DESIGNATOR.test(text) && (text.endsWith(":") || BEFORE_DESIGNATOR.test(plain.text.slice(0, start)))) &&
      !/^\p{L}+[-+/&]$|^\p{L}{2,}(?:\/\p{L}{2,})+$/u.test(text)
    );
  }
  const word = text.toLowerCase().replace(/[.!:?]$/, "");
  if (word === "one")
    return !/(?:the|this|that|which|any|each|other|every)(?: \p{L}+)? $/iu.test(plain.text.slice(0, start));
  if (word.split(/['’-]/).some(saysNumber)) return true;
  if (word.length > 4 && WEIGHTY.some((other) => isSlipOf(word, other))) return true;
  // `UPS:`, `RANGE:`: what stands before a colon is where the wire goes.
  if (text.endsWith(":") && plainness > 0) return false;
  const isMixed = /\p{Ll}{2}/u.test(plain.text.replace(/mm|sq|awg|ft|kcmil/g, ""));
  const inCapitals = text.length > 1 && text === text.toUpperCase();
  // Where others are written small, few capitals are a type.
  if (inCapitals && isMixed) return word.length < 5;
  if (plainness === 0) return word.length < 5;
  if (!VOWEL.test(word)) return word.length < 5;
  return inCapitals ? word.length < 4 : word.length < 2;
}

/** What is said of words that are not known. */
export function unknownWords(
  plain: PlainText,
  unknown: readonly Unknown[],
  plainness: Plainness,
): { readonly blocking: readonly LabelProblem[]; readonly noted: readonly LabelProblem[] } {
  const blocking: LabelProblem[] = [];
  const noted: LabelProblem[] = [];
  for (const each of unknown) {
    const at = plain.spanOf(each.start, each.end);
    const text = plain.written.slice(...at);
    if (each.isSize)
      blocking.push({
        id: "not-a-size",
        at,
        message: `${quote(text)} is no size of its system`,
        hint: "AWG goes from 40 to 4/0, SAE gauge from 20 to 4/0, circular mils to 2000 kcmil, areas to 1000 mm²",
      });
    else if (canMatter(each, plain, plainness))
      blocking.push({
        id: "word-not-known",
        at,
        message: `${quote(text)} is not known here, and it may be a size, a type or a number of conductors`,
        hint: "leave it out if it is none of these, or write it as its standard does",
      });
    else
      noted.push({
        id: "word-not-known",
        at,
        message: `${quote(text)} is not known here and was passed over`,
        hint: "check that it says nothing of the wire",
      });
  }
  return { blocking, noted };
}
