import { lookUp } from "../../explain/index.ts";
import { constants } from "../../reference/constants.ts";
import { resistanceRise, type Metal } from "../../wire/index.ts";

/** Ω that turn current into heat, and Ω that only hold it back. */
export interface Impedance {
  readonly r: number;
  readonly x: number;
}

/** An impedance at its least and at its greatest: cold and short, hot and long. */
export interface ImpedanceRange {
  readonly cold: Impedance;
  readonly hot: Impedance;
}

export const NO_IMPEDANCE: Impedance = { r: 0, x: 0 };

/**
 * Impedances in series.
 *
 * @example
 * inSeries({ r: 0.3, x: 0.1 }, { r: 0.5, x: 0.2 }) //=> { r: 0.8, x: 0.3 }
 */
export const inSeries = (...parts: readonly Impedance[]): Impedance => ({
  r: parts.reduce((sum, part) => sum + part.r, 0),
  x: parts.reduce((sum, part) => sum + part.x, 0),
});

/**
 * What a voltage finds against it.
 *
 * @returns Ω
 * @example
 * magnitude({ r: 0.3, x: 0.4 }) //=> 0.5
 */
export const magnitude = ({ r, x }: Impedance): number => Math.hypot(r, x);

/** Ω/m of one conductor in a cable at 50 Hz, whatever its size: the figure of installation guides, 0.08 mΩ/m. */
const USUAL_REACTANCE = (lookUp(constants, "x_cable_50hz", "value")?.value ?? NaN) / 1000;

/**
 * Reactance of a metre of one conductor in a cable, whatever its size.
 *
 * @param hertz above 0
 * @returns Ω/m
 * @example
 * reactancePerMetre(50) //=> 0.00008
 */
export const reactancePerMetre = (hertz: number): number => USUAL_REACTANCE * (hertz / 50);

/** A conductor of a fault loop. */
export interface LoopConductor {
  readonly metal: Metal;
  /** Of one conductor, Ω/m at 20 °C. */
  readonly ohmsPerMetre20: number;
  /** Of the conductor, once, not out and back. */
  readonly metres: { readonly low: number; readonly high: number };
  /** How many lie side by side; 1 or more. */
  readonly parallel: number;
  /** Of the metal while the fault begins, °C: what its insulation bears where it was loaded. */
  readonly hotC: number;
  readonly hertz: number;
}

/**
 * Impedance of one conductor of a fault loop.
 *
 * Cold: 20 °C, at its shortest. Hot: at the temperature that its load leaves it at, at its longest. Ignores the heat of the fault itself, joints, steel
 * around it and conductors of one loop that lie far apart.
 *
 * @accuracy resistance as good as its R20; reactance counts from about 35 mm² on
 * @source R = R20 · L · (1 + α20 · (T − 20)); BS 7671 appendix 3 takes the loop at the temperature of normal use
 * @example 2.5 mm², 20 m, PVC
 * loopImpedance({ metal: "copper", ohmsPerMetre20: 7.41e-3, metres: { low: 20, high: 20 }, parallel: 1, hotC: 70, hertz: 50 }).hot //=> { r: 0.17732, x: 0.0016 }
 */
export function loopImpedance(conductor: LoopConductor): ImpedanceRange {
  const { metal, ohmsPerMetre20, metres, parallel, hotC, hertz } = conductor;
  const at = (length: number, temperature: number): Impedance => ({
    r: (ohmsPerMetre20 * length * resistanceRise(metal, temperature)) / parallel,
    x: (reactancePerMetre(hertz) * length) / parallel,
  });
  return { cold: at(metres.low, 20), hot: at(metres.high, Math.max(20, hotC)) };
}
