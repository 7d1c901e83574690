import type { Span } from "../../diagnostic.ts";
import type { LabelProblem } from "./label-reading.ts";
import type { PlainText } from "./plain-text.ts";

/** Longest label that is searched; the longest printed along a cable are near 120 characters. */
export const LONGEST_LABEL = 200;
const LONGEST_EXCERPT = 40;

/** A stretch of a person's text: cut where it is long, with a mark for what does not show. */
export const quote = (text: string): string =>
  `\`${text.slice(0, LONGEST_EXCERPT).replace(/\p{C}/gu, "�")}${text.length > LONGEST_EXCERPT ? "…" : ""}\``;

const problem = (id: LabelProblem["id"], at: Span, message: string, hint: string): LabelProblem => ({
  id,
  at,
  message,
  hint,
});

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const MONTH =
  "(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)(?![a-z])";
const HAS_MONTH = /jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec/;
const DAY_MONTH = new RegExp(String.raw`(?<![\da-z])(\d{1,2})[- .]${MONTH}(?:[- ,.]+\d{2,4})?(?![a-z])`);
const MONTH_DAY = new RegExp(String.raw`(?<![\da-z])${MONTH}[- .](\d{1,2})(?![\d])`);
const DATE =
  /(?<![\d./-])(\d{1,2})([/.-])(\d{1,2})\2(?:(?:19|20)\d\d|[2-4]\d)(?![\d./-])|(?<!\d)(?:19|20)\d\d-(\d\d)-(\d\d)(?!\d)/;
const FORMULA = /^\s*=|#(?:ref|name|value|num|div\/0|null)[!?]|#n\/a/;
const MARKUP = /<[/!?]?[a-z]|&(?:#x?[\da-f]{1,6}|[a-z]{2,8});/i;
/** A line that ends, and another behind it. */
const LINE_BREAK = /[\n\v\f\r\u0085\u2028\u2029](?=\s*\S)(?<=\S\s*)/;
const RATIO = /(?<![a-z\d:])\d{1,4} ?:\d{1,4}(?![\d:])/;
/** Things of other trades that are sold by the same figures; beside a word for wire they are only mentioned. */
const OTHER_TRADE =
  /(?<![a-z])(?:[a-z]*schrauben?|screws?|nails?|bolts|washers?|viti|vis|flashing|sheet ?metal|stainless steel|heat[ -]?shrink|shrink ?(?:tub\w*|wrap)|[a-z]*schlauch|hoses?|pipes?|rope|chain|plywood|timber|lumber|drill bits?|doors?|resistors?|inductors?)(?![a-z])/;
const WIRE_WORD =
  /awg|mm ?2|mm²|sqmm|sq mm|kcmil|mcm|cable|wire|conductor|cord|flex|lead|strand|core|copper|kabel|leitung|litze|draht|c[aâ]ble|fil |cavo|cobre|(?<![a-z])cu(?![a-z])/;
/** Figures with a letter or a stroke among them that looks like one. */
const FOR_DIGIT =
  /(?<![a-zA-Z\d.,/-])(?:[1-4] ?[/-] ?[oO](?![a-zA-Z])|[lI|] ?\/ ?0(?!\d)|\d{0,2}[lI|oO]\d{1,2}(?![a-zA-Z\d])|\d{1,2}[lI|oO]\d{0,2}(?![a-zA-Z\d])|[oO]{1,4} ?-?(?=(?:awg|AWG|ga|GA|gauge)(?![a-z]))|[HA][oO][1357](?=[A-Z]))/;

/** `10/3` out of `3-Oct`: the day and the month, as the spreadsheet of an American takes them. */
const sizeOfDate = (day: number, month: number): string => `\`${month}/${day}\` or \`${day}/${month}\``;

function madeBySpreadsheet(plain: PlainText): LabelProblem | null {
  const { low } = plain;
  const found = (HAS_MONTH.test(low) ? (DAY_MONTH.exec(low) ?? MONTH_DAY.exec(low)) : null) ?? DATE.exec(low);
  if (found !== null) {
    const at = plain.spanOf(found.index, found.index + found[0].length);
    const month = MONTHS.findIndex((name) => found[0].includes(name)) + 1;
    const figures = found.slice(1).flatMap((part) => (part !== undefined && /^\d+$/.test(part) ? [Number(part)] : []));
    const [a = 0, b = 0] = figures;
    const meant = month > 0 ? sizeOfDate(a, month) : sizeOfDate(b, a);
    return problem(
      "made-by-a-spreadsheet",
      at,
      `${quote(found[0])} is a date, as spreadsheets make of labels such as ${meant}; the label itself was expected`,
      `look at the reel or the first list: was it ${meant}?`,
    );
  }
  const formula = /[=#]/.test(low) ? FORMULA.exec(low) : null;
  return formula === null
    ? null
    : problem(
        "made-by-a-spreadsheet",
        plain.spanOf(0, plain.text.length),
        `${quote(plain.written.trim())} is the work of a spreadsheet; a label was expected`,
        "copy the text that the cell shows, or type the label",
      );
}

/**
 * What makes a text no label at all, or one that must not be read.
 *
 * @returns the reasons; empty where it may be read
 */
export function refusals(plain: PlainText): readonly LabelProblem[] {
  const { written, text, low } = plain;
  const all: Span = [0, written.length];
  if (text === "")
    return [
      problem(
        "nothing-written",
        all,
        "nothing is written here; a label was expected",
        "write `12 AWG`, `3G2.5` or what is printed on the cable",
      ),
    ];
  // Most labels have none of the signs that these look for.
  const markup = /[<&]/.test(text) ? MARKUP.exec(text) : null;
  if (markup !== null)
    return [
      problem(
        "markup",
        plain.spanOf(markup.index, markup.index + markup[0].length),
        "the text holds markup of a page; a label was expected",
        "copy the words alone, as they are shown",
      ),
    ];
  const broken = LINE_BREAK.exec(written);
  if (broken !== null)
    return [
      problem(
        "not-a-label",
        [broken.index, broken.index + 1],
        "the text has more lines than one; one label was expected",
        "give one label at a time",
      ),
    ];
  const hidden = plain.hidden[0];
  if (hidden !== undefined)
    return [
      problem(
        "look-alike",
        hidden,
        "a character that does not show stands here; figures on both sides of it may be one number or two",
        "type the label anew",
      ),
    ];
  const other = plain.lookAlikes[0];
  if (other !== undefined)
    return [
      problem(
        "look-alike",
        other,
        `${quote(written.slice(...other))} is a letter of another script that looks like a Latin one; read as that the label is ${quote(text)}`,
        `type ${quote(text)} if that is what the cable says`,
      ),
    ];
  const table = madeBySpreadsheet(plain);
  if (table !== null) return [table];
  const letter = /[oOlI|]/.test(text) ? FOR_DIGIT.exec(text) : null;
  if (letter !== null) {
    const digits = letter[0]
      .replace(/[oO]/g, "0")
      .replace(/[lI]/g, "1")
      .replace("|", "/")
      .replace(/ /g, "")
      .replace(/^0+$/, (noughts) => `${noughts.length}/0`);
    return [
      problem(
        "letter-for-digit",
        plain.spanOf(letter.index, letter.index + letter[0].trimEnd().length),
        `${quote(letter[0].trimEnd())} has a letter or a stroke where a figure was expected`,
        `write \`${digits}\` if that is what the cable says`,
      ),
    ];
  }
  const trade = OTHER_TRADE.exec(low);
  if (trade !== null && !WIRE_WORD.test(low))
    return [
      problem(
        "other-thing",
        plain.spanOf(trade.index, trade.index + trade[0].length),
        `${quote(trade[0])} is a thing of another trade; a wire or a cable was expected`,
        "write the size with its unit, and `wire` or `cable` beside it, if it is one",
      ),
    ];
  const ratio = low.includes(":") ? RATIO.exec(low) : null;
  if (ratio !== null)
    return [
      problem(
        "other-thing",
        plain.spanOf(ratio.index, ratio.index + ratio[0].length),
        `${quote(ratio[0])} is a ratio or a time of day; a wire size was expected`,
        `write \`${ratio[0].replace(/ ?: ?/, "/")}\` if it names conductors`,
      ),
    ];
  return [];
}

/** A text that is not even looked into. */
export const tooLong = (text: string): LabelProblem =>
  problem(
    "too-long",
    [LONGEST_LABEL, text.length],
    `the text has ${text.length} characters; a label has at most ${LONGEST_LABEL}`,
    "give one label at a time",
  );
