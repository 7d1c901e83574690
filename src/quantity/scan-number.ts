import type { Problem } from "./amount.ts";
import { isDash, isDigit, isGroupingBlank, plainCode } from "./characters.ts";
import * as problem from "./problem.ts";

/** One number found in a text, without its unit. */
export interface FoundNumber {
  /** With a decimal point; no grouping, no plus, no needless leading zero. */
  readonly figures: string;
  readonly value: number;
  readonly isNegative: boolean;
  readonly end: number;
  /** Whether a comma stood for the decimal point. */
  readonly comma: boolean;
}

const PLUS = 43;
const COMMA = 44;
const POINT = 46;
const SLASH = 47;
const E = 101;

/** No number of the trade needs more, and a double holds 17. */
const MOST_DIGITS = 40;

/**
 * Reads one number at an offset: `3.4`, `3,4`, `−10`, `1 200`, `5 1/2`, `½`.
 *
 * The rule for separators: *asked back exactly where two readings are lawful, since a factor 1000 hangs on it.*
 * - A point is a decimal point however many digits follow: `3.200` is 3.2. Only with a second separator can it be a
 *   grouping mark: `1.200,5` and `1.200.000`.
 * - A comma is a decimal comma, `3,4`, except where it could as well group thousands: one to three digits before it, not
 *   starting with 0, and exactly three behind it. `1,200` is asked back; `0,200`, `1234,500` and `1,2000` are decimal;
 *   in `1,200.5` and `1,200,000` it can only group.
 * - A blank may group thousands, `1 200`, where every group behind the first has three digits.
 * - A blank or a hyphen joins a whole number and a fraction, `5 1/2` and `5-1/2`; as a range that would run backwards.
 * - A fraction is one of a rule or a fuse: below one, in lowest terms, of halves, thirds or parts of a power of two. `12/24 V`
 *   and `50/60 Hz` are two numbers, `12/3` and `2/0` a cable and a wire, so all these are asked back.
 * - Powers of ten, `1.2e3`, are not read: nobody writes them in a plan, and they would hide a slip of the finger.
 *
 * @returns null where no number starts; a problem where one starts that cannot be told for sure
 */
export function scanNumber(text: string, start: number): FoundNumber | Problem | null {
  const sign = text.charCodeAt(start);
  const isNegative = isDash(sign);
  const at = isNegative || sign === PLUS ? start + 1 : start;

  const lone = fractionAt(text, at);
  if (lone !== null) return withFraction(text, start, isNegative, "", lone);

  const first = text.charCodeAt(at);
  if (!isDigit(first) && !(first === POINT && isDigit(text.charCodeAt(at + 1)))) return null;
  const run = scanRun(text, at);
  const { end } = run;
  if ((text.charCodeAt(end) | 32) === E) {
    const power = /^e[+\-−]?\d{1,3}/i.exec(text.slice(end, end + 5));
    if (power !== null) return problem.exponent(text, start, end + power[0].length);
  }
  if (run.marks === "," && isGroupable(run.digits)) return problem.separatorAmbiguous(text, start, end);
  const decimal = decimalOf(run);
  if (decimal === null) return problem.malformedNumber(text, start, end);
  if (decimal.length > MOST_DIGITS) return problem.tooManyDigits(start, end, decimal.length);

  if (!decimal.includes(".")) {
    const fraction = joinedFraction(text, end, decimal);
    if (fraction !== null) return withFraction(text, start, isNegative, decimal, fraction);
  }
  const comma = run.marks.endsWith(",") && decimal.includes(".");
  return signed(isNegative, decimal, Number(decimal), end, comma);
}

function signed(isNegative: boolean, figures: string, size: number, end: number, comma: boolean): FoundNumber {
  return isNegative && size !== 0
    ? { figures: `-${figures}`, value: -size, isNegative, end, comma }
    : { figures, value: size, isNegative, end, comma };
}

/** Digits with the separators between them: `1.200,5` has the digits 1, 200, 5 and the marks `.,`. */
interface Run {
  readonly digits: readonly string[];
  readonly marks: string;
  readonly end: number;
}

function scanRun(text: string, start: number): Run {
  const digits: string[] = [];
  let marks = "";
  let mayGroup = true;
  for (let from = start; ;) {
    let at = from;
    while (isDigit(text.charCodeAt(at))) at++;
    const group = text.slice(from, at);
    if (digits.length === 0) mayGroup = isFirstGroup(group);
    digits.push(group);
    const mark = text.charCodeAt(at);
    if ((mark === COMMA || mark === POINT) && isDigit(text.charCodeAt(at + 1))) {
      marks += mark === COMMA ? "," : ".";
      mayGroup = false; // a blank behind a separator ends the number
    } else if (mayGroup && isGroupingBlank(mark) && isGroupAt(text, at + 1)) marks += " ";
    else return { digits, marks, end: at };
    from = at + 1;
  }
}

/** Exactly three digits, and not the upper half of a fraction. */
function isGroupAt(text: string, at: number): boolean {
  for (let i = 0; i < 3; i++) if (!isDigit(text.charCodeAt(at + i))) return false;
  const next = text.charCodeAt(at + 3);
  return !isDigit(next) && plainCode(next) !== SLASH;
}

/** What may stand before groups of three: one to three digits that do not start with 0. */
const isFirstGroup = (digits: string): boolean => digits !== "" && digits.length <= 3 && !digits.startsWith("0");

/** Whether these runs of digits can be one number in groups of three. */
const isGroupable = ([first = "", ...others]: readonly string[]): boolean =>
  isFirstGroup(first) && others.every((group) => group.length === 3);

/** The run with a decimal point and nothing else between its digits; null where its marks follow no rule. */
function decimalOf({ digits, marks }: Run): string | null {
  const [first = "", second = ""] = digits;
  if (marks === "") return withoutLeadingZeros(first);
  if (marks.length === 1 && marks !== " ") return `${withoutLeadingZeros(first)}.${second}`;
  const last = marks.charAt(marks.length - 1);
  const grouping = marks.charAt(0);
  // All marks group, or all but the last, which is then another one and stands for the point.
  const groups = last === grouping ? digits : digits.slice(0, -1);
  const isEven = marks.slice(0, groups.length - 1) === grouping.repeat(groups.length - 1);
  if (!isEven || !isGroupable(groups)) return null;
  return last === grouping ? groups.join("") : `${groups.join("")}.${digits.at(-1) ?? ""}`;
}

function withoutLeadingZeros(digits: string): string {
  let zeros = 0;
  while (zeros < digits.length - 1 && digits.charCodeAt(zeros) === 48) zeros++;
  return zeros === 0 && digits !== "" ? digits : digits === "" ? "0" : digits.slice(zeros);
}

interface Fraction {
  readonly over: number;
  readonly under: number;
  readonly end: number;
}

const VULGAR: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["½", [1, 2]],
  ["⅓", [1, 3]],
  ["⅔", [2, 3]],
  ["¼", [1, 4]],
  ["¾", [3, 4]],
  ["⅛", [1, 8]],
  ["⅜", [3, 8]],
  ["⅝", [5, 8]],
  ["⅞", [7, 8]],
]);

/** At most two digits over two, `1/2`, `15/16`, `¾`; whether that is a fraction, `isFraction` says. */
function fractionAt(text: string, start: number): Fraction | null {
  const vulgar = text.charCodeAt(start) > 127 ? VULGAR.get(text.charAt(start)) : undefined;
  if (vulgar !== undefined) return { over: vulgar[0], under: vulgar[1], end: start + 1 };
  const bar = upToTwoDigits(text, start);
  if (bar === start || plainCode(text.charCodeAt(bar)) !== SLASH) return null;
  const end = upToTwoDigits(text, bar + 1);
  const next = plainCode(text.charCodeAt(end));
  if (end === bar + 1 || isDigit(next) || next === SLASH || next === POINT || next === COMMA) return null;
  return { over: partOf(text.slice(start, bar)), under: partOf(text.slice(bar + 1, end)), end };
}

/** A part of a fraction, 0 where its digits start with one: 1/02 is a slip. */
const partOf = (digits: string): number => (digits.startsWith("0") ? 0 : Number(digits));

function upToTwoDigits(text: string, at: number): number {
  if (!isDigit(text.charCodeAt(at))) return at;
  return isDigit(text.charCodeAt(at + 1)) ? at + 2 : at + 1;
}

/** The fraction that goes on from a whole number, if any. */
function joinedFraction(text: string, at: number, whole: string): Fraction | null {
  const next = text.charCodeAt(at);
  if (isGroupingBlank(next)) return fractionAt(text, at + 1);
  if (!isDash(next)) return next > 127 ? fractionAt(text, at) : null;
  const fraction = fractionAt(text, at + 1);
  return fraction !== null && isFraction(fraction) && whole !== "0" ? fraction : null;
}

const PARTS: ReadonlySet<number> = new Set([2, 3, 4, 8, 16, 32, 64]);

const isFraction = ({ over, under }: Fraction): boolean =>
  over > 0 && over < under && PARTS.has(under) && (under === 3 || over % 2 === 1);

function withFraction(
  text: string,
  start: number,
  isNegative: boolean,
  whole: string,
  fraction: Fraction,
): FoundNumber | Problem {
  const { over, under, end } = fraction;
  if (!isFraction(fraction)) return problem.fractionAmbiguous(text, start, end);
  const bar = `${over}/${under}`;
  return signed(isNegative, whole === "" ? bar : `${whole} ${bar}`, Number(whole) + over / under, end, false);
}
