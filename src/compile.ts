/**
 * READ THIS FIRST. The whole house in one page: a plan's text goes in, a computed design comes out, and every stage adds what it has to
 * say. Each stage is a pure function of what stands before it; none throws on what a person wrote.
 *
 *     text ─ read ─▶ Plan ─ resolve ─▶ System ─ route ─▶ Runs ─ settle ─▶ Design ─ judge ─▶ Judgement
 */
import { computeInSteps } from "./compute.ts";
import { judge, sizeLeads, type Compiled } from "./judge.ts";
import { createPlanMemory, type PlanMemory } from "./plan/index.ts";
import type { JudgeOptions } from "./rules/index.ts";
import { runToEnd } from "./size/index.ts";

export type { Compiled } from "./judge.ts";

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
  return judge(yield* computeInSteps(text, memory, sizeLeads), options);
}
