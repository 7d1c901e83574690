import { put } from "../cure/write.ts";
import { createPlanMemory, type PlanMemory } from "../plan/index.ts";
import { applySplices, readDocument } from "../plan/text/index.ts";
import { planEdit } from "../plan/text/plan-edit.ts";
import type { CompiledPlan } from "./stand.ts";

/**
 * The text of a plan in which every size that was chosen is written down, so that what is changed beside it finds the copper as it lies.
 *
 * For a plan that is only thought of: the text is worked out in one go and not proved as an edit is.
 *
 * @param text the plan, or one that differs from it in other places than its wires
 * @param compiled what the plan itself comes to
 */
export function holdSizes(text: string, compiled: CompiledPlan, memory: PlanMemory = createPlanMemory()): string {
  const document = readDocument(text, memory.document).value;
  const splices = compiled.design.circuits.flatMap(({ id, outcome, size }) => {
    if (outcome !== "chosen" || size === null) return [];
    const planned = planEdit(document, put(document, ["circuits", id, "wire"], size.label), []);
    return "refusal" in planned ? [] : planned.splices;
  });
  return applySplices(
    text,
    splices.sort((a, b) => a.start - b.start),
  );
}
