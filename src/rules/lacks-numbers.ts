import type { Build, CircuitView, Subject } from "./build.ts";
import type { Needed } from "./finding.ts";
import { needed, type Report } from "./report.ts";

/** What is missing where the rule set of a circuit lends no numbers: its name, or which one is meant; null: it lends them. */
export function numbersNeeded(build: Build, c: Pick<CircuitView, "ruleSet" | "supply" | "subject">): Needed | null {
  if (c.ruleSet !== null) return null;
  const about = c.supply === undefined ? c.subject : build.supply(c.supply);
  return needed(c.supply?.rules === undefined ? "the rule set" : "which rule set is meant", about);
}

/**
 * Tells of a circuit whose rule set lends no numbers that a rule cannot be told, and what is missing.
 *
 * @param about of what it is told, where that is not the circuit itself
 * @returns whether it was told; the rule then has nothing more to say
 */
export function lacksNumbers(build: Build, c: CircuitView, report: Report<never>, about: Subject = c.subject): boolean {
  if (c.ruleSet !== null) return false;
  const missing = numbersNeeded(build, { ruleSet: null, supply: c.supply, subject: about });
  if (missing !== null) report.cannotTell(about, [missing], { source: null });
  return missing !== null;
}

/** What is missing of a conductor that the rule set's table does not rate, for want of its metal; no fact that a plan could supply. */
export const unrated = (build: Build, c: CircuitView): Needed =>
  needed(
    `what ${c.ruleSet?.id ?? "the rule set"} lets ${c.circuit.metal} carry,`,
    c.supply === undefined ? c.subject : build.supply(c.supply),
  );
