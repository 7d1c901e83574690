/** Sizes as they were chosen, one for each circuit. */
export interface Chosen {
  readonly rungs: Int32Array;
  /** By circuit: nothing on sale meets what it has to meet. */
  readonly short: Uint8Array;
  /** What it costs: mm² × m, or money. */
  readonly sum: number;
  /** Whether the search went through every choice that could have been better. */
  readonly proved: boolean;
  readonly evaluations: number;
  /** By rung of the shelf: 1 where it may be used; null: all may. */
  readonly open: Uint8Array | null;
}

/** How many sets of core sizes are looked at before the search contents itself with the best so far. */
export interface SearchLimits {
  readonly evaluations: number;
}

/** Chooses with some rungs of the shelf open. */
export type Choose = (open: Uint8Array | null, before: Chosen | null) => Chosen;
