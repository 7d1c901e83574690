import { fromSi } from "./convert.ts";
import { decimalText, type Rounding } from "./decimal-text.ts";
import { dimensions, type Dimension, type Si } from "./dimension.ts";
import type { DecimalMark } from "./print-amount.ts";
import { metres } from "./quantity.ts";
import type { UnitOf } from "./units.ts";

export interface PrintOptions<D extends Dimension = Dimension> {
  /** Whose units; metric unless said. */
  readonly units?: "metric" | "US";
  readonly decimal?: DecimalMark;
  /** At most so many significant figures, zeros at the end left out; 3 unless said. Digits left of the point always stay. */
  readonly figures?: number;
  /** Instead of `figures`: always so many digits behind the point, as columns need. */
  readonly decimals?: number;
  /** One unit, whatever the size. */
  readonly unit?: UnitOf<D>;
}

const FIGURES = 3;

/**
 * A result as people read it: rounded once, in a unit of fitting size.
 *
 * The rules, few on purpose: number, blank, unit. A true minus sign, never on a zero. No exponents, no grouping of digits.
 * Lengths of a foot and more in US units are feet and inches, with at least whole inches.
 * What a plan should hold is printed by `printAmount`; this keeps nothing of how a number was written.
 *
 * @param si in the unit inside: SI, mm² for areas, °C for temperatures
 * @throws RangeError - not a finite number: a defect of whoever computed it
 * @example
 * printQuantity(toSi(0.005129, "resistance", "Ω"), "resistance") //=> "5.13 mΩ"
 * printQuantity(toSi(4.9784, "length", "m"), "length", { units: "US" }) //=> "16 ft 4 in"
 * printQuantity(toSi(11.6, "voltage", "V"), "voltage", { decimals: 2, decimal: "," }) //=> "11,60 V"
 */
export function printQuantity<D extends Dimension>(si: Si<D>, dimension: D, options: PrintOptions<D> = {}): string {
  return printIn(unitFor(si, dimension, options), si, dimension, options).join(" ");
}

/**
 * Two ends of a range in one unit; one number where both print alike.
 *
 * @param low not above `high`
 * @throws RangeError - an end is not a finite number
 * @example
 * printRange(toSi(2.4, "length", "m"), toSi(3.1, "length", "m"), "length") //=> "2.4…3.1 m"
 * printRange(toSi(-10, "temperature", "°C"), toSi(50, "temperature", "°C"), "temperature") //=> "−10…50 °C"
 */
export function printRange<D extends Dimension>(
  low: Si<D>,
  high: Si<D>,
  dimension: D,
  options: PrintOptions<D> = {},
): string {
  const unit = unitFor(Math.abs(low) > Math.abs(high) ? low : high, dimension, options);
  const from = printIn(unit, low, dimension, options);
  const to = printIn(unit, high, dimension, options);
  if (from.join(" ") === to.join(" ")) return to.join(" ");
  const isShort = from.length <= 2 && to.length <= 2 && from[1] === to[1];
  return `${isShort ? (from[0] ?? "") : from.join(" ")}…${to.join(" ")}`;
}

/** Number and unit by turns, `["16", "ft", "4", "in"]`; a count has no unit. */
function printIn<D extends Dimension>(unit: UnitOf<D>, si: Si<D>, dimension: D, options: PrintOptions<D>): string[] {
  const isFeetAndInches = unit === "ft" && options.unit === undefined;
  const rounding = roundingOf(options);
  const parts = isFeetAndInches
    ? feetAndInches(metres(si), rounding)
    : [decimalText(fromSi(si, dimension, unit), rounding), unit].filter((part) => part !== "");
  const isZero = parts.every((part, i) => i % 2 === 1 || !/[1-9]/.test(part));
  const value = isFeetAndInches ? si : fromSi(si, dimension, unit);
  if (value < 0 && !isZero) parts[0] = `−${parts[0] ?? ""}`;
  return options.decimal === "," ? parts.map((part) => part.replace(".", ",")) : parts;
}

const roundingOf = ({ figures, decimals }: Pick<PrintOptions, "figures" | "decimals">): Rounding =>
  decimals !== undefined ? { decimals } : { figures: figures ?? FIGURES };

/** The largest unit of the ladder in which the number, as it will be rounded, reaches the least that is printed in it. */
function unitFor<D extends Dimension>(si: Si<D>, dimension: D, options: PrintOptions<D>): UnitOf<D> {
  if (options.unit !== undefined) return options.unit;
  const { metric, US = metric, usual } = dimensions[dimension];
  const isUS = options.units === "US";
  if (si === 0) return usual[isUS ? 1 : 0];
  const ladder = Object.entries(isUS ? US : metric) as [UnitOf<D>, number][]; // the keys of a ladder are units
  const [smallest] = ladder;
  const figures = Math.max(FIGURES, options.figures ?? FIGURES);
  const largest = ladder.findLast(([unit, from]) => {
    const size = Math.abs(fromSi(si, dimension, unit));
    return size >= from || (size > 0.99 * from && Number(decimalText(size, { figures })) >= from);
  });
  return (largest ?? smallest)?.[0] ?? dimensions[dimension].inside;
}

/** Rounds the inches first and then takes the feet out, so that 1 ft 11.99 in becomes 2 ft. */
function feetAndInches(length: Si<"length">, rounding: Rounding): string[] {
  const inches = Number(decimalText(fromSi(length, "length", "in"), rounding));
  const feet = Math.floor(inches / 12);
  const rest = decimalText(inches - 12 * feet, { figures: 6 });
  return [...(feet > 0 ? [String(feet), "ft"] : []), ...(rest !== "0" || feet === 0 ? [rest, "in"] : [])];
}
