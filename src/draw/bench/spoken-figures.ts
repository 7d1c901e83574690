import { decimalText } from "../../quantity/decimal-text.ts";
import { fromSi, metres } from "../../quantity/index.ts";
import type { Value } from "../../system/index.ts";

/** Figures as they are read aloud: whole words for units, nothing that a voice would spell out. */

/** `4.3`. */
export const spokenNumber = (x: number): string =>
  x >= 100 ? decimalText(x, { decimals: 0 }) : decimalText(x, { figures: x >= 10 ? 3 : 2 });

/**
 * @example
 * spokenAmps(4.3) //=> "4.3 amps"
 * spokenAmps(1) //=> "1 amp"
 */
export const spokenAmps = (x: number): string => {
  const text = spokenNumber(x);
  return `${text} ${text === "1" ? "amp" : "amps"}`;
};

/**
 * A wire size as it is read aloud.
 *
 * @example
 * spokenSize("2.5 mm²") //=> "2.5 square millimetres"
 * spokenSize("2/0 AWG") //=> "2 aught gauge"
 * spokenSize("14 AWG") //=> "14 gauge"
 */
export function spokenSize(label: string): string {
  const aught = /^(\d)\/0 AWG$/.exec(label);
  if (aught !== null) return `${aught[1] ?? ""} aught gauge`;
  return label
    .replace(/^1 mm²$/, "1 square millimetre")
    .replace(/ mm²$/, " square millimetres")
    .replace(/ AWG$/, " gauge");
}

/**
 * A length, one way.
 *
 * @returns empty where nobody knows it
 */
export function spokenLength({ low, high, origin }: Value, inFeet: boolean): string {
  if (origin === "unknown" || origin === "default") return "";
  const [a = "", b = ""] = [low, high].map((x) => decimalText(inFeet ? fromSi(metres(x), "length", "ft") : x, { decimals: 1 })); // prettier-ignore
  return `${a === b ? b : `${a} to ${b}`} ${inFeet ? "feet" : "metres"} one way`;
}

/** Rating of a part as the plan writes it, its units in words. */
export const spokenRating = (text: string): string =>
  text
    .replace(/ × /g, " by ")
    .replace(/(\d) Ah\b/g, "$1 amp-hours")
    .replace(/(\d) A\b/g, "$1 amps")
    .replace(/(\d) VA\b/g, "$1 volt-amps")
    .replace(/(\d) kVA\b/g, "$1 kilovolt-amps")
    .replace(/(\d) W\b/g, "$1 watts")
    .replace(/(\d) kW\b/g, "$1 kilowatts")
    .replace(/(\d) mA\b/g, "$1 milliamps")
    .replace(/^\?$/, "not known");
