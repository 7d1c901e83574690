import type { AcProblem } from "./ac-network.ts";
import type { Phasor } from "./phasor.ts";

/** Volts of a node against the reference of its island. */
export interface AcNodePoint {
  readonly id: string;
  /** Index in `islands`: only volts of one island can be compared. */
  readonly island: number;
  readonly volts: Phasor;
}

/** Nodes that conductors, sources or loads tie together. */
export interface AcIsland {
  /** The node that counts as 0 V. */
  readonly reference: string;
  /** Sources in it; none: it is dead. */
  readonly sources: readonly string[];
}

/** What a branch carries. */
export interface AcBranchPoint {
  readonly id: string;
  /** Positive from a to b; null: it closes a ring of no impedance, and how current divides there cannot be known. */
  readonly amps: Phasor | null;
  /** Volts from a to b. */
  readonly drop: Phasor;
  /** Lost in it as heat. */
  readonly watts: number;
  readonly vars: number;
}

/** A line of a source. */
export interface AcLinePoint {
  readonly node: string;
  /** At its terminals, line against neutral. */
  readonly volts: Phasor;
  /** Positive out of the line. */
  readonly amps: Phasor;
}

/** What a source gives, at its terminals. */
export interface AcSourcePoint {
  readonly id: string;
  /**
   * idle: nothing flows · gives · takes: power flows into it · limited by source: its volts sag so that it keeps to its rating · overloaded: what it
   * feeds asks for more than its rating at any volts, or sags it below half; its volts are told as if it had no limit, and a real one trips
   */
  readonly condition: "idle" | "gives" | "takes" | "limited by source" | "overloaded";
  readonly lines: readonly AcLinePoint[];
  /** Positive into its neutral. */
  readonly neutralAmps: Phasor;
  readonly watts: number;
  /** Positive: lagging. */
  readonly vars: number;
  /** Apparent power, Σ |V| · |I| over its lines. */
  readonly va: number;
  /** Watts over apparent power; null while nothing flows. */
  readonly powerFactor: number | null;
  /** What is asked of it over what it may give, the greater of all lines together and the worst line; null: it has no limit. */
  readonly load: number | null;
  /** Its inner volts as a share of those without load: 1 unless it is limited. */
  readonly sag: number;
  /** Lost inside it, in its own impedance. */
  readonly innerWatts: number;
}

/** What a load gets. */
export interface AcLoadPoint {
  readonly id: string;
  /**
   * met: as its law asks · as impedance: its law has no meaning where it stands, see `AcLaw` · dead: no source reaches it · not borne: the network does
   * not stand with it at what it asks for
   */
  readonly condition: "met" | "as impedance" | "dead" | "not borne";
  /** a against b. */
  readonly volts: Phasor;
  /** Positive into a. */
  readonly amps: Phasor;
  readonly watts: number;
  readonly vars: number;
}

/** More is asked than the lines can carry: there are no volts at which the network stands. */
export interface AcShortage {
  /** Of the loads the one whose volts fall furthest at the brink. */
  readonly load: string;
  /** How much of all that is asked (of loads that are no impedances) can be carried, 0 … 1, to a thousandth. */
  readonly bearable: number;
  readonly says: string;
}

/** A solved network. Plain data. */
export interface AcSolution {
  /** Whether volts were found at which every load has what it asks for. */
  readonly converged: boolean;
  /** Why not; the figures are then those at the brink, with the demand that can just be borne. */
  readonly shortage: AcShortage | null;
  /** Rounds that the volts took to settle, all passes together. */
  readonly rounds: number;
  readonly nodes: readonly AcNodePoint[];
  readonly islands: readonly AcIsland[];
  readonly branches: readonly AcBranchPoint[];
  readonly sources: readonly AcSourcePoint[];
  readonly loads: readonly AcLoadPoint[];
  /** Heat in all branches; those inside sources stand with the sources. */
  readonly lossWatts: number;
  readonly problems: readonly AcProblem[];
}
