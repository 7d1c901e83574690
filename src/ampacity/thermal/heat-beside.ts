import type { Trust } from "../../explain/index.ts";
import type { Amps, Celsius } from "../../quantity/index.ts";
import { HOTTEST, type ThermalConductor } from "./free-air.ts";
import { ampacityLying, temperatureLying, type HeatWay } from "./lying.ts";
import type { Surroundings } from "./surface-loss.ts";

/** Shares of the published ampacity between which the model lies where both are right: of a conductor, and of what a bundle leaves of it. */
export const PLAUSIBLE = { least: 0.85, most: 1.2, bundleLeast: 0.88, bundleMost: 1.15 } as const;

/** A column or cells of a published table that are no measure of heat, and why. */
interface NoMeasure {
  readonly table: RegExp;
  readonly is: (rows: PublishedCell) => boolean;
  readonly says: string;
}

/** Where a published ampacity was taken from. */
export interface PublishedCell {
  /** Id of the table, `ampacity/us_small_craft_dc`. */
  readonly table: string;
  /** Label of the row, `14`. */
  readonly row: string;
  /** Temperature of the column, °C. */
  readonly columnC: number;
}

const NO_MEASURE: readonly NoMeasure[] = [
  {
    table: /us[_-]small[_-]craft/,
    is: ({ columnC }) => columnC >= 200,
    says: "the 200 °C column of this table stands far below what heat allows",
  },
  {
    table: /us[_-]small[_-]craft/,
    is: ({ row, columnC }) => columnC <= 75 && /^1[24]( AWG)?$/.test(row),
    says: "14 and 12 AWG at 60 and 75 °C are held down by rule, not by heat",
  },
];

/** A published ampacity beside the modelled one. Plain data. */
export interface HeatBeside {
  readonly published: Amps;
  readonly modelled: Amps;
  /** Modelled over published; null where nothing is published. */
  readonly ratio: number | null;
  /**
   * agrees: within what published tables leave · table is cautious, table is bold: outside it, so that an input or the table wants a second look · no measure: these cells are
   * held down by rule, or nothing is published
   */
  readonly verdict: "agrees" | "table is cautious" | "table is bold" | "no measure";
  /** The verdict in words. */
  readonly says: string;
  /** Temperature of the metal at the published ampacity, by the model; 250 means 250 or more. */
  readonly atPublishedC: Celsius;
  /** Of the modelled number: constants of textbooks. */
  readonly trust: Trust;
}

/** What is laid beside a published ampacity. */
export interface BesideInput {
  /** After every factor of its rule set. */
  readonly published: Amps;
  /** Where it was taken from; absent: no cell is left out of the comparison. */
  readonly cell?: PublishedCell;
  readonly conductor: ThermalConductor;
  readonly lies: HeatWay;
  readonly around: Surroundings;
  /** Temperature that the published ampacity stands for. */
  readonly ratingC: Celsius;
}

/** Loaded conductors above which bundle factors trust that most are idle. */
const CROWD = 10;

const doubt = (lies: HeatWay): string =>
  lies.way === "bundle" && lies.count > CROWD
    ? `tables trust that most of ${lies.count} conductors are idle, the model loads them all alike`
    : lies.way === "wrapped"
      ? "thermal insulation keeps the heat in"
      : "look at bundle, air and size once more";

const percent = (ratio: number): string => `${Math.round(100 * Math.abs(ratio - 1))} %`;

/**
 * Lays a published ampacity beside what the balance of heat allows. The published one decides; the model tells where it wants a second look.
 *
 * Published free-air tables lie at 0.87 to 1.02 of the model, because they are rounded down and keep a margin. Outside 0.85 to 1.20 (0.75 to 1.38 in a bundle, whose factor has a margin of its own) one of the inputs is not what was
 * meant (bundle, air, insulation, size), or the table is not made for this. Above about ten loaded wires bundle factors trust that most are idle: the model,
 * in which all are loaded, then lies below.
 *
 * @returns both, their ratio and a verdict in words
 * @accuracy as `ampacityLying`
 * @source bands from 46 published ampacities, `reference/ampacity/thermal_check_points.csv`
 * @example 6 AWG, 90 °C, in free air; NEC 310.17 prints 105 A
 * heatBeside({ published: amps(105), conductor: { metal: "copper", at20: ohmsPerMetre(1.3246e-3), conductorDiameter: metres(4.67e-3), outsideDiameter: metres(6.95e-3), resistivity: 3.5 }, lies: { way: "free air" }, around: { ambientC: celsius(30) }, ratingC: celsius(90) }).verdict //=> "agrees"
 */
export function heatBeside({ published, cell, conductor, lies, around, ratingC }: BesideInput): HeatBeside {
  const modelled = ampacityLying(conductor, lies, ratingC, around);
  const atPublishedC = published > 0 ? temperatureLying(conductor, lies, published, around) : around.ambientC;
  const both = { published, modelled, atPublishedC, trust: "memory" } as const;
  if (published <= 0) {
    return { ...both, ratio: null, verdict: "no measure", says: "nothing may be carried by the table" };
  }
  const ratio = modelled / published;
  const left = cell === undefined ? undefined : NO_MEASURE.find((n) => n.table.test(cell.table) && n.is(cell));
  if (left !== undefined) return { ...both, ratio, verdict: "no measure", says: left.says };
  // Of a bundle two published numbers are multiplied, each with its own margin.
  const isBundle = lies.way === "bundle" && lies.count > 1;
  if (ratio < PLAUSIBLE.least * (isBundle ? PLAUSIBLE.bundleLeast : 1)) {
    const hot = atPublishedC >= HOTTEST ? `${HOTTEST} °C or more` : `${Math.round(atPublishedC)} °C`;
    return {
      ...both,
      ratio,
      verdict: "table is bold",
      says: `the model allows ${percent(ratio)} less than the table: at the table's value the metal would come to ${hot}, and ${Math.round(ratingC)} °C is allowed; ${doubt(lies)}`,
    };
  }
  if (ratio > PLAUSIBLE.most * (isBundle ? PLAUSIBLE.bundleMost : 1)) {
    return {
      ...both,
      ratio,
      verdict: "table is cautious",
      says: `the model allows ${percent(ratio)} more than the table; the table decides`,
    };
  }
  return { ...both, ratio, verdict: "agrees", says: "the model agrees with the table within what tables leave" };
}
