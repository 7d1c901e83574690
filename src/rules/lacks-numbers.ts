import { findRuleSet } from "../ruleset/index.ts";
import type { Build, CircuitView } from "./build.ts";
import { needed, type Report } from "./report.ts";

/**
 * Tells of a circuit whose rule set lends no numbers that a rule cannot be told, and which fact is missing: the name of a set, or its numbers.
 *
 * @returns whether it was told; the rule then has nothing more to say
 */
export function lacksNumbers(build: Build, c: CircuitView, report: Report<never>): boolean {
  if (c.ruleSet !== null) return false;
  const about = c.supply === undefined ? c.subject : build.supply(c.supply);
  const named = c.supply?.rules === undefined ? null : findRuleSet(c.supply.rules);
  const fact =
    named === null
      ? "the rule set"
      : named.found
        ? `what ${named.set.id} asks, whose numbers are not carried yet,`
        : "which rule set is meant";
  report.cannotTell(c.subject, [needed(fact, about)], { source: null });
  return true;
}
