import { amps, celsius, type Amps, type Celsius, type Seconds } from "../../quantity/index.ts";
import { bisect } from "./bisect.ts";
import { HOTTEST, type ThermalConductor } from "./free-air.ts";
import { heatLump, type HeatLump } from "./heat-capacity.ts";
import type { HeatWay } from "./lying.ts";
import { stepCourse, type DutyStep } from "./step-course.ts";
import type { Surroundings } from "./surface-loss.ts";

/** Loss rises with about the fifth root of the rise, so that each round brings the answer five times nearer. */
const ROUNDS = 20;

/** Rise of a lump at the end of a step. */
function riseAfter(lump: HeatLump, step: DutyStep, from: number): number {
  let course = stepCourse(lump, lump.lossPerKelvin(HOTTEST - lump.ambientC), step);
  for (let round = 0; round < ROUNDS; round++) {
    course = stepCourse(lump, lump.lossPerKelvin(course.meanFrom(from)), step);
  }
  return course.keeps * from + course.adds;
}

/**
 * Temperature of a conductor at the end of one pulse: a start, a pull of a windlass.
 *
 * One lump of heat, metal and insulation together. In a pulse of seconds the insulation lags and the metal is hotter than told, by the insulation's share of
 * the heat at most: `adiabaticTemperature` is the safe side there.
 *
 * @param fromC before the pulse: the air's where it is cold, what a steady current left where it is warm, °C
 * @returns °C; 250 means 250 or more
 * @accuracy against the balance of heat integrated step by step: 0…+6 % of the rise up to the rating, to +10 % beyond it, on the hot side
 * @source exact solution of C·dθ/dt = I²·(R + r·θ) − G·θ, with the loss of each kelvin read at the mean of the pulse
 * @example a windlass pulls 85 A through 10 mm² for 40 s; for ever it would come to 84 °C
 * temperatureAfter({ metal: "copper", at20: ohmsPerMetre(1.95e-3), conductorDiameter: metres(4.2e-3), outsideDiameter: metres(6.5e-3), resistivity: 5 }, { way: "free air" }, { ambientC: celsius(30) }, { amps: amps(85), seconds: seconds(40) }) //=> 38.7
 */
export function temperatureAfter(
  conductor: ThermalConductor,
  lies: HeatWay,
  around: Surroundings,
  pulse: DutyStep,
  fromC: Celsius = around.ambientC,
): Celsius {
  const rise = riseAfter(heatLump(conductor, lies, around), pulse, fromC - around.ambientC);
  return rise < HOTTEST - around.ambientC ? celsius(around.ambientC + rise) : HOTTEST;
}

/**
 * Current that brings a conductor to a temperature in a given time, and no further.
 *
 * @param seconds of the pulse; > 0
 * @param limitC that it may reach, °C
 * @param fromC before the pulse, °C
 * @returns A; 0 where it is that hot already; the steady ampacity for an endless pulse
 * @accuracy half of that of {@link temperatureAfter}, whose inverse it is
 * @source I_pulse = I·√((1 − w²·e^(−t/τ)) / (1 − e^(−t/τ))), where w is the share of I that flowed before, with the rise of resistance besides
 * @example 40 s from cold to 90 °C
 * pulseAmps({ metal: "copper", at20: ohmsPerMetre(1.95e-3), conductorDiameter: metres(4.2e-3), outsideDiameter: metres(6.5e-3), resistivity: 5 }, { way: "free air" }, { ambientC: celsius(30) }, seconds(40), celsius(90)) //=> 214.6
 */
export function pulseAmps(
  conductor: ThermalConductor,
  lies: HeatWay,
  around: Surroundings,
  seconds: Seconds,
  limitC: Celsius,
  fromC: Celsius = around.ambientC,
): Amps {
  const { ambientC } = around;
  if (limitC <= Math.max(fromC, ambientC)) return amps(0);
  const lump = heatLump(conductor, lies, around);
  // So much makes the rise in time though all that may be lost is lost from the start.
  const wanted = limitC - Math.min(fromC, ambientC);
  const most = Math.sqrt(((lump.capacity / seconds + lump.lossPerKelvin(limitC - ambientC)) * wanted) / lump.ohms);
  const over = (share: number): number =>
    riseAfter(lump, { amps: amps(share * most), seconds }, fromC - ambientC) - (limitC - ambientC);
  return amps(most * bisect(over, 0, 1));
}
