import { cite, weakestTrust } from "../../explain/index.ts";
import { besideLive, type ProtectiveArea } from "./protective-size.ts";

/** Printed areas are rounded. */
const EDGE = 1e-3;
const round = (x: number): number => Number(x.toPrecision(4));

/**
 * Bond by the largest plus of direct current: no more than one size on sale thinner.
 *
 * @param plusMm2 those in parallel added
 * @param shelf sizes on sale, mm², in any order
 * @returns of a plus that is the thinnest on sale its own area
 * @source ABYC E-11, conductors that earth direct current, from memory; older texts of E-9 for converters
 * @example
 * oneSizeBelow(35, [16, 25, 35, 50]) //=> 25
 * oneSizeBelow(16, [16, 25, 35, 50]) //=> 16
 */
export function oneSizeBelow(plusMm2: number, shelf: readonly number[]): number {
  const thinner = shelf.filter((area) => area < plusMm2 * (1 - EDGE));
  return thinner.length === 0 ? plusMm2 : Math.max(...thinner);
}

/** Least copper of a main bonding conductor and of one to an electrode, and the most that is asked of a bonding conductor, mm². */
const LEAST_MAIN = 6;
const MOST_MAIN = 25;

/**
 * Main bonding conductor, of copper, between the main earth bar and the metal of a building: half of the largest protective conductor.
 *
 * @param liveMm2 largest live conductor of the installation; its protective conductor is that of the table
 * @source IEC 60364-5-54 544.1.1, from memory: 6 mm² of copper at least, 25 mm² are enough
 * @example
 * mainBonding(10).areaMm2 //=> 6
 * mainBonding(35).areaMm2 //=> 8
 * mainBonding(150).areaMm2 //=> 25
 */
export function mainBonding(liveMm2: number): ProtectiveArea {
  const protective = besideLive(liveMm2);
  return {
    areaMm2: Math.min(MOST_MAIN, Math.max(LEAST_MAIN, protective.areaMm2 / 2)),
    size: null,
    says: `half of the protective conductor ${protective.says}, ${LEAST_MAIN} mm² at least and ${MOST_MAIN} mm² at most`,
    trust: weakestTrust(protective.trust, "memory"),
    source: cite("iec-60364-5-54", "544.1.1", "memory"),
  };
}

/**
 * Conductor to an electrode, of copper, guarded against corrosion: as any protective conductor, and no thinner than a main bonding conductor.
 *
 * Ignores conductors that lie bare in the soil, of which more is asked: 25 mm² of copper.
 *
 * @source IEC 60364-5-54 542.3.1, from memory
 * @example
 * toElectrode(2.5).areaMm2 //=> 6
 * toElectrode(16).areaMm2 //=> 16
 * toElectrode(35).areaMm2 //=> 16
 */
export function toElectrode(liveMm2: number): ProtectiveArea {
  const protective = besideLive(liveMm2);
  if (protective.areaMm2 >= LEAST_MAIN * (1 - EDGE)) return protective;
  return {
    areaMm2: LEAST_MAIN,
    size: null,
    says: `to an electrode, beside live conductors of ${round(liveMm2)} mm²`,
    trust: "memory",
    source: cite("iec-60364-5-54", "542.3.1", "memory"),
  };
}
