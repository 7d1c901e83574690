import type { Feed } from "./element.ts";
import type { System } from "./system.ts";

/** Air that the volts on a solar module's label are stated at, °C: standard test conditions. */
const LABEL_C = 25;
/** How much more than on its label a module of silicon may give at −40 °C: the largest factor of NEC table 690.7(A), from memory. */
const COLDEST = 1.25;

/** Greatest open-circuit volts of a solar source, from the least to the most that they may be, and what is not known. */
export interface ColdVolts {
  readonly low: number;
  readonly high: number;
  readonly lacks: readonly ("volts per kelvin" | "lowest temperature")[];
}

/**
 * Open-circuit volts of a solar source in the greatest cold of its place; light on snow and makers' tolerance are left out.
 *
 * @source NEC 690.7(A) (memory): the module's own coefficient and the lowest temperature; else a factor of 1 to 1.25
 * @example
 * coldVolts({ volts: { low: 40, high: 40, origin: "given" } }, undefined).high //=> 50
 */
export function coldVolts(
  { volts, voltsPerKelvin }: Pick<Feed, "volts" | "voltsPerKelvin">,
  lowestAmbient: System["lowestAmbient"],
): ColdVolts {
  const isPlaced = lowestAmbient !== undefined && lowestAmbient !== "unknown";
  if (voltsPerKelvin !== undefined && isPlaced) {
    const cold = LABEL_C - lowestAmbient.low;
    const most = volts.high * (1 + Math.max(0, -voltsPerKelvin.low * cold));
    return { low: most, high: most, lacks: [] };
  }
  return {
    low: volts.high,
    high: COLDEST * volts.high,
    lacks: [
      ...(voltsPerKelvin === undefined ? (["volts per kelvin"] as const) : []),
      ...(isPlaced ? [] : (["lowest temperature"] as const)),
    ],
  };
}
