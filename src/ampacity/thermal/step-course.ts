import type { Amps, Seconds } from "../../quantity/index.ts";
import type { HeatLump } from "./heat-capacity.ts";

/** A current for a time. */
export interface DutyStep {
  /** ≥ 0; root of the mean square where it ripples. */
  readonly amps: Amps;
  /** > 0. */
  readonly seconds: Seconds;
}

/** What a step does to the rise above the air. */
export interface StepCourse {
  /** Rise at its end = keeps · rise at its start + adds. */
  readonly keeps: number;
  readonly adds: number;
  /** Mean rise over the step, by the rise at its start. */
  readonly meanFrom: (rise: number) => number;
}

/** So short a step, or so near the edge of running away, that its course is a straight line. */
const STRAIGHT = 1e-6;

/**
 * The exact course of a lump at one current while it loses the same for each kelvin.
 *
 * @param loss W/(K·m)
 * @source C·dθ/dt = I²·(R + r·θ) − G·θ
 */
export function stepCourse({ capacity, ohms, ohmsPerKelvin }: HeatLump, loss: number, step: DutyStep): StepCourse {
  const square = step.amps ** 2;
  const rate = (square * ohmsPerKelvin - loss) / capacity;
  const driven = (square * ohms) / capacity;
  const { seconds } = step;
  const grown = rate * seconds;
  const keeps = Math.exp(grown);
  if (Math.abs(grown) < STRAIGHT) {
    const adds = driven * seconds;
    return { keeps, adds, meanFrom: (rise) => rise + adds / 2 };
  }
  const adds = (driven * Math.expm1(grown)) / rate;
  return { keeps, adds, meanFrom: (rise) => (keeps * rise + adds - rise - driven * seconds) / grown };
}
