/**
 * READ THIS FIRST. The whole house in one page: a plan's text goes in, a computed design comes out, and every stage adds what it has to
 * say. Each stage is a pure function of what stands before it; none throws on what a person wrote.
 *
 *     text ─ read ─▶ Plan ─ resolve ─▶ System ─ route ─▶ Runs ─ settle ─▶ Design ─ judge ─▶ Judgement
 */
import type { Diagnostic } from "./diagnostic.ts";
import { createPlanMemory, readPlan, type Plan, type PlanMemory } from "./plan/index.ts";
import { routeRuns, type Runs } from "./route/index.ts";
import { checkWaivers, judgeDesign, rules, rulesOnDemand, type JudgeOptions, type Judgement } from "./rules/index.ts";
import { runToEnd, settleDesignInSteps, type Design, type Settled } from "./size/index.ts";
import { kinds, resolveSystem, type System } from "./system/index.ts";

/** What a plan comes to. */
export interface Compiled {
  readonly plan: Plan;
  readonly system: System;
  readonly runs: Runs;
  readonly design: Design;
  /** What the rules say of it. */
  readonly judgement: Judgement;
  /** What the design was settled with, for whoever asks more of it. Everything else here is plain data; this is not. */
  readonly settled: Settled;
  /** Of all stages, in the order of the text. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Kept between two compilations of one plan, so that only what changed is read again. */
export type Memory = PlanMemory;

export const createMemory = (): Memory => createPlanMemory();

/**
 * Compiles a plan: reads it, binds its names, lays its runs, chooses its conductors and devices, solves it in every state.
 *
 * @param text the plan, in the plan language; whatever it holds, there is an answer
 * @param memory from `createMemory`, for a plan that is compiled again and again
 * @param options the day, by which waivers run out
 * @example
 * const { design } = compile("wireworthy: 1\nsystems: { DC: { kind: DC, nominal: 12 V, return: B1 } }\nparts:\n  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah }\n");
 * design.circuits.length //=> 0
 */
export function compile(text: string, memory: Memory = createMemory(), options: JudgeOptions = {}): Compiled {
  return runToEnd(compileInSteps(text, memory, options));
}

/**
 * Compiles a plan as `compile` does, with a halt between its stages and before each round of settling, so that a page can let in what happens
 * meanwhile. Who wants the result no more lets go of it: nothing is left half done, and the memory serves the next text.
 *
 * @example read, resolve, lay, and settle: the first step ends when the plan is read
 * const steps = compileInSteps("wireworthy: 1\n");
 * steps.next().done //=> false
 */
export function* compileInSteps(
  text: string,
  memory: Memory = createMemory(),
  options: JudgeOptions = {},
): Generator<void, Compiled> {
  const plan = readPlan(text, kinds, memory);
  yield;
  const system = resolveSystem(plan.value, kinds);
  yield;
  const runs = routeRuns(system.value);
  const { design, settled } = yield* settleDesignInSteps(system.value, runs.value);
  yield;
  const computed = { plan: plan.value, system: system.value, runs: runs.value, design, settled };
  const { parts, circuits, supplies, assumptions } = system.value;
  const named = [...parts, ...circuits, ...supplies, ...assumptions].map(({ id }) => id);
  const judgement = judgeDesign(computed, rules, options);
  const waivers = checkWaivers(
    plan.value,
    [...rules, ...rulesOnDemand].map(({ id }) => id),
    named,
    judgement.findings,
    rulesOnDemand.map(({ id }) => id),
  );
  return {
    ...computed,
    judgement,
    diagnostics: [...plan.diagnostics, ...system.diagnostics, ...runs.diagnostics, ...waivers].sort(byPlace),
  };
}

/** What has no place comes first; notes of one kind stay in the order in which they were made. */
const byPlace = (a: Diagnostic, b: Diagnostic): number => (a.at[0]?.[0] ?? -1) - (b.at[0]?.[0] ?? -1);
