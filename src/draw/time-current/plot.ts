import type { Trust } from "../../explain/index.ts";

/** A current and the time that goes with it: A and s, both above 0. */
export type PlotPoint = readonly [amps: number, seconds: number];

/** A device of the chain. */
export interface PlotDevice {
  /** Key path in the plan; null: it stands for nothing there. */
  readonly about: string | null;
  /** Short, for the plot: `F3 40 A`. */
  readonly label: string;
  /** What it is and what its band rests on, for the key. */
  readonly says: string;
  /** Before these times it stays closed: corners by rising current, joined straight; beyond the last one it may open at once. Null: not known. */
  readonly min: readonly PlotPoint[] | null;
  /** By these times it has opened: corners by rising current; the last one holds on. Null: not known. */
  readonly max: readonly PlotPoint[] | null;
  /** What is not known of its band, in words; null where both edges are. */
  readonly missing: string | null;
  readonly trust: Trust;
  /** A, the greatest current that it opens: its band ends there. Null: not known. */
  readonly opensTo: number | null;
}

/** A fault current at a place. */
export interface PlotMarker {
  readonly about: string | null;
  readonly amps: number;
  /** `Ik− 310 A at the end of W7`. */
  readonly label: string;
}

/** What a conductor bears: above its line the insulation is damaged. */
export interface PlotConductor {
  readonly about: string | null;
  /** Short, for the plot: `W7 2.5 mm²`. */
  readonly label: string;
  /** With the k that was taken and where from, for the key. */
  readonly says: string;
  /** By rising current, joined straight: I²t = k²S². */
  readonly points: readonly PlotPoint[];
  readonly trust: Trust;
}

/** What a load draws when nothing is wrong. */
export interface PlotPulse {
  readonly about: string | null;
  /** Short, for the plot: `windlass start`. */
  readonly label: string;
  readonly says: string;
  /** A and s. */
  readonly start: PlotPoint;
  /** A, for good; null: it only starts. */
  readonly running: number | null;
}

/** All that a time–current drawing shows. Plain data. */
export interface TimeCurrentPlot {
  readonly title: string;
  /** `A DC` or `A AC, rms`. */
  readonly unit: string;
  /** Of all its curves: `24 V DC`. */
  readonly volts: string;
  /** From the load towards the source. */
  readonly devices: readonly PlotDevice[];
  readonly markers: readonly PlotMarker[];
  readonly conductors: readonly PlotConductor[];
  readonly pulses: readonly PlotPulse[];
  /** Whether each pair is selective, and what else is to be told: sentences. */
  readonly notes: readonly string[];
  /** What the curves rest on. */
  readonly sources: readonly string[];
}
