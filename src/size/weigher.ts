import type { Case } from "./cases.ts";
import type { CircuitCurrents } from "./design-currents.ts";
import type { CircuitModel, Judged, Model } from "./model.ts";
import type { Pairs } from "./pairs.ts";
import type { Look } from "./look.ts";
import type { Held as HeldSource, Standing } from "./standing.ts";

/** How a load stands at its worst, by kind of test. */
export interface JudgedWorst {
  readonly judged: Judged;
  /** −Infinity: it is never on. */
  readonly dropVolts: number;
  /** Index of the case, or −1 alone running, −2 at the feeder's demand. */
  readonly dropCase: number;
  readonly leastVolts: number;
  readonly leastCase: number;
  /** NaN where it does not start. */
  readonly startVolts: number;
  /** Index of the given state that it starts in, or −1 alone. */
  readonly startCase: number;
  /** What it hangs on in a case, and would have to push more than it can: the load collapses there; the volts above are those of the other cases. */
  readonly overload: HeldSource | null;
  readonly startOverload: HeldSource | null;
}

/** Ohms that could be added before each test of a load fails; negative: it fails already; Infinity: nothing is asked. */
export interface RoomFor {
  drop: number;
  start: number;
  leastVolts: number;
}

/** What a round of settling holds while sizes are weighed. */
export interface Held {
  /** How the sources stand, by case. */
  readonly standing: readonly Standing[];
  /** What each load takes, by case and draw. */
  readonly drawAmps: readonly Float64Array[];
  /** By draw: amps that it takes alone over the amps stated; other than 1 for constant power. */
  readonly scale: Float64Array;
  /** By circuit: design current that its resistance is taken at. */
  readonly steady: Float64Array;
  /** By edge: ohms of the devices in it, and how many are set into the conductor. */
  readonly deviceOhms: Float64Array;
  readonly deviceCount: Uint8Array;
}

/** A run that is not one of a circuit's own rungs. */
export interface Instead {
  readonly circuit: number;
  /** One way, without joints and devices. */
  readonly ohms: number;
}

/**
 * Works out volts and currents of the whole build for any set of sizes, with the loads' currents held: the core as a linear network, the trees by
 * sums. What does not change from round to round is prepared once; `hold` sets the rest.
 */
export interface Weigher {
  readonly model: Model;
  readonly cases: readonly Case[];
  /** Index of the base; the cases that are judged one by one stand before it. */
  readonly base: number;
  hold(held: Held): void;
  readonly pairs: Pairs;
  /** Volts at a draw in a given case or the base, with the sizes that were laid last; null where no source reaches it. */
  drawVolts(caseIndex: number, draw: number): number | null;
  /**
   * Solves the core, and lays the contacts of panels and switches that hang on it. To be called after rungs of the core changed.
   * @param instead a run of one core circuit that stands in for its own
   */
  solveCore(rungs: Int32Array, instead?: Instead): void;
  /** Resistance of an edge at the rung that its circuit has in a set of sizes, joints and devices counted. */
  ohmsOf(edge: number, rungs: Int32Array): number;
  /** Sets the volts along a radial circuit and the contacts that hang on it. */
  layCircuit(circuit: CircuitModel, rung: number): void;
  /** Lays every radial circuit at its rung. */
  layAll(rungs: Int32Array): void;
  /** Whether every load and panel of a circuit that was laid has what it needs. */
  fits(circuit: CircuitModel): boolean;
  /** How each load of a circuit stands at its worst. */
  worst(circuit: CircuitModel): readonly JudgedWorst[];
  /** Adds how many loads of a circuit have too little, by kind of test. */
  countShort(circuit: CircuitModel, into: Record<"drop" | "start" | "least-volts", number>): void;
  /** Ohms, out and back, that could be added to a circuit on the way to a load of another (or the same) one. */
  roomFor(onTheWay: CircuitModel, circuit: CircuitModel, judged: Judged): RoomFor;
  /** Volts at a load of the circuit when its loads run alone. */
  aloneVolts(circuit: CircuitModel, judged: number): number;
  /**
   * Adds to a list what the core gives each circuit: all the volts that its judgement takes from there. Two that are alike to the last digits mean
   * that what was changed in between does not touch the circuit.
   */
  coreSees(circuit: CircuitModel, into: number[]): void;
  /** Volts lost in a charging circuit at its worst, and the case. */
  chargingDrop(circuit: CircuitModel): { volts: number; case: number };
  currents(): CircuitCurrents[];
  /** How volts and amps stand, for those who explain them. */
  readonly look: Look;
}
