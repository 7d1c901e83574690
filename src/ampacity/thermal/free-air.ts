import { cite, formula, type SymbolMeaning } from "../../explain/index.ts";
import { amps, celsius, type Amps, type Celsius, type Metres, type OhmsPerMetre } from "../../quantity/index.ts";
import { resistanceRise, type Metal } from "../../wire/index.ts";
import { bisect } from "./bisect.ts";
import { layerResistance } from "./insulation.ts";
import { surfaceLoss, type Surroundings } from "./surface-loss.ts";

/** Above this no insulation of the tables lives; a temperature of 250 °C means 250 or more. */
export const HOTTEST = celsius(250);

/** One round conductor with its insulation. */
export interface ThermalConductor {
  readonly metal: Metal;
  /** At 20 °C. */
  readonly at20: OhmsPerMetre;
  readonly conductorDiameter: Metres;
  /** Over the insulation. */
  readonly outsideDiameter: Metres;
  /** Thermal resistivity of the insulation, K·m/W; see `THERMAL_RESISTIVITY`. */
  readonly resistivity: number;
}

/** A lone conductor in still air, and the temperature it may reach. */
export interface FreeAirInput extends ThermalConductor, Surroundings {
  readonly conductorC: Celsius;
}

/** A lone conductor in still air, and the current it carries. */
export interface FreeAirLoad extends ThermalConductor, Surroundings {
  readonly current: Amps;
}

const conductorSymbols = {
  metal: { unit: "", meaning: "metal of the conductor" },
  at20: { symbol: "R20", unit: "Ω/m", meaning: "resistance at 20 °C" },
  conductorDiameter: { symbol: "dc", unit: "m", meaning: "diameter of the conductor" },
  outsideDiameter: { symbol: "De", unit: "m", meaning: "diameter over the insulation" },
  resistivity: { symbol: "ρT", unit: "K·m/W", meaning: "thermal resistivity of the insulation" },
  ambientC: { symbol: "Ta", unit: "°C", meaning: "temperature of the air" },
  wallC: { symbol: "Tw", unit: "°C", meaning: "temperature of the walls around" },
  emissivity: { symbol: "ε", unit: "", meaning: "emissivity of the surface" },
  pressure: { symbol: "p", unit: "Pa", meaning: "pressure of the air" },
} as const satisfies Record<string, SymbolMeaning>;

const source = cite("iec-60287-1-1", "steady balance of heat; loss of the surface by textbook correlations", "memory");

/**
 * Direct current that brings a lone insulated conductor in still air to a given temperature.
 *
 * Ignores terminals, sun, draught and everything that touches the conductor; published tables are rounded down and lie at 0.87 to 1.03 of it.
 *
 * @returns A; 0 where the surroundings alone make the conductor that hot
 * @accuracy within −13…+17 % of published free-air tables from 14 AWG to 4/0, 60 to 105 °C
 * @source balance of heat per metre, as in IEC 60287-1-1; Churchill–Chu convection and grey radiation at the surface
 * @example 6 AWG copper with 90 °C insulation in 30 °C air; NEC 310.17 prints 105 A
 * freeAirAmpacity({ metal: "copper", at20: ohmsPerMetre(1.3246e-3), conductorDiameter: metres(4.67e-3), outsideDiameter: metres(6.95e-3), resistivity: 3.5, conductorC: celsius(90), ambientC: celsius(30) })
 * //=> 114.5
 */
export const freeAirAmpacity = formula(
  {
    id: "free-air-ampacity",
    equation:
      "I = √(q / (R20·(1 + α20·(Tc − 20)))), q = (Tc − Ts) / T1 = π·De·(hc·(Ts − Ta) + ε·σ·(Ts⁴ − Tw⁴)), T1 = ρT / 2π · ln(De / dc)",
    source,
    symbols: {
      ...conductorSymbols,
      conductorC: { symbol: "Tc", unit: "°C", meaning: "temperature of the conductor" },
    },
    unit: "A",
  },
  (given: FreeAirInput): Amps => {
    const { conductorC, outsideDiameter, at20, metal } = given;
    const coldest = Math.min(given.ambientC, given.wallC ?? given.ambientC);
    if (surfaceLoss(outsideDiameter, conductorC, given) <= 0) return amps(0);
    const resistance = layerResistance(given.resistivity, given.conductorDiameter, outsideDiameter);
    const surfaceC =
      resistance === 0
        ? conductorC
        : bisect((t) => surfaceLoss(outsideDiameter, t, given) - (conductorC - t) / resistance, coldest, conductorC);
    const lossPerMetre = surfaceLoss(outsideDiameter, surfaceC, given);
    return amps(Math.sqrt(lossPerMetre / (at20 * resistanceRise(metal, conductorC))));
  },
);

/**
 * Temperature that a lone insulated conductor settles at in still air with a given direct current.
 *
 * Ignores the same as {@link freeAirAmpacity}, whose inverse it is.
 *
 * @returns °C of the metal; 250 means 250 or more, where no balance below that exists
 * @accuracy about ±10 % of the rise, which is what published ratings leave
 * @source as {@link freeAirAmpacity}
 * @example the same conductor at the 105 A of the table: 10 K cooler than its insulation may be
 * conductorTemperatureFreeAir({ metal: "copper", at20: ohmsPerMetre(1.3246e-3), conductorDiameter: metres(4.67e-3), outsideDiameter: metres(6.95e-3), resistivity: 3.5, current: amps(105), ambientC: celsius(30) })
 * //=> 80.7
 */
export const conductorTemperatureFreeAir = formula(
  {
    id: "conductor-temperature-free-air",
    equation:
      "Tc where I²·R20·(1 + α20·(Tc − 20)) = (Tc − Ts) / T1 = π·De·(hc·(Ts − Ta) + ε·σ·(Ts⁴ − Tw⁴)), T1 = ρT / 2π · ln(De / dc)",
    source,
    symbols: { ...conductorSymbols, current: { symbol: "I", unit: "A", meaning: "current" } },
    unit: "°C",
  },
  (given: FreeAirLoad): Celsius => {
    const { current, at20, metal, outsideDiameter } = given;
    const resistance = layerResistance(given.resistivity, given.conductorDiameter, outsideDiameter);
    // Heat made is linear in Tc, so Tc follows from Ts without a search: Tc = Ts + T1·(fixed + slope·Tc).
    const at0 = current ** 2 * at20 * resistanceRise(metal, 0);
    const slope = current ** 2 * at20 * (resistanceRise(metal, 1) - resistanceRise(metal, 0));
    if (slope * resistance >= 1) return HOTTEST;
    const metalC = (surfaceC: number): number => (surfaceC + resistance * at0) / (1 - slope * resistance);
    const unmet = (surfaceC: number): number =>
      surfaceLoss(outsideDiameter, surfaceC, given) - (at0 + slope * metalC(surfaceC));
    const coldest = Math.min(given.ambientC, given.wallC ?? given.ambientC);
    const settled = metalC(bisect(unmet, coldest, Math.max(HOTTEST, coldest)));
    return celsius(Math.min(settled, HOTTEST));
  },
);
