import type { Span } from "../../diagnostic.ts";
import { spokenFigures } from "./spoken-figures.ts";

/** A label with one way of writing for all that looks alike, and the way back into what was written. */
export interface PlainText {
  /** What was handed in. */
  readonly written: string;
  /** Letters as written, one blank for many, `-`, `/`, `x` and `mm2` for what looks like them. */
  readonly text: string;
  /** The same in small letters. */
  readonly low: string;
  /** Letters of another script that were taken for Latin ones. */
  readonly lookAlikes: readonly Span[];
  /** Characters that do not show. */
  readonly hidden: readonly Span[];
  /** The place in what was written of a place in `text`. */
  readonly spanOf: (start: number, end: number) => Span;
}

/** Cyrillic and Greek letters that look like Latin ones, each under the letter that it is taken for. */
const LOOK_ALIKE: ReadonlyMap<string, string> = new Map(
  [
    "aаα",
    "bЬ",
    "cсϲ",
    "eеε",
    "oоο",
    "pрρ",
    "xхχ",
    "yуυ",
    "kкκ",
    "AАΑ",
    "BВΒ",
    "CС",
    "EЕΕ",
    "HНΗ",
    "KКΚ",
    "MМΜ",
    "OОΟ",
    "PРΡ",
    "TТΤ",
    "XХΧ",
    "YУΥ",
    "ZΖ",
    "NΝ",
    "IІΙ",
    "iіι",
  ].flatMap(([latin = "", ...others]) => others.map((other): [string, string] => [other, latin])),
);

/** Signs that are other drawings of one sign. */
const SAME_SIGN: ReadonlyMap<string, string> = new Map(
  [
    "/⁄∕／",
    "-‐‑‒–—―−－﹣",
    "x×✕✖⨯＊*",
    "'’‘′ʹ＇",
    '"”“″＂',
    "°º˚",
    "ø⌀∅",
    "(（",
    ")）",
    ",，",
    ".．",
    "#＃",
    "&＆",
    "+＋",
  ].flatMap(([sign = "", ...others]) => others.map((other): [string, string] => [other, sign])),
);

const SIMPLE = /^[!-)+-~]+(?: [!-)+-~]+)*$/;
const SQUARE_RUSSIAN = /кв\.? ?мм[²2]?|мм[²2]/iy;
const HIDDEN =
  /[\u0000-\u0008\u000e-\u001f\u007f-\u0084\u0086-\u009f\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\uffff]|\p{Co}|\p{Cs}/u;

/**
 * Writes a label plainly: one blank for any number of any kind, one sign for those that look alike, `mm2` for all squares, Latin letters for their doubles.
 *
 * @example
 * plainText("3×2,5 мм²").text //=> "3x2,5 mm2"
 * plainText("3×2,5 мм²").spanOf(6, 9) //=> [6, 9]
 */
export function plainText(written: string): PlainText {
  return inFigures(SIMPLE.test(written) ? asItStands(written) : bySigns(written));
}

/** Puts figures for numbers in words. */
function inFigures(plain: PlainText): PlainText {
  const spoken = spokenFigures(plain.low);
  if (spoken.length === 0) return plain;
  let text = "";
  let last = 0;
  /** The place in the text before of each place, and its end. */
  const places: Span[] = [];
  const keep = (to: number): void => {
    for (; last < to; last++) {
      text += plain.text.charAt(last);
      places.push([last, last + 1]);
    }
  };
  for (const { start, end, figures } of spoken) {
    keep(start);
    text += figures;
    for (let unit = 0; unit < figures.length; unit++) places.push([start, end]);
    last = end;
  }
  keep(plain.text.length);
  const spanOf = (start: number, end: number): Span =>
    plain.spanOf(places[start]?.[0] ?? plain.text.length, places[end - 1]?.[1] ?? plain.text.length);
  return { ...plain, text, low: smallLetters(text), spanOf };
}

function bySigns(written: string): PlainText {
  let text = "";
  const places: number[] = [];
  const lookAlikes: Span[] = [];
  const hidden: Span[] = [];
  const put = (signs: string, at: number): void => {
    for (const sign of signs) {
      text += sign;
      for (let unit = 0; unit < sign.length; unit++) places.push(at);
    }
  };
  for (let at = 0; at < written.length;) {
    SQUARE_RUSSIAN.lastIndex = at;
    const square = SQUARE_RUSSIAN.exec(written);
    if (square !== null) {
      put("mm2", at);
      at += square[0].length;
      continue;
    }
    const sign = String.fromCodePoint(written.codePointAt(at) ?? 32);
    const latin = isAmongLatin(written, at) ? LOOK_ALIKE.get(sign) : undefined;
    if (/\s/.test(sign) && sign !== "\ufeff") {
      if (text !== "" && !text.endsWith(" ")) put(" ", at);
    } else if (HIDDEN.test(sign)) {
      hidden.push([at, at + sign.length]);
      put("\ufffd", at);
    } else if (latin !== undefined) {
      // Taken for the sign of multiplication no letter is mistaken.
      if (latin.toLowerCase() !== "x") lookAlikes.push([at, at + sign.length]);
      put(latin, at);
    } else if (sign === "²") put(/m\.?$/i.test(text.slice(-2)) ? "2" : sign, at);
    else put(SAME_SIGN.get(sign) ?? fullWidth(sign), at);
    at += sign.length;
  }
  if (text.endsWith(" ")) text = text.slice(0, -1);
  const after = (index: number): number => {
    const last = places[index - 1] ?? 0;
    const next = places.slice(index).find((place) => place > last);
    return next ?? written.trimEnd().length;
  };
  const spanOf = (start: number, end: number): Span => [places[start] ?? written.length, after(end)];
  return { written, text, low: smallLetters(text), lookAlikes, hidden, spanOf };
}

const OTHER_SCRIPT = /[\u0370-\u03ff\u0400-\u04ff]/;
/** Whether a letter of another script stands in a word that is not wholly of that script; a word that only looks Latin counts as such. */
function isAmongLatin(written: string, at: number): boolean {
  if (!OTHER_SCRIPT.test(written.charAt(at))) return false;
  let [from, to] = [at, at + 1];
  while (from > 0 && /\p{L}/u.test(written.charAt(from - 1))) from--;
  while (to < written.length && /\p{L}/u.test(written.charAt(to))) to++;
  return Array.from(written.slice(from, to)).every((letter) => LOOK_ALIKE.has(letter) || !OTHER_SCRIPT.test(letter));
}

const asItStands = (written: string): PlainText => ({
  written,
  text: written,
  low: written.toLowerCase(),
  lookAlikes: [],
  hidden: [],
  spanOf: (start, end) => [start, end],
});

/** Letters and figures of Far Eastern width, and units that are one sign: `㎜`, `㎟`. */
const fullWidth = (sign: string): string =>
  /[\uff01-\uff5e\u3380-\u33df]/.test(sign) ? sign.normalize("NFKC").replace("²", "2") : sign;

/** No letter may become two, or places would shift. */
const smallLetters = (text: string): string => {
  const low = text.toLowerCase();
  return low.length === text.length
    ? low
    : Array.from(text, (sign) => (sign.toLowerCase().length === sign.length ? sign.toLowerCase() : sign)).join("");
};
