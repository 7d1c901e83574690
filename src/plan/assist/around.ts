import type { KindWords, Plan, PlanPart } from "../plan.ts";

/** A text to write, and what it stands for. */
export interface Offered {
  readonly text: string;
  readonly says: string;
}

/** A terminal of a part, as a path names it. */
export interface PartEnd {
  /** Behind the colon; empty: the part itself. */
  readonly name: string;
  readonly says: string;
  /** No circuit stands there. */
  readonly free: boolean;
}

/**
 * What there is to write about. The plan may be of an earlier text: names and kinds change seldom. All but the first two can be left out; then less is
 * offered.
 */
export interface Around {
  readonly plan: Plan;
  readonly kinds: readonly KindWords[];
  readonly isLoad?: (part: PlanPart) => boolean;
  /** In the order of the part; free ones are put first where they are offered. */
  readonly endsOf?: (part: PlanPart) => readonly PartEnd[];
  /** Positions of a switch, plug or relay that a state may name. */
  readonly positionsOf?: (part: PlanPart) => readonly string[];
  /** What the tool itself would write at a place: the size that it chose, a finding to waive. */
  readonly propose?: (path: readonly string[]) => readonly Offered[];
}
