import { cite, formula } from "../explain/index.ts";
import { ohms, type Celsius, type Metres, type Ohms, type OhmsPerMetre } from "../quantity/index.ts";
import { resistanceRise, type Metal } from "./metal.ts";

/** Range over which the linear law is used, °C. */
const COLDEST = -40;
const HOTTEST = 250;

export interface ConductorResistanceInput {
  readonly metal: Metal;
  /** Of one metre at 20 °C; above 0. */
  readonly at20: OhmsPerMetre;
  /** Of metal that the current passes: out and back on a two-wire run; 0 or more. */
  readonly length: Metres;
  /** Of the metal, not of the air around it; −40…250. */
  readonly conductorC: Celsius;
}

/**
 * Direct-current resistance of a conductor at the temperature it works at.
 *
 * Linear about 20 °C; knows nothing of joints, of skin effect or of the temperature falling along the run.
 *
 * @returns Ω for the whole length; 0 for no length
 * @throws RangeError when the temperature lies outside −40…250 °C: a plan that says so has been told earlier
 * @accuracy as good as its R20; α20 has three digits, which is 0.1 % of the result at 75 °C
 * @source IEC 60287-1-1 Table 1 for α20
 * @example 35 mm² flexible copper, 4 m out and back, metal at 60 °C
 * conductorResistance({ metal: "copper", at20: ohmsPerMetre(0.554e-3), length: metres(8), conductorC: celsius(60) }) //=> 0.005129
 */
export const conductorResistance = formula(
  {
    id: "conductor-resistance",
    equation: "R = R20 · L · (1 + α20 · (T − 20))",
    source: cite("iec-60287-1-1", "Table 1", "read"),
    symbols: {
      metal: { unit: "", meaning: "metal, for α20" },
      at20: { symbol: "R20", unit: "Ω/m", meaning: "resistance of a metre at 20 °C" },
      length: { symbol: "L", unit: "m", meaning: "length of metal that the current passes" },
      conductorC: { symbol: "T", unit: "°C", meaning: "temperature of the metal" },
    },
    unit: "Ω",
  },
  ({ metal, at20, length, conductorC }: ConductorResistanceInput): Ohms => {
    if (!(conductorC >= COLDEST && conductorC <= HOTTEST)) {
      throw new RangeError(`a conductor at ${conductorC} °C is outside ${COLDEST}…${HOTTEST} °C`);
    }
    return ohms(at20 * length * resistanceRise(metal, conductorC));
  },
);
