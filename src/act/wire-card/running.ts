import { printCitation, type Trust } from "../../explain/index.ts";
import { readQuantity } from "../../quantity/index.ts";
import { sizeResistance } from "../../wire/convert/index.ts";
import type { Conductor } from "./conductor-of.ts";

/** Resistance of one conductor, or of equal ones side by side, and what it loses at a current. */
export interface Running {
  /** Ω for each metre of metal at 20 °C. */
  readonly at20: number;
  /** The same at the temperature that the insulation bears. */
  readonly atRating: number;
  readonly ratingC: number;
  readonly trust: Trust;
  readonly source: string;
  readonly notes: readonly string[];
  readonly drop: Drop | null;
  /** Why the current could not be read, and what to write; null: it was, or none was typed. */
  readonly ampsProblem: string | null;
}

/** What is lost over 10 m of run: 20 m of metal, out and back, at the temperature of the rating. */
export interface Drop {
  readonly amps: number;
  readonly volts: number;
  /** Of 12 V. */
  readonly shareOf12: number;
}

/** Metal that the current passes over 10 m of run, m. */
const METAL = 20;
/** More is a slip of the finger. */
const MOST_AMPS = 10_000;
/** The law of resistance is linear up to here, °C. */
const HOTTEST = 250;

/**
 * What a conductor loses.
 *
 * Direct current; knows nothing of joints and terminals, nor of how warm the metal really is: at its rating the drop is the greatest that the insulation allows.
 *
 * @returns null where the tables have no figures for the size
 * @param runs equal conductors side by side, 1 or more
 * @param insulationC °C; above 250 the figures are those at 250
 * @param typed current as typed; empty: none
 */
export function runningOf({ size, kind }: Conductor, runs: number, insulationC: number, typed: string): Running | null {
  const ratingC = Math.min(insulationC, HOTTEST);
  const cold = sizeResistance(size, kind);
  const warm = sizeResistance(size, kind, ratingC);
  if (cold === null || warm === null) return null;
  const base = {
    at20: cold.ohmsPerMetre / runs,
    atRating: warm.ohmsPerMetre / runs,
    ratingC,
    trust: cold.trust,
    source: printCitation(cold.source),
    notes: cold.notes,
  };
  const text = typed.trim();
  if (text === "") return { ...base, drop: null, ampsProblem: null };
  // A figure alone is meant in amperes: the blank says so.
  const read = readQuantity(/[a-z]/i.test(text) ? text : `${text} A`, "current", { min: 0, max: MOST_AMPS });
  if (!read.ok || read.amount.form === "unknown") {
    const [problem] = read.problems;
    return {
      ...base,
      drop: null,
      ampsProblem: problem === undefined ? "write a current as `10 A`" : `${problem.message}; write it as \`10 A\``,
    };
  }
  const amps = read.amount.high;
  const volts = amps * base.atRating * METAL;
  return { ...base, drop: { amps, volts, shareOf12: volts / 12 }, ampsProblem: null };
}
