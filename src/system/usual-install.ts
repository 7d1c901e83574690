import { isUnknown, type CircuitFacts } from "../plan/index.ts";
import { findRuleSet, methodSays, type RuleSet } from "../ruleset/index.ts";
import type { FactReader } from "./fact-reader.ts";
import type { Supply, SystemCircuit } from "./system.ts";

/** Rule sets by the text that names them; many circuits have the same one. */
export type NamedSets = Map<string, RuleSet | null>;

function setOf(rules: string, known: NamedSets): RuleSet | null {
  let set = known.get(rules);
  if (set === undefined) {
    const found = findRuleSet(rules);
    known.set(rules, (set = found.found ? found.set : null));
  }
  return set;
}

/** Lists what the rule sets of a circuit take for granted of how it is installed and ends, where the plan does not say it. */
export function noteUsualInstall(
  facts: CircuitFacts,
  { supply, rules = [null] }: { readonly supply: Supply | undefined } & Pick<SystemCircuit, "rules">,
  read: FactReader,
  known: NamedSets,
): void {
  for (const own of rules) {
    const text = own ?? supply?.rules;
    const set = text === undefined ? null : setOf(text, known);
    if (set !== null) noteOne(facts, set, read);
  }
}

function noteOne(facts: CircuitFacts, set: RuleSet, read: FactReader): void {
  const { usual, terminals } = set.ampacity;
  if (usual !== null && facts.method === undefined) {
    read.assume({
      id: `method-${set.id}`,
      value: 0,
      says: `conductors lie ${INSTALLED[usual.method] ?? methodSays[usual.method]}, as ${set.id} usually finds them`,
      trust: usual.source.trust,
      pin: "method",
    });
  }
  const [first, ...others] = terminals?.assumed ?? [];
  if (terminals === null || first === undefined || isUnknown(facts.terminals) || facts.terminals !== undefined) return;
  const above = others.map(({ terminalsC }) => ` and ${terminalsC} °C above`).join("");
  read.assume({
    id: `terminals-${set.id}`,
    value: first.terminalsC,
    says: `terminals are rated ${first.terminalsC} °C${first.upTo === null ? "" : ` up to ${first.upTo.label}`}${above}, as ${set.id} takes unmarked ones`,
    trust: terminals.source.trust,
    pin: "terminals",
  });
}

/** Words that fit behind `conductors lie`. */
const INSTALLED: Partial<Record<keyof typeof methodSays, string>> = {
  cable: "together in a cable or loom",
};
