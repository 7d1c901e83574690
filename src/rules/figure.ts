import { printQuantity } from "../quantity/index.ts";
import { decimalText } from "../quantity/decimal-text.ts";

/** Units that a rule measures in. A share is printed as percent, a count bare. */
export type FigureUnit = "A" | "V" | "Ω" | "m" | "mm²" | "s" | "°C" | "K" | "W" | "VA" | "share" | "count";

/** A number with its unit, as a rule measured or demands it. */
export interface Figure {
  readonly value: number;
  readonly unit: FigureUnit;
}

export const figure = (value: number, unit: FigureUnit): Figure => ({ value, unit });

const dimensionOf = {
  A: "current",
  V: "voltage",
  Ω: "resistance",
  m: "length",
  s: "time",
  W: "power",
} as const;

/**
 * A figure as people read it.
 *
 * @example
 * printFigure(figure(11.04, "V")) //=> "11.04 V"
 * printFigure(figure(0.0312, "share")) //=> "3.12 %"
 * printFigure(figure(0.31, "m")) //=> "310 mm"
 */
export function printFigure({ value, unit }: Figure): string {
  if (!Number.isFinite(value)) return value > 0 ? "more than any limit" : "nothing";
  switch (unit) {
    case "share":
      return `${signed(100 * value)} %`;
    case "count":
      return signed(value);
    case "mm²":
    case "K":
    case "°C":
    case "VA":
      return `${signed(value)} ${unit}`;
    case "V":
      return printQuantity(value as never, "voltage", Math.abs(value) < 0.1 ? {} : { unit: "V", decimals: 2 }); // a figure has no brand: its unit is beside it
    default:
      return printQuantity(value as never, dimensionOf[unit]); // as above
  }
}

const signed = (x: number): string => `${x < 0 ? "−" : ""}${decimalText(Math.abs(x), { figures: 3 })}`;
