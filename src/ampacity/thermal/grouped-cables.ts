import { cite, formula } from "../../explain/index.ts";
import { amps, type Amps, type Celsius } from "../../quantity/index.ts";
import { resistanceRise } from "../../wire/index.ts";
import type { ThermalConductor } from "./free-air.ts";
import { layerResistance } from "./insulation.ts";

/**
 * Constants of the heat loss of cables in air, h = Z / De^g + E in W/(m²·K^(5/4)).
 *
 * @source IEC 60287-2-1, table of constants for black surfaces in free air; from memory, and proved by the BS 7671 method F
 * ratings, which come out of them within 3 %
 */
export const ARRANGEMENTS = {
  "single cable": { z: 0.21, e: 3.94, g: 0.6 },
  "two touching side by side": { z: 0.29, e: 2.35, g: 0.5 },
  "three touching in trefoil": { z: 0.96, e: 1.25, g: 0.2 },
  "three touching side by side": { z: 0.62, e: 1.95, g: 0.25 },
  "two touching one above the other": { z: 1.42, e: 0.86, g: 0.25 },
  "two spaced one above the other": { z: 0.75, e: 2.8, g: 0.3 },
  "three touching one above the other": { z: 1.61, e: 0.42, g: 0.2 },
  "three spaced one above the other": { z: 1.31, e: 2.0, g: 0.2 },
  "single cable clipped to a wall": { z: 1.69, e: 0.63, g: 0.25 },
  "trefoil clipped to a wall": { z: 0.94, e: 0.79, g: 0.2 },
} as const;

/** How cables lie together in air. */
export type Arrangement = keyof typeof ARRANGEMENTS;

/**
 * Thermal resistance from the outside of a cable or pipe to the air.
 *
 * @param arrangement of the cables among themselves
 * @param diameter of one cable or of the pipe, m
 * @param surfaceRise of its surface above the air, K; > 0
 * @returns K·m/W, for each cable
 * @source IEC 60287-2-1, cables in air protected from the sun
 */
export function outerResistance(arrangement: Arrangement, diameter: number, surfaceRise: number): number {
  const { z, e, g } = ARRANGEMENTS[arrangement];
  return 1 / (Math.PI * diameter * (z / diameter ** g + e) * surfaceRise ** 0.25);
}

/** Equal single-core cables, all loaded alike, with the temperature that they may reach. */
export interface GroupedCablesInput extends ThermalConductor {
  readonly arrangement: Arrangement;
  readonly conductorC: Celsius;
  readonly ambientC: Celsius;
}

/**
 * Direct current of each of a few equal single-core cables that touch or stand one cable apart in still air.
 *
 * Needs half a cable diameter of air to the nearest wall unless the arrangement says clipped.
 *
 * @returns A for each cable; 0 where the air is as hot as the conductor may be
 * @accuracy within −5…+8 % of the BS 7671 method F ratings
 * @source IEC 60287-1-1 and 60287-2-1
 * @example two 25 mm² PVC singles side by side: BS 7671 table 4D1A method F prints 131 A
 * groupedCablesAmpacity({ arrangement: "two touching side by side", metal: "copper", at20: ohmsPerMetre(0.727e-3), conductorDiameter: metres(6.4e-3), outsideDiameter: metres(9.7e-3), resistivity: 5, conductorC: celsius(70), ambientC: celsius(30) })
 * //=> 126.5
 */
export const groupedCablesAmpacity = formula(
  {
    id: "grouped-cables-ampacity",
    equation: "I = √((Tc − Ta) / (R·(T1 + T4))), T4 = 1 / (π·De·h·Δs^¼), h = Z / De^g + E",
    source: cite("iec-60287-1-1", "1.4.1.1; T4 of IEC 60287-2-1", "memory"),
    symbols: {
      arrangement: { unit: "", meaning: "how the cables lie; gives Z, E and g" },
      metal: { unit: "", meaning: "metal of the conductor" },
      at20: { symbol: "R20", unit: "Ω/m", meaning: "resistance at 20 °C" },
      conductorDiameter: { symbol: "dc", unit: "m", meaning: "diameter of the conductor" },
      outsideDiameter: { symbol: "De", unit: "m", meaning: "diameter over the cable" },
      resistivity: { symbol: "ρT", unit: "K·m/W", meaning: "thermal resistivity of the insulation" },
      conductorC: { symbol: "Tc", unit: "°C", meaning: "temperature of the conductor" },
      ambientC: { symbol: "Ta", unit: "°C", meaning: "temperature of the air" },
    },
    unit: "A",
  },
  (given: GroupedCablesInput): Amps => {
    const rise = given.conductorC - given.ambientC;
    if (rise <= 0) return amps(0);
    const inner = layerResistance(given.resistivity, given.conductorDiameter, given.outsideDiameter);
    // The surface takes the share T4/(T1 + T4) of the rise, and T4 depends on that share.
    let surfaceRise = rise;
    for (let round = 0; round < 30; round++) {
      const outer = outerResistance(given.arrangement, given.outsideDiameter, surfaceRise);
      surfaceRise = (rise * outer) / (inner + outer);
    }
    const outer = outerResistance(given.arrangement, given.outsideDiameter, surfaceRise);
    return amps(Math.sqrt(rise / (given.at20 * resistanceRise(given.metal, given.conductorC) * (inner + outer))));
  },
);
