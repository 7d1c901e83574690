import type { Problem } from "./amount.ts";
import { dimensions, type Dimension, type Si } from "./dimension.ts";
import { printTerms } from "./print-amount.ts";
import { printQuantity } from "./print-quantity.ts";
import * as problem from "./problem.ts";
import { inside, type Measure } from "./measure.ts";
import type { UnitOf } from "./units.ts";

/** Least and most that is lawful, in the unit inside. */
export interface Limits {
  readonly min?: number;
  readonly max?: number;
}

export type Ends = readonly [low: number, high: number];

/** No build has numbers beyond these, and a double would in the end turn them into infinity or nothing. */
const LARGEST = 1e15;
const SMALLEST = 1e-15;

/** The narrower of what nature and the caller allow. */
function limitsOf(dimension: Dimension, { min = -Infinity, max = Infinity }: Limits): Ends {
  const { least = -Infinity, most = Infinity } = dimensions[dimension];
  return [Math.max(least, min), Math.min(most, max)];
}

/** The ends about a middle that is inside the limits, cut there: no tolerance makes a length negative. Counts stay whole. */
export function endsAround(middle: number, spread: number, dimension: Dimension, limits: Limits): Ends {
  const [least, most] = limitsOf(dimension, limits);
  const low = Math.max(middle - spread, least);
  const high = Math.min(middle + spread, most);
  // A half below nought rounds up to −0, which is no other number when it has been written down.
  return dimensions[dimension].whole ? [Math.ceil(low) + 0, Math.floor(high)] : [low, high];
}

/** What is wrong with the size of a number; null where nothing is. */
export function sizeProblem(measure: Measure, dimension: Dimension, limits: Limits): Problem | null {
  const { terms, values, start, end } = measure;
  const at = [start, end] as const;
  const size = inside(measure);
  if (isBeyondReason([...values, size])) return problem.beyondReason(at, dimension);
  if (dimensions[dimension].whole && !Number.isInteger(values[0])) return problem.notWhole(printTerms(terms), at);
  const [least, most] = limitsOf(dimension, limits);
  if (size >= least && size <= most) return null;
  const unit = terms[0]?.unit as UnitOf<Dimension>; // found among the units of the dimension
  const shown = (limit: number): string => printQuantity(limit as Si<Dimension>, dimension, { unit, figures: 6 }); // limits are inside
  // Nought inside is nought as written, save of temperatures, whose scales begin elsewhere.
  if (least === 0 && size < 0 && -size <= most && !dimension.startsWith("temperature")) {
    const written = printTerms(terms);
    return problem.belowZero(at, written, written.replace(/^[-−]/, ""), dimension);
  }
  return size < least
    ? problem.tooSmall(at, printTerms(terms), shown(least), dimension)
    : problem.tooLarge(at, printTerms(terms), shown(most), dimension);
}

export const isBeyondReason = (numbers: readonly number[]): boolean =>
  numbers.some((x) => Math.abs(x) > LARGEST || (x !== 0 && Math.abs(x) < SMALLEST));
