import type { DcProblem } from "./dc-network.ts";

/**
 * How an element stands at the operating point.
 *
 * - resistor: `carrying`; `joined` (0 Ω); `share unknown` (in a ring of 0 Ω, where no law says how the current divides)
 * - store: `pushing`, `taking`, `resting`
 * - feed: `holding` its volts, `limited` by its amps, `blocked` by volts above its own
 * - draw: `taking`; `below least volts` (takes, but does not work)
 * - converter: `holding`, `limited`, `blocked` as a feed; `input limited` by its greatest input current; `passing` (a
 *   tracker whose output takes all that arrives)
 * - draw and converter: `no source` reaches it; `reversed`: plus stands below minus; `collapsed`: the network cannot
 *   bear it
 * - all: `off`, switched off or left out because of an unusable number
 */
export type DcCondition =
  | "carrying"
  | "joined"
  | "share unknown"
  | "pushing"
  | "taking"
  | "resting"
  | "holding"
  | "limited"
  | "blocked"
  | "input limited"
  | "passing"
  | "below least volts"
  | "no source"
  | "reversed"
  | "collapsed"
  | "off";

/**
 * A port at the operating point. Positive amps flow into the element at a or plus and out of it at b or minus; positive
 * watts are taken from the network, negative ones are given to it.
 */
export interface PortPoint {
  readonly amps: number;
  readonly volts: number;
  readonly watts: number;
}

export interface ElementPoint extends PortPoint {
  readonly id: string;
  readonly condition: DcCondition;
  /** Of a converter, whose own figures are those of its input. */
  readonly out?: PortPoint;
}

export interface NodePoint {
  readonly id: string;
  /** Against the reference of its island, V. */
  readonly volts: number;
  /** Index into `islands`. */
  readonly island: number;
}

export interface Island {
  /** The node that counts as 0 V. */
  readonly reference: string;
  readonly nodes: readonly string[];
  /** True if something in it can push: a store, a feed that is on, a converter that is fed. */
  readonly live: boolean;
  /** Draws and converters that hang on it and that no source reaches. */
  readonly unreached: readonly string[];
}

export interface Collapse {
  /** The draw or converter that was taken off. */
  readonly draw: string;
  /** What it asked for, and the most that it could have had with everything else as it now is. */
  readonly asked: number;
  readonly most: number;
  readonly unit: "W" | "A";
  /** Volts at its terminals with that most. */
  readonly atVolts: number;
  /**
   * The element that loses the greatest share of the volts on the way to it, or has come to its limit; "" if that
   * cannot be told.
   */
  readonly cause: string;
  /** Its share, 0…1. */
  readonly share: number;
}

/** The direct-current operating point of a network, as plain data. */
export interface OperatingPoint {
  /** False if a loop was stopped at its cap: `problems` says which. */
  readonly converged: boolean;
  /** The most current that is not accounted for at any node, A. */
  readonly worstKirchhoffAmps: number;
  /** Sum of all watts taken and given, which should be nothing, W. */
  readonly powerErrorWatts: number;
  readonly nodes: readonly NodePoint[];
  /** In the order of the network. */
  readonly elements: readonly ElementPoint[];
  readonly islands: readonly Island[];
  /** At most 16; beyond that only the condition of the element says it. */
  readonly collapses: readonly Collapse[];
  readonly problems: readonly DcProblem[];
}

/** A solved state as arrays by index. They belong to the prepared network and are written over by its next `solve`. */
export interface DcSolution {
  readonly converged: boolean;
  readonly worstKirchhoffAmps: number;
  readonly powerErrorWatts: number;
  /** Volts against the reference of the island, by node. */
  readonly nodeVolts: Float64Array;
  /** By element, of a converter its input; signs as in `PortPoint`. */
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  readonly conditions: readonly DcCondition[];
  /** By element, 0 but for converters: their outputs. */
  readonly outVolts: Float64Array;
  readonly outAmps: Float64Array;
  /** Elements that collapsed, by index, in the order in which they were taken off; `describe` says why. */
  readonly collapsed: readonly number[];
  readonly problems: readonly DcProblem[];
  /** Rounds of Newton's method and factorings that it took: what the time went into. */
  readonly rounds: number;
  readonly factorings: number;
}
