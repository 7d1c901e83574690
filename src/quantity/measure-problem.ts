import type { Problem } from "./amount.ts";
import { isBlank, skipBlanks } from "./characters.ts";
import { fromSi, insideOf } from "./convert.ts";
import { dimensions, type Dimension } from "./dimension.ts";
import type { Measure, Question } from "./measure.ts";
import { nearestSpelling } from "./nearest-spelling.ts";
import { printTerms } from "./print-amount.ts";
import { printQuantity } from "./print-quantity.ts";
import * as problem from "./problem.ts";
import { metres, squareMillimetres } from "./quantity.ts";
import { scanNumber } from "./scan-number.ts";
import { findUnit, type FoundUnit, type Unit } from "./spellings.ts";

/** Signs between numbers that no unit holds. */
const MARKS = "…±";

/** What is wrong with the unit of a number that has none of the dimension behind it. */
export function unitProblem(text: string, measure: Measure, question: Question): Problem {
  const { start, end } = measure;
  const at = skipBlanks(text, end);
  if (at === text.length) return problem.unitMissing(measure.terms[0]?.figures ?? "", [start, end], question.asked);
  return foreignUnit(text, at, measure, question) ?? strangeWord(text, at, measure, question);
}

/** What is wrong with the text behind a measure; null where nothing is. */
export function restProblem(text: string, measure: Measure, question: Question): Problem | null {
  const { end, unitAt, terms, units } = measure;
  const { asked, rest } = question;
  const at = skipBlanks(text, end);
  const isApart = at > end || ",;)".includes(text.charAt(at));
  if (at === text.length || (rest && isApart)) return null;
  if (units.length > 0) {
    // What was found may be the head of a longer unit: the m of m², the A of Ah, the lb of lb ft.
    const foreign = foreignUnit(text, unitAt, measure, question);
    if (foreign !== null) return foreign;
  }
  const to = trimmedEnd(text);
  const next = ",;".includes(text.charAt(at)) ? skipBlanks(text, at + 1) : at;
  const number = scanNumber(text, next);
  if (number !== null) {
    const small = units.at(-1)?.then?.[0];
    if (small === undefined || "id" in number || number.end < to) return problem.twoNumbers(text, next, to, asked);
    const whole = `${printTerms(terms)} ${number.figures} ${small}`;
    return problem.smallerUnitMissing(number.figures, [next, number.end], whole, asked);
  }
  const goesOn = !isApart && !MARKS.includes(text.charAt(at));
  if (goesOn && units.length > 0) return strangeWord(text, unitAt, measure, question);
  return problem.trailingText(text, at, to, asked);
}

/** A unit of another dimension, if one starts at `at` and goes on beyond the measure. */
function foreignUnit(text: string, at: number, { terms, values, end }: Measure, { asked }: Question): Problem | null {
  let longest: FoundUnit | null = null;
  // The keys of that table are the dimensions.
  for (const dimension of Object.keys(dimensions) as Dimension[]) {
    const found = findUnit(dimension, text, at);
    const least = longest?.end ?? Math.max(at, end);
    if (found !== null && found.end > least && isWordEnd(text, found.end)) longest = found;
  }
  if (longest === null) return null;
  const { unit } = longest;
  const figures = terms.at(-1)?.figures ?? "";
  return asked.includes("area") && isWidth(unit)
    ? problem.areaOrDiameter(text, at, longest.end, figures, unit.symbol, roundArea(unit, values.at(-1) ?? 0))
    : problem.unitWrong(text, at, longest.end, figures, unit.dimension, asked);
}

/** Whether people say this unit of how thick a wire is. */
const isWidth = ({ dimension, symbol }: Unit): boolean =>
  dimension === "length" && ["mm", "cm", "in", "mil"].includes(symbol);

function roundArea(unit: Unit, diameter: number): string {
  const mm = fromSi(metres(insideOf(unit, diameter)), "length", "mm");
  return printQuantity(squareMillimetres((Math.PI / 4) * mm ** 2), "area");
}

/** Whether no letter, digit or sign follows that would make another word of it. */
const isWordEnd = (text: string, end: number): boolean => !/^[\p{L}\p{N}/^°·²³%]/u.test(text.slice(end, end + 2));

function strangeWord(text: string, start: number, { terms }: Measure, { asked }: Question): Problem {
  if (scanNumber(text, start) !== null) return problem.twoNumbers(text, start, trimmedEnd(text), asked);
  let end = start;
  while (end < text.length && !isBlank(text.charCodeAt(end)) && !MARKS.includes(text.charAt(end))) end++;
  if (end === start) return problem.trailingText(text, start, trimmedEnd(text), asked);
  const word = text.slice(start, Math.min(end, start + 40));
  return problem.unitUnknown(text, start, end, terms.at(-1)?.figures ?? "", nearestSpelling(word, asked), asked);
}

function trimmedEnd(text: string): number {
  let end = text.length;
  while (isBlank(text.charCodeAt(end - 1))) end--;
  return end;
}
