import { alternatingSet, findRuleSet, type RuleSet } from "../ruleset/index.ts";
import type { Supply, SystemCircuit } from "../system/index.ts";
import type { LabelContext } from "../wire/label/label-reading.ts";

const found = new Map<string, ReturnType<typeof findRuleSet>>();

function findOnce(text: string): ReturnType<typeof findRuleSet> {
  let result = found.get(text);
  if (result === undefined) {
    if (found.size > 100) found.clear(); // names come from plans
    found.set(text, (result = findRuleSet(text)));
  }
  return result;
}

/** The id of the rule set that a supply names; null: none, or none that is known. */
export function ruleSetIdOf(supply: Supply | undefined): string | null {
  if (supply?.rules === undefined) return null;
  const result = findOnce(supply.rules);
  return result.found ? result.set.id : null;
}

/** The numbers that a supply's circuits are sized by; null where no known set is named. */
export function ruleSetOf(supply: Supply | undefined): RuleSet | null {
  if (supply?.rules === undefined) return null;
  const result = findOnce(supply.rules);
  if (!result.found) return null;
  return supply.current === "AC" ? alternatingSet(result.set) : result.set;
}

/**
 * The supply of a circuit as each of its rule sets sees it: one that is named by a part on its path stands in for the supply's own.
 *
 * @returns one where the circuit follows one set
 */
export function suppliesBySet(
  { rules }: Pick<SystemCircuit, "rules">,
  supply: Supply | undefined,
): readonly [Supply | undefined, ...(Supply | undefined)[]] {
  const [first, ...others] = (rules ?? [null]).map((text) => withRules(supply, text));
  return [first, ...others];
}

/** A supply with the rule set that a part names in place of its own. */
export const withRules = (supply: Supply | undefined, rules: string | null | undefined): Supply | undefined =>
  supply === undefined || rules === null || rules === undefined ? supply : { ...supply, rules };

/** Why a supply's circuits cannot be sized. */
export function whyNoRules(supply: Supply | undefined): string {
  if (supply === undefined) return "it belongs to no system";
  if (supply.rules === undefined) return `no rule set is named for ${supply.id}`;
  return `the rule set of ${supply.id} is not known`;
}

const CONTEXTS: Readonly<Record<string, LabelContext>> = {
  "us-small-craft": "boat",
  "iso-small-craft": "boat",
  "us-cabin": "building",
  "iec-cabin": "building",
};

/** Where the labels of a supply's wires are met, by its rule set; undefined where it does not tell: what lies in a vehicle is vehicle wire, boat cable or cord. */
export function labelContextOf(supply: Supply | undefined): LabelContext | undefined {
  return CONTEXTS[ruleSetIdOf(supply) ?? ""];
}
