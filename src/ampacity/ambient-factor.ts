import { cite, formula } from "../explain/index.ts";
import { ratio, type Celsius, type Ratio } from "../quantity/index.ts";

/** A conductor rating, the air it is in and the air its table is for. */
export interface AmbientFactorInput {
  /** Temperature that the conductor may reach; above `baseC`. */
  readonly ratingC: Celsius;
  readonly ambientC: Celsius;
  /** Temperature of the air that the ampacity table holds for. */
  readonly baseC: Celsius;
}

/**
 * What remains of a tabulated ampacity in hotter air.
 *
 * Heat lost goes with the rise above the air, and heat made with the square of the current. Cooler air is not credited: a place that is cool
 * when it is measured will not stay so.
 *
 * @returns 0…1; 0 where the air is as hot as the conductor may be
 * @accuracy every printed cell of the NEC and of the Canadian table from 30 °C up, to its two digits
 * @source NFPA 70 equation 310.15(B)(1), whose use on the small-craft tables is a derivation
 * @example 90 °C insulation in an engine space of 60 °C
 * ambientFactor({ ratingC: celsius(90), ambientC: celsius(60), baseC: celsius(30) }) //=> 0.7071
 */
export const ambientFactor = formula(
  {
    id: "ambient-factor",
    equation: "k = √((Tr − Ta) / (Tr − Tb)), at most 1, 0 from Ta = Tr",
    source: cite("nfpa-70-2023", "equation 310.15(B)(1)", "derived"),
    symbols: {
      ratingC: { symbol: "Tr", unit: "°C", meaning: "temperature the conductor may reach" },
      ambientC: { symbol: "Ta", unit: "°C", meaning: "temperature of the air" },
      baseC: { symbol: "Tb", unit: "°C", meaning: "temperature of the air that the table holds for" },
    },
    unit: "",
  },
  ({ ratingC, ambientC, baseC }: AmbientFactorInput): Ratio => ratio(rawAmbientFactor(ratingC, ambientC, baseC)),
);

/** The formula on bare numbers, for the inner loop of the chooser; NaN passes through. */
export const rawAmbientFactor = (ratingC: number, ambientC: number, baseC: number): number =>
  ambientC <= baseC ? 1 : ambientC >= ratingC ? 0 : Math.sqrt((ratingC - ambientC) / (ratingC - baseC));
