/** Figures that were put for the words of a number, and where those stood. */
export interface SpokenFigures {
  readonly start: number;
  readonly end: number;
  readonly figures: string;
}

const ONES =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
    " ",
  );
const TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");
const VALUE: ReadonlyMap<string, number> = new Map([
  ...ONES.map((word, value): [string, number] => [word, value]),
  ...TENS.map((word, at): [string, number] => [word, 20 + 10 * at]),
]);
/** They say a number only before a nought: `double aught`. */
const TIMES: ReadonlyMap<string, number> = new Map([
  ["single", 1],
  ["double", 2],
  ["triple", 3],
  ["quad", 4],
  ["quadruple", 4],
]);
const NOUGHT = /^(?:(?:a|o|no|na)ughts?|zeroe?s?)$/;

/** Words that say a number, whether or not one can be made of them: none of them may be passed over. */
const SAYS_NUMBER =
  /^(?:(?:twen|thir|for|fif|six|seven|eigh|nine)ty|(?:thir|four|fif|six|seven|eigh|nine)?teen|(?:a|o|no|na)ughts?|zeroe?s?|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|hundreds?|thousands?|half|quarters?|thirds?|double|triple|quad|quadruple|dual|pairs?|dozens?|twice|thrice)$/;
export const saysNumber = (word: string): boolean => SAYS_NUMBER.test(word);

const HAS_NUMBER = /(?<![a-z])(?:one(?![a-z])|(?:tw|th|te|fo|fi|si|se|ei|el|ni|no|na|ou|au|ze|do|tr|qu|hu|po)[a-z])/;
const WORD = /[a-z]+/g;
/** After these a number counts by itself: `ten two aught lugs`, `six two core cables`. */
const COUNTED = /^[ -](?:core|conductor|wire|way|gau?ge|awg|ga|(?:a|o|no|na)ught|strand|runs?|sets?|pairs?)/;

interface Token {
  readonly start: number;
  end: number;
  text: string;
  /** Nothing but a blank or a hyphen before it. */
  readonly hangs: boolean;
}

/** Words of a number one after the other become one number where a speaker means one. */
function joinWords(words: readonly Token[]): Token[] {
  const numbers: Token[] = [];
  for (let at = 0; at < words.length; at++) {
    const word = words[at];
    if (word === undefined) continue;
    const next = (ahead: number): string => (words[at + ahead]?.hangs === true ? (words[at + ahead]?.text ?? "") : "");
    const take = (figures: string, more: number): void => {
      numbers.push({ ...word, text: figures, end: words[at + more]?.end ?? word.end });
      at += more;
    };
    const times = TIMES.get(word.text);
    if (times !== undefined) {
      if (NOUGHT.test(next(1))) take(`${times}/0`, 1);
      continue;
    }
    let value = word.text === "hundred" ? 100 : VALUE.get(word.text);
    if (NOUGHT.test(word.text) && next(1) !== "point") {
      // `aught` alone is 1/0; zero is a word for other things as well.
      if (word.text !== "zero") take("1/0", 0);
      else take("0", 0);
      continue;
    }
    if (word.text === "point" || (NOUGHT.test(word.text) && next(1) === "point")) {
      const skip = word.text === "point" ? 0 : 1;
      const decimals = decimalsFrom(words, at + skip + 1);
      if (decimals.count > 0) take(`0.${decimals.figures}`, skip + decimals.count);
      continue;
    }
    if (value === undefined) continue;
    let used = 0;
    if (value >= 1 && value <= 4 && NOUGHT.test(next(1))) {
      take(`${value}/0`, 1);
      continue;
    }
    const tens = VALUE.get(next(1)) ?? 0;
    if (value >= 1 && value < 10 && tens >= 20) {
      // `two fifty`: hundreds whose word is left out.
      value = value * 100 + tens;
      used = 1;
    }
    const unit = VALUE.get(next(used + 1)) ?? 0;
    if (value >= 20 && value % 10 === 0 && unit >= 1 && unit < 10) {
      value += unit;
      used++;
    }
    if (next(used + 1) === "hundred") {
      value *= 100;
      used++;
      const rest = VALUE.get(next(used + 1)) ?? 0;
      if (rest >= 10) {
        value += rest;
        used++;
      }
    }
    if (next(used + 1) === "thousand") {
      value *= 1000;
      used++;
    }
    if (next(used + 1) === "and" && /^(?:a )?half/.test(`${next(used + 2)} ${next(used + 3)}`))
      take(`${value}.5`, used + (next(used + 2) === "a" ? 3 : 2));
    else if (next(used + 1) === "point") {
      const decimals = decimalsFrom(words, at + used + 2);
      take(
        decimals.count > 0 ? `${value}.${decimals.figures}` : String(value),
        used + (decimals.count > 0 ? 1 + decimals.count : 0),
      );
    } else take(String(value), used);
  }
  return numbers;
}

/** The figures after a point: `five`, `seven five`, `seventy-five`. */
function decimalsFrom(words: readonly Token[], from: number): { readonly figures: string; readonly count: number } {
  let figures = "";
  let count = 0;
  for (let at = from; at < from + 3 && words[at]?.hangs === true; at++) {
    const value = VALUE.get(words[at]?.text ?? "");
    if (value === undefined) break;
    const before = figures.at(-1) === "0" && value < 10 ? figures.slice(0, -1) : figures;
    figures = before + String(value);
    count++;
  }
  return { figures, count };
}

/**
 * Numbers that are said in words, as figures: `twelve two` is 12/2, `two fifty` 250, `two and a half` 2.5, `four aught` 4/0.
 *
 * @param low the text in small letters
 * @returns what to put in place of the words, in their order; empty for nearly every label
 * @example
 * spokenFigures("twelve two with ground") //=> [{ start: 0, end: 10, figures: "12/2" }]
 * spokenFigures("two and a half square").map(({ figures }) => figures) //=> ["2.5"]
 */
export function spokenFigures(low: string): readonly SpokenFigures[] {
  if (!HAS_NUMBER.test(low)) return [];
  const words: Token[] = [];
  let last = -1;
  for (const found of low.matchAll(WORD)) {
    const start = found.index;
    const end = start + found[0].length;
    const gap = last < 0 ? "" : low.slice(last, start);
    words.push({ start, end, text: found[0], hangs: gap === " " || gap === "-" });
    last = end;
  }
  const numbers = joinWords(words);
  const spoken: SpokenFigures[] = [];
  for (let at = 0; at < numbers.length; at++) {
    const number = numbers[at];
    if (number === undefined) continue;
    const gapBefore = (ahead: number): string | null => {
      const [before, after] = [numbers[at + ahead - 1], numbers[at + ahead]];
      const gap = before === undefined || after === undefined ? null : low.slice(before.end, after.start);
      return gap === " " || gap === "-" || gap === ", " ? gap : null;
    };
    const gap = gapBefore(1);
    const second = gap === null || gap === ", " ? undefined : numbers[at + 1];
    if (gap !== null && gapBefore(2) === gap) {
      // Conductors of a feeder, one by one.
      const all = numbers.slice(at, at + (gapBefore(3) === gap ? 4 : 3));
      spoken.push({
        start: number.start,
        end: all.at(-1)?.end ?? number.end,
        figures: all.map(({ text }) => text).join("-"),
      });
      at += all.length - 1;
    } else if (second !== undefined && isCable(number.text, second.text) && !COUNTED.test(low.slice(second.end))) {
      spoken.push({ start: number.start, end: second.end, figures: `${number.text}/${second.text}` });
      at++;
    } else if (
      number.text !== "1" ||
      COUNTED.test(low.slice(number.end)) ||
      /^ (?:m|ft|f[eo]|ro|re|sq)/.test(low.slice(number.end))
    )
      // `the red one` is no number.
      spoken.push({ start: number.start, end: number.end, figures: number.text });
  }
  return spoken;
}

/** `twelve two`: a gauge and a number of conductors. */
const isCable = (gauge: string, count: string): boolean =>
  /^(?:22|20|18|16|14|12|10|8|6)$/.test(gauge) && /^[2-8]$/.test(count);
