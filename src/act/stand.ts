import type { CompiledPlan } from "../cure/try-edits.ts";
import type { Diagnostic } from "../diagnostic.ts";
import { createPlanMemory, type PlanMemory } from "../plan/index.ts";
import { readDocument, type PlanDocument } from "../plan/text/index.ts";
import { viewBuild, type Build } from "../rules/index.ts";

/** A plan as it was compiled: what `compile` gives, as far as acts look at it. */
export type { CompiledPlan };

/** A plan with everything that an act may look at. */
export interface Stand {
  readonly text: string;
  readonly compiled: CompiledPlan;
  readonly document: PlanDocument;
  readonly build: Build;
  readonly diagnostics: readonly Diagnostic[];
  readonly memory: PlanMemory;
}

/** @param memory of the readings of this plan, as the compiler keeps it between two texts */
export function openStand(text: string, compiled: CompiledPlan, memory: PlanMemory = createPlanMemory()): Stand {
  return {
    text,
    compiled,
    document: readDocument(text, memory.document).value,
    build: viewBuild(compiled),
    diagnostics: compiled.diagnostics,
    memory,
  };
}
