/** The stages from the text to the settled design. What judges it stands apart in `judge.ts`, so that a page can draw before it judges. */
import type { Diagnostic } from "./diagnostic.ts";
import { readPlan, type Plan, type PlanMemory } from "./plan/index.ts";
import { routeRuns, type Runs } from "./route/index.ts";
import { settleDesignInSteps, type Design, type Settled, type SizeLeads } from "./size/index.ts";
import { kinds, resolveSystem, type System } from "./system/index.ts";

/** What a plan comes to before it is judged. */
export interface Settling {
  readonly plan: Plan;
  readonly system: System;
  readonly runs: Runs;
  readonly design: Design;
  /** What the design was settled with, for whoever asks more of it. Everything else here is plain data; this is not. */
  readonly settled: Settled;
  /** The same of alternating current, in the words of the direct side; null: nothing alternates. */
  readonly alternating: Settled | null;
  /** Of these stages, in the order of the text. */
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads, resolves, lays and settles a plan, with a halt between stages and before each round of settling.
 *
 * @param sizeLeads what gives bonds and earth conductors their size; absent: they are as thick as strength asks
 */
export function* computeInSteps(text: string, memory: PlanMemory, sizeLeads?: SizeLeads): Generator<void, Settling> {
  const plan = readPlan(text, kinds, memory);
  yield;
  const system = resolveSystem(plan.value, kinds);
  yield;
  const runs = routeRuns(system.value);
  const { design, settled, alternating } = yield* settleDesignInSteps(system.value, runs.value, sizeLeads);
  yield;
  const diagnostics = [...plan.diagnostics, ...system.diagnostics, ...runs.diagnostics].sort(byPlace);
  return { plan: plan.value, system: system.value, runs: runs.value, design, settled, alternating, diagnostics };
}

/** What has no place comes first; notes of one kind stay in the order in which they were made. */
export const byPlace = (a: Diagnostic, b: Diagnostic): number => (a.at[0]?.[0] ?? -1) - (b.at[0]?.[0] ?? -1);
