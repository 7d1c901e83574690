import { foldName } from "../plan/index.ts";
import { findRuleSet } from "../ruleset/index.ts";
import type { BoundPart } from "./bind-parts.ts";
import type { Supply, SystemCircuit } from "./system.ts";

/** The rule set that a part names for itself, as written; undefined: it follows its system's. */
export function ownRules({ plan }: Pick<BoundPart, "plan">): string | undefined {
  return plan.facts.rules?.value;
}

/** Two editions of one set lend the same numbers. */
function setNamed(text: string): string {
  const found = findRuleSet(text);
  return found.found ? found.set.id : foldName(text);
}

/**
 * The rule sets that a circuit follows: those of the parts that its path touches, each its own or that of the circuit's system.
 *
 * @returns nothing where that is its system's alone
 */
export function rulesOfCircuit(
  touched: readonly Pick<BoundPart, "plan">[],
  supply: Supply | undefined,
): Pick<SystemCircuit, "rules"> {
  if (touched.every((part) => ownRules(part) === undefined)) return {};
  const system = supply?.rules === undefined ? null : setNamed(supply.rules);
  const found = new Map<string | null, string | null>();
  for (const part of touched) {
    const text = ownRules(part);
    const set = text === undefined ? system : setNamed(text);
    if (!found.has(set)) found.set(set, text === undefined || set === system ? null : text);
  }
  // The system's own stands first.
  const rules = [...found.values()].sort((a, b) => Number(b === null) - Number(a === null));
  return rules.length === 1 && rules[0] === null ? {} : { rules };
}
