import { cite, formula } from "../explain/index.ts";
import { celsius, type Amps, type Celsius } from "../quantity/index.ts";
import { HOTTEST } from "./thermal/free-air.ts";

/** A current in a conductor whose ampacity is known. */
export interface ConductorTemperatureInput {
  /** What flows; ≥ 0. */
  readonly current: Amps;
  /** What may flow where it is hottest, after every factor; ≥ 0. */
  readonly ampacity: Amps;
  /** Air that the ampacity was corrected to. */
  readonly ambientC: Celsius;
  /** Temperature of the conductor at its ampacity. */
  readonly ratingC: Celsius;
}

/**
 * Temperature of a conductor at part load, to first order.
 *
 * Holds heat made as I² with a constant resistance and heat lost as the rise; the two errors nearly cancel. Where the ampacity has a margin, or the other
 * conductors of a bundle idle, the estimate is warm.
 *
 * @returns °C; the ambient at no current, the rating at the ampacity, 250 means 250 or more
 * @accuracy against the balance of heat in free air, up to the ampacity: within 1.5 K for ratings to 125 °C, 5 K at 200 °C
 * @source Ta + (Tr − Ta)·(I/Iz)², the balance of heat to first order
 * @example half of its ampacity leaves a conductor at a quarter of the rise
 * conductorTemperature({ current: amps(30), ampacity: amps(60), ambientC: celsius(30), ratingC: celsius(90) }) //=> 45
 */
export const conductorTemperature = formula(
  {
    id: "conductor-temperature",
    equation: "Tc = Ta + (Tr − Ta)·(I / Iz)²",
    source: cite("own-derivation", "balance of heat to first order", "derived"),
    symbols: {
      current: { symbol: "I", unit: "A", meaning: "current" },
      ampacity: { symbol: "Iz", unit: "A", meaning: "ampacity after every factor" },
      ambientC: { symbol: "Ta", unit: "°C", meaning: "temperature of the air" },
      ratingC: { symbol: "Tr", unit: "°C", meaning: "temperature of the conductor at its ampacity" },
    },
    unit: "°C",
  },
  ({ current, ampacity, ambientC, ratingC }: ConductorTemperatureInput): Celsius => {
    if (current === 0) return ambientC;
    // An ampacity of 0 belongs to air as hot as the rating, or to none at all: no estimate below the hottest is safe.
    if (ampacity === 0) return HOTTEST;
    return celsius(Math.min(HOTTEST, ambientC + (ratingC - ambientC) * (current / ampacity) ** 2));
  },
);
