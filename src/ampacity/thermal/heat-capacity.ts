import { cite, formula } from "../../explain/index.ts";
import { celsius, type Celsius } from "../../quantity/index.ts";
import { metals, resistanceRise, type Metal } from "../../wire/index.ts";
import { HOTTEST, type ThermalConductor } from "./free-air.ts";
import { ampacityLying, type HeatWay } from "./lying.ts";
import type { Surroundings } from "./surface-loss.ts";

/**
 * Heat that a cubic millimetre of metal takes up for each kelvin, J/(K·mm³).
 *
 * @source IEC 60287-1-1 and IEC 60364-5-54 annex A, as reprinted
 */
export const METAL_HEAT: Readonly<Record<Metal, number>> = { copper: 3.45e-3, aluminium: 2.5e-3 };

/** The same of plastics, J/(K·m³): textbooks give 1.7e6 to 2.4e6 (memory); the least of it, so that a pulse comes out no cooler than it is. */
export const PLASTIC_HEAT = 1.7e6;

/**
 * Heat that a metre of insulated conductor takes up for each kelvin.
 *
 * The metal's area is the electrical one, from its resistance. The insulation counts in full: in a pulse much shorter than the time constant it lags, so
 * that metal alone is then the safe side; see `adiabaticTemperature`.
 *
 * @returns J/(K·m)
 * @accuracy metal 2 %, insulation 20 %
 * @source {@link METAL_HEAT}, {@link PLASTIC_HEAT}
 * @example 12 AWG boat wire
 * heatCapacity({ metal: "copper", at20: ohmsPerMetre(5.345e-3), conductorDiameter: metres(2.32e-3), outsideDiameter: metres(3.84e-3) }) //=> 23.63
 */
export const heatCapacity = formula(
  {
    id: "heat-capacity",
    equation: "C = 1000·Qc·ρ20 / R20 + cp·π/4·(De² − dc²)",
    source: cite("iec-60287-1-1", "heat capacity of metals; of plastics from textbooks", "memory"),
    symbols: {
      metal: { unit: "", meaning: "metal; gives Qc and ρ20" },
      at20: { symbol: "R20", unit: "Ω/m", meaning: "resistance at 20 °C" },
      conductorDiameter: { symbol: "dc", unit: "m", meaning: "diameter of the conductor" },
      outsideDiameter: { symbol: "De", unit: "m", meaning: "diameter over the insulation" },
    },
    unit: "J/(K·m)",
  },
  ({
    metal,
    at20,
    conductorDiameter,
    outsideDiameter,
  }: Pick<ThermalConductor, "metal" | "at20" | "conductorDiameter" | "outsideDiameter">): number =>
    (1000 * METAL_HEAT[metal] * metals[metal].rho20) / at20 +
    (PLASTIC_HEAT * Math.PI * (outsideDiameter ** 2 - conductorDiameter ** 2)) / 4,
);

/** A conductor as one lump of heat, per metre. */
export interface HeatLump {
  /** J/(K·m). */
  readonly capacity: number;
  /** Resistance at the air's temperature, Ω/m, and what each kelvin adds. */
  readonly ohms: number;
  readonly ohmsPerKelvin: number;
  readonly ambientC: Celsius;
  /** Heat lost at a rise above the air, for each kelvin of it, W/(K·m): it grows with the rise. */
  readonly lossPerKelvin: (rise: number) => number;
}

/** Where the metal is all but as cool as the air the loss of a kelvin is read here; none is read beyond the hottest. */
const LEAST_RISE = 0.01;

/**
 * Makes a lump of a conductor as it lies.
 *
 * In a bundle each conductor keeps its own share of the heat; what lies idle among them takes none up. Air and pipe of a conduit take none up either.
 */
export function heatLump(conductor: ThermalConductor, lies: HeatWay, around: Surroundings): HeatLump {
  const { metal, at20 } = conductor;
  const { ambientC } = around;
  return {
    capacity: heatCapacity(conductor),
    ohms: at20 * resistanceRise(metal, ambientC),
    ohmsPerKelvin: at20 * (resistanceRise(metal, 1) - resistanceRise(metal, 0)),
    ambientC,
    lossPerKelvin(rise) {
      const read = Math.min(Math.max(rise, LEAST_RISE), Math.max(HOTTEST - ambientC, LEAST_RISE));
      const at = celsius(ambientC + read);
      return (ampacityLying(conductor, lies, at, around) ** 2 * at20 * resistanceRise(metal, at)) / read;
    },
  };
}

/**
 * Time in which a conductor makes 63 % of its way to the temperature that it settles at.
 *
 * @param settledC temperature that it settles at or cools from: the loss of each kelvin is read there, °C
 * @param current A; that which flows, whose heat grows with the temperature and so makes it slower; 0 where it cools
 * @returns s; Infinity where more heat is added by each kelvin than is lost by it
 * @source C·dT/dt = I²·R(T) − G·(T − Ta)
 * @example 12 AWG boat wire in air of 30 °C, cooling from 105 °C
 * timeConstant({ metal: "copper", at20: ohmsPerMetre(5.345e-3), conductorDiameter: metres(2.32e-3), outsideDiameter: metres(3.84e-3), resistivity: 3.5 }, { way: "free air" }, { ambientC: celsius(30) }, celsius(105)) //=> 93.7
 */
export function timeConstant(
  conductor: ThermalConductor,
  lies: HeatWay,
  around: Surroundings,
  settledC: Celsius,
  current = 0,
): number {
  const { capacity, ohmsPerKelvin, lossPerKelvin } = heatLump(conductor, lies, around);
  const net = lossPerKelvin(settledC - around.ambientC) - current ** 2 * ohmsPerKelvin;
  return net > 0 ? capacity / net : Infinity;
}
