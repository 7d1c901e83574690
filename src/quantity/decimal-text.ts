/** How far to round: at most so many significant figures, or always so many digits behind the point. */
export type Rounding = { readonly figures: number } | { readonly decimals: number };

/** A double holds 15 decimal digits for certain; what stands behind them is dust of binary arithmetic. */
const SURE_DIGITS = 15;

/**
 * The size of a number, without its sign, as plain decimal text.
 *
 * Rounds once, half away from zero, on the first 15 significant digits: 1.005 to two decimals is 1.01, although the double
 * is a little less. Digits left of the point are always kept, whatever `figures` says: 1234 to three figures is 1234.
 *
 * @param x finite; its sign is left to the caller
 * @returns digits and at most one point, never an exponent; with `figures`, zeros at the end of the decimals are left out
 * @throws RangeError - x is NaN or infinite: a result that cannot be printed is a defect of whoever computed it
 * @example
 * decimalText(1.005, { decimals: 2 }) //=> "1.01"
 * decimalText(0.0517, { figures: 2 }) //=> "0.052"
 * decimalText(12, { decimals: 1 }) //=> "12.0"
 */
export function decimalText(x: number, rounding: Rounding): string {
  if (!Number.isFinite(x)) throw new RangeError(`${x} cannot be printed as a quantity`);
  const [mantissa = "", power = "0"] = Math.abs(x)
    .toExponential(SURE_DIGITS - 1)
    .split("e");
  const whole = x === 0 ? 1 : Number(power) + 1; // digits left of the point; zero or less for 0.05
  const decimals = "decimals" in rounding ? rounding.decimals : Math.max(0, rounding.figures - whole);
  const digits = mantissa.replace(".", "");
  const kept = whole + decimals;

  let integer = kept < 0 ? 0n : BigInt(digits.slice(0, kept).padEnd(kept, "0") || "0");
  if (kept >= 0 && digits.charCodeAt(kept) >= 53) integer += 1n; // 53: "5"
  const padded = integer.toString().padStart(decimals + 1, "0");
  if (decimals === 0) return padded;
  const text = `${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
  return "decimals" in rounding ? text : withoutEndingZeros(text);
}

function withoutEndingZeros(text: string): string {
  let end = text.length;
  while (text.charAt(end - 1) === "0") end--;
  return text.slice(0, text.charAt(end - 1) === "." ? end - 1 : end);
}
