/** Two nodes of the core between which loads hang, through their trees, or sources stand. */
export interface Pair {
  readonly plus: number;
  readonly minus: number;
}

/** A source that keeps its volts in a case. */
export interface Held extends Pair {
  readonly part: string;
  readonly volts: number;
  readonly siemens: number;
  /** The most that it can push, A. */
  readonly most: number;
}

/** A current that a source pushes, or a converter's input draws (negative), whatever the volts. */
export interface Pushed extends Pair {
  readonly amps: number;
}

/** How the sources stood when the whole network was last solved; the chooser holds them so while it weighs sizes. */
export interface Standing {
  readonly held: readonly Held[];
  readonly pushed: readonly Pushed[];
}
