import type { Units } from "../contract.ts";
import { decimalText, type Rounding } from "../../quantity/decimal-text.ts";
import { fromSi } from "../../quantity/convert.ts";
import { printQuantity } from "../../quantity/print-quantity.ts";
import { celsius, metres } from "../../quantity/quantity.ts";
import type { Figure } from "../../rules/figure.ts";
import type { SizeOnPaper } from "../../size/index.ts";
import type { Value } from "../../system/index.ts";
import { sizesOnSale } from "./sizes-on-sale.ts";

/** What stands where there is no number. */
export const NOTHING = "–";

/** Smaller than any figure that is printed: dust of binary arithmetic. */
const DUST = 0.0005;

/**
 * A number as the person reads it, with a true minus and the decimal mark of their choice.
 *
 * @returns a dash where there is no number
 * @example
 * printNumber(-1.25, { decimals: 2 }, { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "," }) //=> "−1,25"
 */
export function printNumber(x: number | null | undefined, rounding: Rounding, units: Units): string {
  if (x === null || x === undefined || !Number.isFinite(x)) return NOTHING;
  const text = decimalText(Math.abs(x) < DUST ? 0 : x, rounding);
  return marked(x < 0 && /[1-9]/.test(text) ? `−${text}` : text, units);
}

const marked = (text: string, { decimal }: Units): string => (decimal === "," ? text.replace(".", ",") : text);

const withUnit = (number: string, unit: string): string => (number === NOTHING ? number : `${number} ${unit}`);

/** Amps, to three figures. */
export const printAmps = (x: number | null | undefined, units: Units): string =>
  withUnit(printNumber(x, { figures: 3 }, units), "A");

/** Volts, to two decimals. */
export const printVolts = (x: number | null | undefined, units: Units): string =>
  withUnit(printNumber(x, { decimals: 2 }, units), "V");

/** A share as percent, to one decimal. */
export const printShare = (x: number | null | undefined, units: Units): string =>
  withUnit(printNumber(x === null || x === undefined ? x : 100 * x, { decimals: 1 }, units), "%");

/**
 * A temperature.
 *
 * @param c °C
 * @example
 * printTemperature(30, { lengths: "ft", sizes: "AWG", temperatures: "°F", decimal: "." }) //=> "86 °F"
 */
export function printTemperature(c: number | null | undefined, units: Units): string {
  if (c === null || c === undefined || !Number.isFinite(c)) return NOTHING;
  const shown = units.temperatures === "°F" ? fromSi(celsius(c), "temperature", "°F") : c;
  return withUnit(printNumber(shown, { decimals: 0 }, units), units.temperatures);
}

/**
 * A length, in metres to the centimetre or in feet and inches.
 *
 * @param m metres
 * @example
 * printLength(5.2, { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "," }) //=> "5,2 m"
 * printLength(4.9784, { lengths: "ft", sizes: "AWG", temperatures: "°F", decimal: "." }) //=> "16 ft 4 in"
 */
export function printLength(m: number | null | undefined, units: Units): string {
  if (m === null || m === undefined || !Number.isFinite(m)) return NOTHING;
  if (units.lengths === "ft") return printQuantity(metres(m), "length", { units: "US", decimal: units.decimal });
  return withUnit(printNumber(m, { figures: m >= 10 ? 4 : 3 }, units), "m");
}

/** A length that may be a range, or not known. */
export function printLengthValue(value: Value, units: Units): string {
  if (value.origin === "unknown") return "unknown";
  const [low, high] = [printLength(value.low, units), printLength(value.high, units)];
  return low === high ? high : `${low}…${high}`;
}

/**
 * The label of a size, which is never converted; where the person reads the other system, what stands next to it there.
 *
 * @returns `35 mm²`, or `35 mm², next not smaller: 1 AWG`
 */
export function printSize(size: SizeOnPaper | null, units: Units): string {
  if (size === null) return NOTHING;
  const label = marked(size.label, units);
  const other = otherSize(size, units);
  return other === null ? label : `${label}, ${other}`;
}

/**
 * What a size of one system has beside it in the other: the least on sale with no less area.
 *
 * Compares the area on the label of a metric size with the metal of a gauge, the careful direction in both ways but for resistance, where a metric
 * label may hold up to 14 % less metal.
 *
 * @returns null where the person reads the system that the label is of, or nothing on sale is that large
 */
export function otherSize({ label, areaMm2 }: SizeOnPaper, units: Units): string | null {
  const isMetric = label.endsWith("mm²");
  if (units.sizes === (isMetric ? "mm²" : "AWG")) return null;
  const other = sizesOnSale[isMetric ? "AWG" : "mm²"].find(([, area]) => area >= areaMm2 - 1e-9);
  return other === undefined ? null : `next not smaller: ${marked(other[0], units)}`;
}

/** A figure of a rule, in the person's units. */
export function printFigureIn({ value, unit }: Figure, units: Units): string {
  if (!Number.isFinite(value)) return value > 0 ? "more than any limit" : "nothing";
  switch (unit) {
    case "share":
      return withUnit(printNumber(100 * value, { figures: 3 }, units), "%");
    case "count":
      return printNumber(value, { figures: 3 }, units);
    case "m":
      return printQuantity(metres(value), "length", {
        units: units.lengths === "ft" ? "US" : "metric",
        decimal: units.decimal,
      });
    case "°C":
      return printTemperature(value, units);
    case "V":
      return withUnit(printNumber(value, Math.abs(value) < 0.1 ? { figures: 3 } : { decimals: 2 }, units), "V");
    case "Ω":
      return printQuantity(value as never, "resistance", { decimal: units.decimal }); // a figure has no brand: its unit is beside it
    case "s":
      return printQuantity(value as never, "time", { decimal: units.decimal }); // as above
    default:
      return withUnit(printNumber(value, { figures: 3 }, units), unit);
  }
}

/** A number with a point that a unit follows; clauses and editions have none behind them. */
const POINTED = /(\d)\.(\d+)(?=[\s\u00a0]?(?:%|mm²|m?V|k?A|m?Ω|Ah|k?Wh?|VA|m|mm|s|ms|°C|K|h)(?![\p{L}\d²]))/gu;

/**
 * A sentence of ours with the decimal mark of the person's choice; figures of clauses stay as printed.
 *
 * @example
 * inSentence("loses 1.60 V, 33 CFR 183.425", { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "," }) //=> "loses 1,60 V, 33 CFR 183.425"
 */
export const inSentence = (text: string, { decimal }: Units): string =>
  decimal === "," ? text.replace(POINTED, "$1,$2") : text;
