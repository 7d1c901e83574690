import { decimalText } from "../quantity/decimal-text.ts";

/** Figures that a number in a working is printed to: enough to do the sum again and come to the same. */
export const FIGURES = 4;

/** How a unit is printed when the number in it is small. */
const small: Readonly<Record<string, readonly [below: number, unit: string]>> = {
  Ω: [0.5, "mΩ"],
  "Ω/m": [0.5, "mΩ/m"],
};

/** Smaller than anything that is worked with: dust of binary arithmetic. */
const DUST = 1e-12;

function signed(value: number, figures: number): string {
  const x = Math.abs(value) < DUST ? 0 : value;
  const text = decimalText(Math.abs(x), { figures });
  return x < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/**
 * A number with its unit, to as many figures as a working needs.
 *
 * @example
 * withUnit(0.000554, "Ω/m") //=> "0.554 mΩ/m"
 * withUnit(-12.3456, "V") //=> "−12.35 V"
 */
export function withUnit(x: number, unit: string, figures = FIGURES): string {
  if (!Number.isFinite(x)) return x > 0 ? "without limit" : "none";
  const scaled = small[unit];
  if (scaled !== undefined && Math.abs(x) < scaled[0]) return `${signed(x * 1000, figures)} ${scaled[1]}`;
  return unit === "" ? signed(x, figures) : `${signed(x, figures)} ${unit}`;
}

/** As the schedule prints a figure, and with its unit. */
export const figureText = {
  amps: (x: number) => `${signed(x, 3)} A`,
  ampacity: (x: number) => `${decimalText(x, { decimals: 1 })} A`,
  volts: (x: number) => `${x < 0 ? "−" : ""}${decimalText(Math.abs(x), { decimals: 2 })} V`,
  percent: (x: number) => `${decimalText(100 * x, { decimals: 1 })} %`,
  /** A share beside the limit it is held against: with more digits where it would else print like the limit. */
  beside: (x: number, limit: number) => {
    for (let decimals = 1; decimals < 5; decimals++) {
      const text = decimalText(100 * x, { decimals });
      if (Number(text) !== Number(decimalText(100 * limit, { decimals }))) return `${text} %`;
    }
    return `${decimalText(100 * x, { decimals: 1 })} %`;
  },
  /** Volts beside those that they are held against, likewise. */
  voltsBeside: (x: number, limit: number) => {
    for (let decimals = 2; decimals < 5; decimals++) {
      const text = decimalText(x, { decimals });
      if (text !== decimalText(limit, { decimals })) return `${text} V`;
    }
    return `${decimalText(x, { decimals: 2 })} V`;
  },
  limit: (x: number) => `${signed(100 * x, 3)} %`,
  metres: (x: number) => `${signed(x, 4)} m`,
  degrees: (x: number) => `${signed(x, 3)} °C`,
} as const;
