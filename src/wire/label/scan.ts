import { colourAt } from "../colour/index.ts";
import { typeAt } from "../type/index.ts";
import { numberFormsAt, type Form } from "./number-forms.ts";
import type { Facts, Option, Part, Unknown } from "./part.ts";
import type { PlainText } from "./plain-text.ts";
import { wordFormsAt } from "./word-forms.ts";
import { phraseAt } from "./words.ts";

/** What a label is made of. */
export interface Scanned {
  readonly parts: readonly Part[];
  readonly unknown: readonly Unknown[];
}

interface Found {
  readonly end: number;
  readonly options: readonly Option[];
}

const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const isLetter = (code: number): boolean => (code >= 97 && code <= 122) || code > 191;

function tryForms(forms: readonly Form[], { low, text }: PlainText, at: number): Found | null {
  for (const { pattern, read, isCased } of forms) {
    pattern.lastIndex = at;
    const match = pattern.exec(isCased === true ? text : low);
    if (match === null) continue;
    const options = read(match);
    if (options !== null) return { end: at + match[0].length, options };
  }
  return null;
}

function typeFound(text: string, at: number): Found | null {
  const found = typeAt(text, at);
  // `BC-5W20`: the last figure belongs to another number.
  if (found !== null && isDigit(text.charCodeAt(found.to)) && isDigit(text.charCodeAt(found.to - 1))) return null;
  return found === null ? null : { end: found.to, options: found.types.map((type): Option => ({ facts: { type } })) };
}

/** Vehicle wire whose letters of colour are those of JASO. */
const JAPANESE_VEHICLE = /(?:^|[^A-Z])C?AV(?:S{1,2}|X)?(?![A-Za-z])/;

/** Behind a colour: it is that of the jacket, which tells nothing of the conductors. */
const OF_THE_JACKET = /^ (?:outer )?(?:jacket|sheath|mantel|gaine|guaina)(?![a-z])/i;

function colourFound(text: string, at: number): Found | null {
  const found = colourAt(text, at);
  if (found === null) return null;
  if (OF_THE_JACKET.test(text.slice(found.to, found.to + 16))) return { end: found.to, options: [{ facts: {} }] };
  // One letter alone is too little to be a colour.
  const isJapanese = JAPANESE_VEHICLE.test(text);
  if (found.to - at === 1 && text.charCodeAt(at) < 128 && !isJapanese) return null;
  const inJapan = isJapanese ? found.choices.filter(({ by }) => by.some((who) => who.includes("Japan"))) : [];
  const options = (inJapan.length === 0 ? found.choices : inJapan).map(({ colour, by, name }): Option => ({
    facts: { coloursOrTracers: colour },
    ...(by.length === 0 ? {} : { by: `${name}: ${by.join(", ")}` }),
  }));
  return { end: found.to, options };
}

const tellsFamily = ({ options }: Found): boolean => options[0]?.facts.family !== undefined;

/** Whether a number is the rest of another that was not understood: `7/0 AWG` is no 0 AWG. */
const isCutOff = (low: string, at: number): boolean =>
  at > 1 &&
  low.charCodeAt(at - 1) !== 32 &&
  /[\d/x:.,-]{2}/.test(low.slice(Math.max(0, at - 2), at)) &&
  !isDigit(low.charCodeAt(at - 1));

/** Whether a phrase is another thing than the type that has the same letters: `TC` is tray cable or tinned copper. */
const saysMore = (phrase: Found, type: Found): boolean => {
  const facts = phrase.options[0]?.facts ?? {};
  const family = type.options[0]?.facts.type?.family ?? null;
  return Object.keys(facts).length > 0 && (facts.maybeFamily === undefined || facts.maybeFamily !== family);
};

/** Facts of a phrase that a type of the same letters does not take away: they hold with it. */
const withPhrase = (type: Found, phrase: Found): Found => {
  const more = phrase.options[0]?.facts ?? {};
  return { end: type.end, options: type.options.map((each) => ({ ...each, facts: { ...more, ...each.facts } })) };
};

/** Of all that a letter may begin, the longest; what is as long is weighed. */
function wordFound(plain: PlainText, text: string, blanks: string, at: number): Found | null {
  const type = typeFound(text, at);
  const phrase = phraseAt(blanks, at);
  const byForm = tryForms(wordFormsAt(plain.low.slice(at, at + 2)), plain, at);
  // No phrase of the trade begins as a colour does.
  const colour = phrase === null ? colourFound(plain.text, at) : null;
  const end = Math.max(type?.end ?? 0, phrase?.end ?? 0, byForm?.end ?? 0, colour?.end ?? 0);
  if (end === 0) return null;
  const longest = (found: Found | null): Found | null => (found?.end === end ? found : null);
  const [asType, asPhrase, asForm, asColour] = [longest(type), longest(phrase), longest(byForm), longest(colour)];
  // `boat cable` names a kind of cable; that it is of a standard it does not say.
  if (asPhrase !== null && tellsFamily(asPhrase)) return asPhrase;
  if (asType !== null && asPhrase !== null && saysMore(asPhrase, asType))
    return { end, options: [...asType.options, ...asPhrase.options] };
  if (asType !== null && asPhrase !== null) return withPhrase(asType, asPhrase);
  return asType ?? asForm ?? asColour ?? asPhrase;
}

const saysNothing = ([first, ...others]: readonly Option[]): boolean => {
  if (others.length > 0) return false;
  for (const _ in first?.facts) return false;
  return true;
};

/** A word or a number with all that hangs on it. */
const LUMP = /[^\s,;()]+/y;
const NUMBER_LUMP = /[\da-z.,/]*[\da-z]/y;

/**
 * Takes a label apart, in one pass from left to right.
 *
 * Each stretch is read in as many ways as it has; which of them fit together is decided elsewhere.
 */
export function scan(plain: PlainText): Scanned {
  const { text, low } = plain;
  const blanks = low.includes("-") ? low.replaceAll("-", " ") : low;
  // A comma or a full stop behind a type is none of its signs.
  const words = /[,.] |[,.]$/.test(text) ? text.replace(/[,.](?= |$)/g, " ") : text;
  const parts: Part[] = [];
  const unknown: Unknown[] = [];
  const take = (at: number, { end, options }: Found): number => {
    if (options.length === 0) unknown.push({ start: at, end, text: text.slice(at, end), isSize: true });
    else if (!saysNothing(options)) parts.push({ start: at, end, options });
    return end;
  };
  for (let at = 0; at < low.length;) {
    const code = low.charCodeAt(at);
    const next = low.charCodeAt(at + 1);
    const isFigure = isDigit(code) || (code === 46 && isDigit(next));
    let found: Found | null = null;
    if (isFigure) {
      const type = isDigit(code) ? typeFound(words, at) : null;
      found = isCutOff(low, at) ? null : tryForms(numberFormsAt(low, at), plain, at);
      if (type !== null && (found === null || found.options.length === 0 || type.end >= found.end)) found = type;
    } else if (isLetter(code)) {
      const runsInto = at > 0 && isLetter(low.charCodeAt(at - 1));
      found = runsInto ? null : wordFound(plain, words, blanks, at);
    } else if (SIGNS.includes(low.charAt(at)))
      found = phraseAt(blanks, at) ?? tryForms(wordFormsAt(plain.low.slice(at, at + 2)), plain, at);
    if (found !== null) {
      at = take(at, found);
      continue;
    }
    if (!isFigure && !isLetter(code)) {
      if (!HARMLESS_SIGNS.has(low.charAt(at)))
        unknown.push({ start: at, end: at + 1, text: text.charAt(at), isSize: false });
      at++;
      continue;
    }
    const lump = isFigure ? NUMBER_LUMP : LUMP;
    lump.lastIndex = at;
    const end = at + (lump.exec(low)?.[0].length ?? 1);
    unknown.push({ start: at, end, text: text.slice(at, end), isSize: false });
    at = end;
  }
  return { parts: withoutChance(parts, plain), unknown };
}

/** Without types whose letters mean another thing as well, where nothing of the wire stands beside them: `AC outlet` is alternating current. */
function withoutChance(parts: readonly Part[], { low }: PlainText): readonly Part[] {
  const isDoubtful = ({ options }: Part): boolean => (options[0]?.facts.type?.alsoMeans ?? null) !== null;
  if (!parts.some(isDoubtful)) return parts;
  const isBoat = parts.some(({ options }) =>
    options.some(({ facts }) => facts.family === "boat cable" || facts.maybeFamily === "boat cable"),
  );
  const touches = (a: Part | undefined, b: Part | undefined): boolean =>
    a !== undefined && b !== undefined && /^[ ,;:()\-]*(?:or |type )?$/.test(low.slice(a.end, b.start));
  return parts.filter(
    (part, at) =>
      !isDoubtful(part) ||
      part.options.length > 1 ||
      ((touches(parts[at - 1], part) || touches(part, parts[at + 1]) || parts.length === 1) &&
        !(isBoat && part.options[0]?.facts.type?.code === "AC")),
  );
}

/** Signs that something may begin with. */
const SIGNS = "#-ø+&@£$€~≥≤<>";
const HARMLESS_SIGNS = new Set(Array.from(" ,;:.()[]-/+&\"'!*_"));

/** Whether a fact is told anywhere, by any of the ways to read a part. */
export function tells(parts: readonly Part[], fact: keyof Facts): boolean {
  for (const { options } of parts) for (const { facts } of options) if (facts[fact] !== undefined) return true;
  return false;
}
