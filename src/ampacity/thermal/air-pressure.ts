import { cite, formula } from "../../explain/index.ts";
import type { Metres } from "../../quantity/index.ts";
import { SEA_LEVEL_PRESSURE } from "./air.ts";

/**
 * Pressure of the air at a height above the sea, for `Surroundings.pressure`.
 *
 * Ignores weather, which moves it by 3 %. Thin air carries less heat away by convection; radiation stays. Below 3000 m that is under 4 % of a current.
 *
 * @param height m; 0…11 000, where the standard atmosphere falls evenly in temperature
 * @returns Pa
 * @accuracy of the standard atmosphere: 0.1 %
 * @source ISO 2533, standard atmosphere; textbooks
 * @example 20 000 ft
 * airPressure({ height: metres(6096) }) //=> 46563.1
 */
export const airPressure = formula(
  {
    id: "air-pressure",
    equation: "p = p0·(1 − 0.0065·h / 288.15)^5.2559",
    source: cite("textbooks", "standard atmosphere", "memory"),
    symbols: { height: { symbol: "h", unit: "m", meaning: "height above the sea" } },
    unit: "Pa",
  },
  ({ height }: { readonly height: Metres }): number => SEA_LEVEL_PRESSURE * (1 - (0.0065 * height) / 288.15) ** 5.2559,
);
