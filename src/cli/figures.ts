import { decimalText, type Rounding } from "../quantity/decimal-text.ts";

/** What stands where there is no number. */
export const NOTHING = "–";

/** Smaller than any figure that is printed: dust of binary arithmetic. */
const DUST = 0.0005;

/** A number for a column: the unit stands in the head. */
function figure(x: number | null | undefined, rounding: Rounding): string {
  if (x === null || x === undefined || !Number.isFinite(x)) return NOTHING;
  const text = decimalText(Math.abs(x) < DUST ? 0 : x, rounding);
  return x < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/** Amps, to three figures. */
export const ampsOf = (x: number | null | undefined): string => figure(x, { figures: 3 });
/** Ampacity, to one decimal. */
export const ampacityOf = (x: number | null | undefined): string => figure(x, { decimals: 1 });
/** Volts, to two decimals. */
export const voltsOf = (x: number | null | undefined): string => figure(x, { decimals: 2 });
/** A share as percent, to one decimal; where it stands beside a limit that it passes by little, to more. */
export const percentOf = (x: number | null | undefined, decimals = 1): string =>
  figure(x === null || x === undefined ? x : 100 * x, { decimals });
/** A limit as percent, as it was written. */
export const limitOf = (x: number | null | undefined): string =>
  figure(x === null || x === undefined ? x : 100 * x, { figures: 3 });
/** Metres, to the centimetre. */
export const metresOf = (x: number | null | undefined): string =>
  figure(x, { figures: x !== null && x !== undefined && x >= 10 ? 4 : 3 });
/** Degrees, whole. */
export const degreesOf = (x: number | null | undefined): string => figure(x, { decimals: 0 });

/** `1 circuit`, `2 circuits`. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
