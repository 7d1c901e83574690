import { findRuleSet } from "../ruleset/index.ts";
import type { CircuitView } from "./build.ts";
import type { RuleSetId } from "./rule-set-id.ts";

/** The rule set that a circuit's supply names, whether its numbers are carried or not. */
export function namedSet({ ruleSet, supply }: Pick<CircuitView, "ruleSet" | "supply">): RuleSetId | null {
  if (ruleSet !== null) return ruleSet.id;
  if (supply?.rules === undefined) return null;
  const named = findRuleSet(supply.rules);
  return named.found ? named.set.id : null;
}
