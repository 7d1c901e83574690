/**
 * A direct-current network as plain data: what the solver is given.
 *
 * All numbers are SI (V, A, Ω, W). Nodes are whatever names the elements use. Nothing in here knows plans, parts or
 * wire: whoever builds a network turns those into resistances, sources and demands.
 */

export interface DcPort {
  readonly plus: string;
  readonly minus: string;
}

/** A stretch of conductor, a joint, a closed switch, a fuse. Below 0.1 µΩ its two nodes are one node. */
export interface DcResistor {
  readonly kind: "resistor";
  readonly id: string;
  readonly a: string;
  readonly b: string;
  /** ≥ 0. */
  readonly ohms: number;
}

/** A battery, or one unit of a bank: an electromotive force behind a resistance; pushes and takes. */
export interface DcStore extends DcPort {
  readonly kind: "store";
  readonly id: string;
  /** Electromotive force, ≥ 0: the volts at no current, at the state of charge looked at. */
  readonly volts: number;
  /** Inner resistance, ≥ 0; below 0.1 µΩ it counts as 0.1 µΩ. */
  readonly ohms: number;
}

/** A charger, an alternator with its regulator, a solar module: only ever pushes, and only up to its limit. */
export interface DcFeed extends DcPort {
  readonly kind: "feed";
  readonly id: string;
  /** The set point, or the open-circuit volts, ≥ 0: at and above these volts nothing is pushed. */
  readonly volts: number;
  /** The most it pushes, ≥ 0; 0 is the same as switched off. */
  readonly amps: number;
  /**
   * How far its volts fall per ampere before the limit is reached; without it they fall by a millionth over the whole
   * range.
   */
  readonly ohms?: number;
}

/** What a draw asks for. */
export type DcLaw = { readonly amps: number } | { readonly watts: number } | { readonly ohms: number };

/** A load. It takes current from plus to minus and never the other way. */
export interface DcDraw extends DcPort {
  readonly kind: "draw";
  readonly id: string;
  readonly law: DcLaw;
  /**
   * Below these volts it does not work: it is said so; what it asks for stays the same, so that the shortage can be
   * seen.
   */
  readonly leastVolts?: number;
}

/**
 * A DC-DC charger, an inverter with what hangs on it, a solar controller. Its two sides share nothing: where plus or
 * minus is common to both, join them with a resistor of 0 Ω.
 *
 * - `as needed`: the output behaves as a feed, the input takes output power ÷ efficiency + idle power;
 * - `tracks`: the input is held at `trackVolts`, takes whatever arrives there, and the output passes it on; once the
 *   output holds its volts or reaches its limit, the input takes as needed.
 */
export interface DcConverter {
  readonly kind: "converter";
  readonly id: string;
  readonly in: DcPort;
  readonly out: DcPort;
  /** Set point of the output, ≥ 0. */
  readonly volts: number;
  /** The most the output pushes, ≥ 0. */
  readonly amps: number;
  /** 0.01…1. */
  readonly efficiency: number;
  /** Taken at the input beyond output power ÷ efficiency; 0 when left out. */
  readonly idleWatts?: number;
  /** The most the input takes; no limit when left out. */
  readonly inputAmps?: number;
  readonly input: "as needed" | "tracks";
  /** Needed with `tracks`, at least 1 mV. */
  readonly trackVolts?: number;
}

export type DcElement = DcResistor | DcStore | DcFeed | DcDraw | DcConverter;

export interface DcNetwork {
  readonly elements: readonly DcElement[];
  /** The node that counts as 0 V in its island. */
  readonly ground?: string;
}

/** What cannot be used of a network, or could not be finished; the rest is solved all the same. */
export interface DcProblem {
  readonly problem:
    /** not a number, below or above what it may be; the element is left out */
    | "unusable number"
    /** a kind, law or input that is not known, or a name that is not a text; the element is left out */
    | "unknown kind"
    /** an id that an element before it has too: both are solved, but their results cannot be told apart by id */
    | "repeated id"
    /** `ground` is no node of any element */
    | "unknown ground"
    /** the volts did not settle within the rounds allowed: what is returned is the last round */
    | "volts did not settle"
    /** the converters did not settle within the rounds allowed */
    | "converters did not settle"
    /** more draws collapse than are looked into one by one: the weakest half was left out together */
    | "collapsed together";
  /** Id of the element, or "" when it is about the whole. */
  readonly about: string;
  /** Which number or word, or "". */
  readonly field: string;
  /** What it is, as text (a NaN does not survive JSON). */
  readonly found: string;
}
