import type { Span } from "../diagnostic.ts";
import type { Problem, Term } from "./amount.ts";
import { isDash, isDigit, skipBlanks } from "./characters.ts";
import { insideOf } from "./convert.ts";
import type { Dimension } from "./dimension.ts";
import * as problem from "./problem.ts";
import { scanNumber } from "./scan-number.ts";
import { findUnit, type Unit } from "./spellings.ts";

/** What is being looked for. */
export interface Question {
  readonly dimension: Dimension;
  /** All dimensions that would have done, for the words of a problem. */
  readonly asked: readonly Dimension[];
  readonly bare: boolean;
  readonly rest: boolean;
}

/** One number with its unit, or several that make one: 16 ft 4 in. */
export interface Measure {
  readonly start: number;
  readonly end: number;
  readonly terms: readonly Term[];
  readonly values: readonly number[];
  /** As many as values; none for a number without a unit, which may still take its neighbour's. */
  readonly units: readonly Unit[];
  /** Where the last unit begins, or would. */
  readonly unitAt: number;
  /** The first number with a decimal comma, and how it looks with a point. */
  readonly comma: { readonly at: Span; readonly point: string } | null;
}

/** Reads one measure at an offset; null where no number starts. What follows it is the caller's to judge. */
export function scanMeasure(text: string, start: number, { dimension }: Question): Measure | Problem | null {
  const number = scanNumber(text, start);
  if (number === null || "id" in number) return number;
  const { figures, value, isNegative, end } = number;
  const unitAt = skipBlanks(text, end);
  const found = findUnit(dimension, text, unitAt);
  const comma = number.comma ? { at: [start, end] as const, point: figures } : null;
  if (found === null) return { start, end, terms: [{ figures, unit: "" }], values: [value], units: [], unitAt, comma };

  const { unit } = found;
  const whole: Measure = {
    start,
    end: found.end,
    terms: [{ figures, unit: unit.symbol }],
    values: [value],
    units: [unit],
    unitAt,
    comma,
  };
  return unit.then === null ? whole : addSmaller(text, whole, isNegative, dimension);
}

/** Adds what follows in smaller units: the 4 in of 16 ft 4 in, the 30 min and 10 s of 1 h 30 min 10 s. */
function addSmaller(text: string, larger: Measure, isNegative: boolean, dimension: Dimension): Measure | Problem {
  const unit = larger.units.at(-1);
  if (unit?.then == null) return larger;
  const [small, parts] = unit.then;
  // 16'-4" is how drawings write feet and inches; as a range it would run backwards.
  const isDrawn = unit.symbol === "ft" && isDash(text.charCodeAt(larger.end));
  const start = isDrawn ? larger.end + 1 : skipBlanks(text, larger.end);
  const first = text.charCodeAt(start);
  if (!isDigit(first) && !(first > 127)) return larger;
  const number = scanNumber(text, start);
  if (number === null || isDash(first)) return larger;
  if ("id" in number) return isDrawn ? larger : number;
  const unitAt = skipBlanks(text, number.end);
  const found = findUnit(dimension, text, unitAt);
  if (found?.unit.symbol !== small || (isDrawn && number.value >= parts)) return larger;
  if (number.value >= parts || !/^-?\d+$/.test(larger.terms.at(-1)?.figures ?? "")) {
    return problem.doesNotAddUp([larger.start, found.end], unit.symbol, small, parts);
  }
  // The sign stands before the first number and holds for all; minus nothing is left out, or its sign would be lost.
  const isMinusNothing = isNegative && larger.values.every((value) => value === 0);
  const kept = isMinusNothing ? { terms: [], values: [], units: [] } : larger;
  const sign = isMinusNothing && number.value !== 0 ? "-" : "";
  const comma = number.comma ? { at: [start, number.end] as const, point: number.figures } : null;
  const both: Measure = {
    start: larger.start,
    end: found.end,
    terms: [...kept.terms, { figures: `${sign}${number.figures}`, unit: small }],
    values: [...kept.values, isNegative ? -number.value : number.value],
    units: [...kept.units, found.unit],
    unitAt,
    comma: larger.comma ?? comma,
  };
  return addSmaller(text, both, isNegative, dimension);
}

/** The measure with a unit for its lone number. */
export const inUnit = (measure: Measure, unit: Unit): Measure => ({
  ...measure,
  units: [unit],
  terms: measure.terms.map(({ figures }) => ({ figures, unit: unit.symbol })),
});

/** The number in the unit inside. */
export const inside = ({ values, units }: Measure): number => sum(values, units, insideOf);

/** The same for a difference, where the zero of a temperature scale plays no part. */
export const insideDifference = ({ values, units }: Measure): number =>
  sum(values, units, (unit, value) => (value * unit.si[0]) / unit.si[1]);

function sum(values: readonly number[], units: readonly Unit[], each: (unit: Unit, value: number) => number): number {
  let total = 0; // adding to 0 also turns −0 into 0
  units.forEach((unit, i) => (total += each(unit, values[i] ?? 0)));
  return total;
}
