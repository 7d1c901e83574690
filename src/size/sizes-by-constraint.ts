import type { ConstraintId, Design } from "./design.ts";

/** What each constraint alone would have a circuit be, and what all together make of it. */
export interface SizesByConstraint {
  readonly circuit: string;
  /** Size by constraint, every other circuit as it is; null: nothing on sale is enough; constraints that ask for nothing or are not judged are left out. */
  readonly alone: Readonly<Partial<Record<ConstraintId, string | null>>>;
  /** What it has: chosen by all together, or as the plan gives it. */
  readonly all: string;
  /** The constraint that asks for the largest size; null where the plan decides. */
  readonly decidedBy: ConstraintId | null;
}

/**
 * Lists for each circuit that can be told what it would be by drop alone, by ampacity alone, by its device alone and so on, beside what all of them together make of it.
 *
 * @example
 * sizesByConstraint({ circuits: [] }) //=> []
 */
export function sizesByConstraint({ circuits }: Pick<Design, "circuits">): SizesByConstraint[] {
  return circuits.flatMap(({ id, size, outcome, constraints, decidedBy }) => {
    if (size === null || outcome === "cannot tell") return [];
    const alone: Partial<Record<ConstraintId, string | null>> = {};
    for (const c of constraints) {
      if (c.outcome === "met" || c.outcome === "not met") alone[c.id] = c.alone?.label ?? null;
    }
    return [{ circuit: id, alone, all: size.label, decidedBy }];
  });
}
