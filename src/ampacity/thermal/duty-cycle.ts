import { amps, celsius, type Amps, type Celsius } from "../../quantity/index.ts";
import { HOTTEST, type ThermalConductor } from "./free-air.ts";
import { heatLump, type HeatLump } from "./heat-capacity.ts";
import type { HeatWay } from "./lying.ts";
import { stepCourse, type DutyStep } from "./step-course.ts";
import type { Surroundings } from "./surface-loss.ts";

/**
 * Steady current that makes the same heat as a cycle; its temperature is the cycle's where no step is longer than a fifth of the time constant.
 *
 * @param cycle at least one step, some of them at 0 A
 * @source mean of the square
 * @example 85 A for 40 s in every 10 minutes
 * rmsAmps([{ amps: amps(85), seconds: seconds(40) }, { amps: amps(0), seconds: seconds(560) }]) //=> 21.95
 */
export function rmsAmps(cycle: readonly DutyStep[]): Amps {
  let square = 0;
  let time = 0;
  for (const step of cycle) {
    square += step.amps ** 2 * step.seconds;
    time += step.seconds;
  }
  return amps(time === 0 ? 0 : Math.sqrt(square / time));
}

/** Steps below this share of the time constant leave no mark of their own, so that the root of the mean square tells all. */
export const SHORT_STEP = 1 / 5;

/** How hot a conductor gets in a cycle that goes on for ever. */
export interface CycleHeat {
  /** °C, at the end of the hottest step; 250 means 250 or more. */
  readonly peakC: Celsius;
  /** °C, at the end of the coolest step. */
  readonly leastC: Celsius;
}

/** Rises at the end of each step of a lump that has come to go round, and the mean of each; null: it never does, each round is hotter. */
function goRound(
  lump: HeatLump,
  losses: readonly number[],
  cycle: readonly DutyStep[],
): { readonly ends: readonly number[]; readonly means: readonly number[] } | null {
  const courses = cycle.map((step, i) => stepCourse(lump, losses[i] ?? 0, step));
  let keeps = 1;
  let adds = 0;
  for (const course of courses) {
    keeps *= course.keeps;
    adds = course.keeps * adds + course.adds;
  }
  if (!(keeps < 1)) return null;
  let rise = adds / (1 - keeps);
  const means: number[] = [];
  const ends = courses.map((course) => {
    means.push(course.meanFrom(rise));
    return (rise = course.keeps * rise + course.adds);
  });
  return { ends, means };
}

/** Loss rises with about the fifth root of the rise, so that each round brings the answer five times nearer. */
const ROUNDS = 30;

/**
 * Temperatures between which a conductor goes to and fro in a cycle of currents that repeats.
 *
 * The conductor is one lump of heat. In each step it loses for each kelvin what it truly loses at the mean of that step, and its resistance rises with it. Terminals,
 * which are quicker and hotter, are left out.
 *
 * @param cycle at least one step, some of them at 0 A; of any lengths
 * @returns the peak and the least
 * @accuracy peak against the balance of heat integrated step by step: −1…+5 % of the rise
 * @source exact periodic solution of C·dθ/dt = I²·(R + r·θ) − G·θ: θ0 = a / (1 − k), where a round makes k·θ + a of a rise θ
 * @example a windlass of 85 A on 10 mm², 40 s in every 10 minutes, in air of 30 °C
 * cycleTemperature({ metal: "copper", at20: ohmsPerMetre(1.95e-3), conductorDiameter: metres(4.2e-3), outsideDiameter: metres(6.5e-3), resistivity: 5 }, { way: "free air" }, { ambientC: celsius(30) }, [{ amps: amps(85), seconds: seconds(40) }, { amps: amps(0), seconds: seconds(560) }]).peakC //=> 39.8
 */
export function cycleTemperature(
  conductor: ThermalConductor,
  lies: HeatWay,
  around: Surroundings,
  cycle: readonly DutyStep[],
): CycleHeat {
  const lump = heatLump(conductor, lies, around);
  const hottest = HOTTEST - around.ambientC;
  let losses = cycle.map(() => lump.lossPerKelvin(hottest));
  let found = goRound(lump, losses, cycle);
  // What runs away even at the greatest loss has no peak.
  for (let round = 0; round < ROUNDS && found !== null; round++) {
    losses = found.means.map((rise) => lump.lossPerKelvin(rise));
    found = goRound(lump, losses, cycle);
  }
  const peak = found === null ? Infinity : Math.max(...found.ends);
  if (found === null || !(peak < hottest)) return { peakC: HOTTEST, leastC: around.ambientC };
  return { peakC: celsius(around.ambientC + peak), leastC: celsius(around.ambientC + Math.min(...found.ends)) };
}
