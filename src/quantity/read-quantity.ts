import type { Amount, Problem, Reading, Term } from "./amount.ts";
import { findHidden, skipBlanks, wordEnd } from "./characters.ts";
import { dimensions, type Dimension } from "./dimension.ts";
import { endsAround, isBeyondReason, sizeProblem, type Limits } from "./limits.ts";
import { aboutEnd, markAt, unknownEnd } from "./marks.ts";
import { inside, insideDifference, inUnit, scanMeasure, type Measure, type Question } from "./measure.ts";
import { restProblem, unitProblem } from "./measure-problem.ts";
import { printAmount } from "./print-amount.ts";
import * as problem from "./problem.ts";
import { findUnit, unitOf } from "./spellings.ts";

export interface ReadOptions {
  /** Least and most that is lawful here, in the unit inside. */
  readonly min?: number;
  readonly max?: number;
  /** Whether a number may stand without a unit; it is then in the unit inside. A count never has one. */
  readonly bare?: boolean;
  /** Whether other words may follow: `10 A at BP`. `end` of the reading says where. */
  readonly rest?: boolean;
}

/** What the plan language means by `about`: ±10 %. Common practice. */
const ABOUT = 0.1;
/** What `about` means for a temperature, where a percentage would mean nothing. Common practice. */
const ABOUT_KELVINS = 5;
/** A range that lends its unit to the first number and would run down by more than this was meant otherwise. */
const TENFOLD = 10;

/**
 * Reads a quantity as people write one.
 *
 * Forms: `3.4 m`, `3,4m`, `16 ft 4 in`, `5 1/2 in`, `−10 °C`, `1 200 VA`; `about 3 m` and `~3 m` (±10 %, a temperature ±5 K);
 * `2.4…3.1 m`, also with `..`, `-` or `to`; `3 m ± 0.2 m` and `3 m ± 5 %`; `unknown` and `?`. Where two readings are
 * lawful it asks back and never guesses: see `scanNumber` for separators.
 *
 * Never throws on a text, whatever it holds, and takes time in proportion to its length. Names of wire sizes (`2/0 AWG`)
 * are labels, not quantities, and are not read here.
 *
 * @param dimension what is expected; of several, the first that fits
 * @returns an amount with hints, or the problems with their places; `%` of a ratio are points: `40 % ± 5 %` is 35…45 %
 * @accuracy SI numbers are the nearest double or its neighbour
 * @source factors: units.ts
 * @example
 * const length = readQuantity("16' 4\"", "length");
 * length.ok && printAmount(length.amount) //=> "16 ft 4 in"
 * length.ok && length.amount.form === "exact" && length.amount.low //=> 4.9784
 * const doubt = readQuantity("1,200 VA", "apparent power");
 * doubt.problems[0]?.message //=> "`1,200` can mean 1.200 or 1200"
 */
export function readQuantity<D extends Dimension>(
  text: string,
  dimension: D | readonly D[],
  options: ReadOptions = {},
): Reading<D> {
  const asked = typeof dimension === "string" ? [dimension] : dimension;
  const { bare = false, rest = false } = options;
  let furthest: Problem | null = null;
  for (const one of asked) {
    const reading = readAs(text, { dimension: one, asked, bare, rest }, options);
    if ("ok" in reading) return reading as Reading<D>; // of the dimension `one`, which is a D
    // A number out of range has been read to its end, unit and all: this dimension was meant.
    if (furthest?.id === "out-of-range") continue;
    if (furthest === null || reading.id === "out-of-range" || reading.at[0] > furthest.at[0]) furthest = reading;
  }
  if (furthest === null) throw new RangeError("no dimension was asked for");
  // Only now: no form allows such a character, so a text that can be read need not be searched for one.
  const hidden = findHidden(text);
  return { ok: false, problems: [hidden < 0 ? furthest : problem.hiddenCharacter(text, hidden)] };
}

/** Reads the text as one dimension; the amount is then of that dimension. */
function readAs(text: string, question: Question, limits: Limits): Reading | Problem {
  const { dimension, asked, rest } = question;
  const start = skipBlanks(text, 0);
  if (start === text.length) return problem.empty(text.length, asked);
  const afterUnknown = unknownEnd(text, start);
  if (afterUnknown > start && (rest || skipBlanks(text, afterUnknown) === text.length)) {
    return tell({ form: "unknown", dimension }, afterUnknown, []);
  }
  const afterAbout = aboutEnd(text, start);
  const isAbout = afterAbout > start;
  const first = scanMeasure(text, isAbout ? skipBlanks(text, afterAbout) : start, question);
  if (first === null) return problem.notANumber(text, start, wordEnd(text, start), asked);
  if ("id" in first) return first;

  const mark = markAt(text, first.end);
  if (mark !== null) {
    const second = scanMeasure(text, skipBlanks(text, mark.end), question);
    if (second !== null) {
      if ("id" in second) return second;
      if (isAbout) return problem.mixedForms([start, afterAbout]);
      const readForm = mark.means === "range" ? readRange : readTolerance;
      return readForm(text, first, second, question, limits);
    }
    // A dash without a number behind it may begin other words, "5 A - spare", or go on with a unit, "5 m-lb".
    if (!rest && !mark.isTight) return problem.numberMissing(text, mark.start, mark.end, asked);
  }
  const measure = first.units.length > 0 ? first : withBareUnit(text, first, question);
  if ("id" in measure) return measure;
  const fault = restProblem(text, measure, question) ?? sizeProblem(measure, dimension, limits);
  if (fault !== null) return fault;
  const { terms, end } = measure;
  const middle = inside(measure);
  const hints = commaHints(text, measure);
  if (!isAbout) return tell({ form: "exact", dimension, low: middle, high: middle, terms }, end, hints);
  const spread = dimension === "temperature" ? ABOUT_KELVINS : Math.abs(middle) * ABOUT;
  const [low, high] = endsAround(middle, spread, dimension, limits);
  return tell({ form: "about", dimension, low, high, terms }, end, hints);
}

function readRange(
  text: string,
  first: Measure,
  second: Measure,
  question: Question,
  limits: Limits,
): Reading | Problem {
  const { dimension } = question;
  const to = second.units.length > 0 ? second : withBareUnit(text, second, question);
  if ("id" in to) return to;
  const from = first.units.length > 0 ? first : withUnitOf(to, first, question);
  if ("id" in from) return from;
  const fault =
    restProblem(text, to, question) ?? sizeProblem(from, dimension, limits) ?? sizeProblem(to, dimension, limits);
  if (fault !== null) return fault;
  const hints = commaHints(text, from, to);
  const start = inside(from);
  const end = inside(to);
  if (start <= end) {
    return tell({ form: "range", dimension, low: start, high: end, from: from.terms, to: to.terms }, to.end, hints);
  }
  if (first.units.length === 0 && Math.abs(start) > TENFOLD * Math.abs(end)) {
    // 500…1 kW was hardly meant to start at 500 kW.
    return problem.unitMissing(first.terms[0]?.figures ?? "", [first.start, first.end], question.asked);
  }
  const inOrder = amountOf({ form: "range", dimension, low: end, high: start, from: to.terms, to: from.terms });
  const reversed = problem.rangeReversed([from.start, to.end], printAmount(inOrder));
  return { ok: true, amount: inOrder, end: to.end, problems: [...hints, reversed] };
}

function readTolerance(
  text: string,
  first: Measure,
  second: Measure,
  question: Question,
  limits: Limits,
): Reading | Problem {
  const { dimension, asked } = question;
  // A ratio is itself in %, so there ± 5 % are points.
  const percent = dimension === "ratio" ? null : asPercent(text, second);
  const spread = percent ?? (second.units.length > 0 ? second : withBareUnit(text, second, question));
  if ("id" in spread) return spread;
  const at = [spread.start, spread.end] as const;
  if (percent !== null && first.units.length === 0) {
    return problem.unitMissing(first.terms[0]?.figures ?? "", [first.start, first.end], asked);
  }
  const middle = first.units.length > 0 ? first : withUnitOf(spread, first, question);
  if ("id" in middle) return middle;
  if (percent !== null && dimension === "temperature") return problem.relativeTemperature(at);
  const center = inside(middle);
  const size = percent === null ? insideDifference(spread) : (Math.abs(center) * (percent.values[0] ?? 0)) / 100;
  if (size < 0) return problem.negativeSpread(at);
  if (isBeyondReason([...spread.values, size])) return problem.beyondReason(at, dimension);
  const fault = restProblem(text, spread, question) ?? sizeProblem(middle, dimension, limits);
  if (fault !== null) return fault;
  const [low, high] = endsAround(center, size, dimension, limits);
  const hints = commaHints(text, middle, spread);
  return tell(
    { form: "tolerance", dimension, low, high, terms: middle.terms, spread: spread.terms },
    spread.end,
    hints,
  );
}

/** An amount whose numbers and units the compiler has not yet been told to belong to its dimension. */
type Built = { readonly dimension: Dimension } & (
  | { readonly form: "unknown" }
  | (Record<"low" | "high", number> &
      (
        | { readonly form: "exact" | "about"; readonly terms: readonly Term[] }
        | { readonly form: "range"; readonly from: readonly Term[]; readonly to: readonly Term[] }
        | { readonly form: "tolerance"; readonly terms: readonly Term[]; readonly spread: readonly Term[] }
      ))
);

const amountOf = (built: Built): Amount => built as Amount; // its units were found among those of its dimension

const tell = (built: Built, end: number, problems: readonly Problem[]): Reading => ({
  ok: true,
  amount: amountOf(built),
  end,
  problems,
});

/** The measure in the unit inside, where a number may stand alone. */
function withBareUnit(text: string, measure: Measure, question: Question): Measure | Problem {
  const { dimension, bare, rest } = question;
  const { inside: symbol, usual } = dimensions[dimension];
  const at = skipBlanks(text, measure.end);
  const isAlone = at === text.length || (rest && at > measure.end);
  const mayStandAlone = bare || usual[0] === "";
  return isAlone && mayStandAlone ? inUnit(measure, unitOf(dimension, symbol)) : unitProblem(text, measure, question);
}

/** The first of two in the unit of the second: the 2.4 of `2.4…3.1 m`. */
function withUnitOf(second: Measure, first: Measure, { asked }: Question): Measure | Problem {
  const [unit, another] = second.units;
  return unit === undefined || another !== undefined
    ? problem.unitMissing(first.terms[0]?.figures ?? "", [first.start, first.end], asked)
    : inUnit(first, unit);
}

/** The measure as a percentage, where a % stands behind its number; `%/K` is a unit of its own. */
function asPercent(text: string, measure: Measure): Measure | null {
  const percent = findUnit("ratio", text, measure.unitAt);
  return percent === null || text.charAt(percent.end) === "/"
    ? null
    : { ...inUnit(measure, percent.unit), end: percent.end };
}

/** One hint is enough for a text, however many commas it has. */
function commaHints(text: string, ...measures: readonly Measure[]): readonly Problem[] {
  const comma = measures.find((measure) => measure.comma !== null)?.comma;
  return comma == null ? [] : [problem.decimalComma(text.slice(...comma.at), comma.at, comma.point)];
}
