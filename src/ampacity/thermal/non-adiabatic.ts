import { cite, formula } from "../../explain/index.ts";
import { seconds, type Amps, type Celsius, type Seconds } from "../../quantity/index.ts";
import { adiabaticK, type FaultedConductor } from "./adiabatic.ts";

/**
 * What insulation takes up of the heat of a fault, for conductors of copper: X in √(mm²/s), Y in mm²/s.
 *
 * @source IEC 60949, simplified constants for copper; from memory
 */
const TAKEN_UP = {
  PVC: { x: 0.29, y: 0.06 },
  XLPE: { x: 0.41, y: 0.12 },
  EPR: { x: 0.38, y: 0.1 },
} as const;

/** Insulation whose constants are known. */
export type TakesUpHeat = keyof typeof TAKEN_UP;

const source = cite("iec-60949", "simplified form for conductors within insulation", "memory");

/**
 * How much more current a conductor stands in a fault because its insulation takes up heat.
 *
 * @param time of the fault, s; ≥ 0
 * @param areaMm2 mm²; copper
 * @returns 1 and more: factor on the current that heating without loss allows
 * @source ε = √(1 + X·√(t/S) + Y·(t/S))
 * @example 5 s in 2.5 mm² of PVC
 * nonAdiabaticGain({ insulation: "PVC", time: seconds(5), area: squareMillimetres(2.5) }) //=> 1.237
 */
export const nonAdiabaticGain = formula(
  {
    id: "non-adiabatic-gain",
    equation: "ε = √(1 + X·√(t / S) + Y·t / S)",
    source,
    symbols: {
      insulation: { unit: "", meaning: "insulation; gives X and Y" },
      time: { symbol: "t", unit: "s", meaning: "time of the fault" },
      area: { symbol: "S", unit: "mm²", meaning: "area of the conductor" },
    },
    unit: "",
  },
  (given: Pick<FaultedConductor, "area"> & { readonly insulation: TakesUpHeat; readonly time: Seconds }): number => {
    const { x, y } = TAKEN_UP[given.insulation];
    const share = given.time / given.area;
    return Math.sqrt(1 + x * Math.sqrt(share) + y * share);
  },
);

/** A conductor of copper in a steady fault, with the insulation around it. */
export interface SlowFault extends FaultedConductor {
  readonly metal: "copper";
  readonly insulation: TakesUpHeat;
  /** > 0. */
  readonly current: Amps;
  readonly limitC: Celsius;
}

/**
 * Time in which a steady fault current brings a conductor to a temperature, what its insulation takes up counted.
 *
 * Good for some tens of seconds; a current that a wire could bear for minutes is a matter of `temperatureAfter`.
 *
 * @returns s; 0 where it is that hot already, Infinity where the insulation takes up all
 * @source I²·t = k²·S²·(1 + X·√(t/S) + Y·t/S), solved for √t
 * @example 1 kA through 2.5 mm² of PVC wire at 70 °C: without loss 0.0827 s
 * timeToReach({ metal: "copper", area: squareMillimetres(2.5), initialC: celsius(70), limitC: celsius(160), current: amps(1000), insulation: "PVC" }) //=> 0.0873
 */
export const timeToReach = formula(
  {
    id: "time-to-reach",
    equation: "I²·t = k²·S²·(1 + X·√(t / S) + Y·t / S)",
    source,
    symbols: {
      metal: { unit: "", meaning: "metal; gives k" },
      insulation: { unit: "", meaning: "insulation; gives X and Y" },
      area: { symbol: "S", unit: "mm²", meaning: "area of the conductor" },
      initialC: { symbol: "θi", unit: "°C", meaning: "temperature before the fault" },
      limitC: { symbol: "θf", unit: "°C", meaning: "temperature that it may reach" },
      current: { symbol: "I", unit: "A", meaning: "fault current" },
    },
    unit: "s",
  },
  ({ metal, area, initialC, limitC, current, insulation }: SlowFault): Seconds => {
    const { x, y } = TAKEN_UP[insulation];
    const alone = ((adiabaticK({ metal, initialC, finalC: limitC }) * area) / current) ** 2;
    if (alone === 0) return seconds(0);
    // (1 − a·Y/S)·t − a·X/√S·√t − a = 0, a quadratic in √t.
    const first = 1 - (alone * y) / area;
    if (first <= 0) return seconds(Infinity);
    const second = (alone * x) / Math.sqrt(area);
    return seconds(((second + Math.sqrt(second ** 2 + 4 * first * alone)) / (2 * first)) ** 2);
  },
);
