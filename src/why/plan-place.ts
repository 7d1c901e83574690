import type { Span } from "../diagnostic.ts";
import type { Fact, Plan } from "../plan/index.ts";
import { lineStartsOf, positionAt } from "../plan/text/index.ts";

/** A fact of the plan as it was written, and where. */
export interface PlanPlace {
  /** Key path: `circuits.W12.length`. */
  readonly path: string;
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

const starts = new WeakMap<Plan, readonly number[]>();

/** Line and column of a stretch of the plan. */
export function placeOf(plan: Plan, span: Span): { line: number; column: number } {
  let known = starts.get(plan);
  if (known === undefined) starts.set(plan, (known = lineStartsOf(plan.text)));
  const { line, column } = positionAt(plan.text, span[0], known);
  return { line, column };
}

/** What stands in the plan under a key of a circuit, a part or a state; null where nothing does. */
export function factOf(plan: Plan, section: "circuits" | "parts", name: string, key: string): PlanPlace | null {
  const item =
    section === "circuits" ? plan.circuits.find((c) => c.key === name) : plan.parts.find((p) => p.key === name);
  if (item === undefined) return null;
  const facts: Readonly<Record<string, Fact<unknown> | undefined>> =
    "kindFacts" in item ? { ...item.facts, ...item.kindFacts } : item.facts;
  const fact = Object.hasOwn(facts, key) ? facts[key] : undefined;
  if (fact === undefined) return null;
  const span: Span = [item.base + fact.span[0], item.base + fact.span[1]];
  return {
    path: `${section}.${name}.${key}`,
    text: plan.text.slice(span[0], span[1]).replace(/\s+/g, " "),
    ...placeOf(plan, span),
  };
}

/** `plan, line 41`; just `the plan` where nothing is written there. */
export function saidAt(plan: Plan, section: "circuits" | "parts", name: string, ...keys: readonly string[]): string {
  for (const key of keys) {
    const fact = factOf(plan, section, name, key);
    if (fact !== null) return `plan, line ${fact.line}`;
  }
  return "the plan";
}
