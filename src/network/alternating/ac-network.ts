/**
 * An alternating-current network in one position of its switches, as plain data: what the solver is given.
 *
 * All numbers are SI (V, A, Ω, W, VA), effective values, one frequency throughout. Nodes are whatever names the elements use. Nothing in
 * here knows plans, parts or wire; whoever builds a network turns those into impedances, sources and loads. An open switch is a branch
 * that is left out. The earth is a node like any other: a return through it is a branch.
 */

/** A stretch of one conductor, a joint, a closed contact, an earth return. Below 10 µΩ its two nodes are one node. */
export interface AcBranch {
  readonly kind: "branch";
  readonly id: string;
  readonly a: string;
  readonly b: string;
  /** ≥ 0. */
  readonly ohms: number;
  /** 2π · f · L, Ω; ≥ 0. */
  readonly reactance: number;
}

/** One line of a source against its neutral. */
export interface AcLine {
  readonly node: string;
  /** Effective volts without load, ≥ 0. */
  readonly volts: number;
  /** Where its phase stands: split phase 0 and 180, three phases 0, −120 and 120, one inverter on two legs 0 and 0. */
  readonly degrees: number;
}

/** Shore, a generator, an inverter, the far side of a transformer: volts behind an impedance in each line. */
export interface AcSource {
  readonly kind: "source";
  readonly id: string;
  /** Where its lines return to: its neutral, or of a source without neutral the second of its two lines. */
  readonly neutral: string;
  readonly lines: readonly AcLine[];
  /** Inside each line, ≥ 0; together with the reactance below 0.1 mΩ it counts as 0.1 mΩ. */
  readonly ohms: number;
  readonly reactance: number;
  /** What it gives at most, all lines together, at its volts without load; absent: as much as is asked. */
  readonly ratedVA?: number;
  /** What each of its lines gives at most; absent: as much as is asked. */
  readonly lineAmps?: number;
}

/**
 * What a load asks for. `powerFactor` 0 … 1, lagging.
 *
 * - `va`: the same apparent power at any volts;
 * - `amps`: the same current at any volts;
 * - `ohms`, `reactance`: an impedance; a capacitor has a reactance below 0.
 *
 * `volts` is what it is made for. It serves where a law without it has no meaning: two loads in series behind a lost neutral, a load across two lines that swing
 * together and have less than half of those volts between them; the load then counts as the impedance that it is at those volts.
 */
export type AcLaw =
  | { readonly va: number; readonly powerFactor: number; readonly volts?: number }
  | { readonly amps: number; readonly powerFactor: number; readonly volts?: number }
  | { readonly ohms: number; readonly reactance: number };

/** A load between any two nodes: line and neutral, or two lines. */
export interface AcLoad {
  readonly kind: "load";
  readonly id: string;
  readonly a: string;
  readonly b: string;
  readonly law: AcLaw;
}

export type AcElement = AcBranch | AcSource | AcLoad;

export interface AcNetwork {
  readonly elements: readonly AcElement[];
  /** The node that counts as 0 V in its island; else the neutral of the first source does. */
  readonly earth?: string;
}

/** What cannot be used of a network; the rest is solved all the same. */
export interface AcProblem {
  readonly problem:
    /** not a number, or outside what it may be; the element is left out */
    | "unusable number"
    /** an id that an element before it has too: both are solved, but their results cannot be told apart by id */
    | "repeated id"
    /** a branch that closes a ring of no impedance: how current divides round it cannot be known */
    | "ring of no impedance"
    /** conductors and loads form a resonance without any resistance: nothing of the network is solved */
    | "no solution";
  readonly about: string;
  /** Which number, or "". */
  readonly field: string;
}
