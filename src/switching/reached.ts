/** States that a build gets into, whichever way they were found. */
export interface Reached {
  /** Position by position; of two equally near states the first in the order of movers and positions stands as the example. */
  readonly groups: readonly ReachedGroup[];
  readonly transients: readonly ReachedTransient[];
  /** Combinations of what hands and the outside move: all, and those that come about. */
  readonly combinations: number;
  readonly reachedCombinations: number;
  /** How many of all each interlock forbids. */
  readonly forbidden: readonly number[];
  /** Allowed, yet on no way. */
  readonly enclosed: { readonly count: number; readonly example: Uint8Array } | null;
  /** By core mover and position: whether a state has it. */
  readonly taken: readonly (readonly boolean[])[];
  /** States one action ahead: how a group's example is come to. */
  readonly wayTo: (example: Uint8Array, distance: number) => readonly Uint8Array[];
}

export interface ReachedGroup {
  readonly example: Uint8Array;
  readonly count: number;
  /** Fewest actions. */
  readonly distance: number;
  readonly rests: boolean;
}

/** A moment in which a mover touches both what it leaves and what it goes to, and two giving sources meet. */
export interface ReachedTransient {
  readonly mover: number;
  readonly from: number;
  readonly to: number;
  readonly sources: readonly [number, number];
  readonly itself: boolean;
  /** Actions before it. */
  readonly distance: number;
  /** State that is left; of one that moves by itself the moment in which it goes. */
  readonly before: Uint8Array;
  /** State at rest in which the last action is done; null: it comes about with everything off. */
  readonly prior: Uint8Array | null;
}

/** The study would be larger than its bounds. */
export interface TooLarge {
  readonly tooLarge: "sources" | "positions" | "diagram nodes" | "groups";
  readonly limit: number;
  readonly count: number;
}
