import type { Diagnostic } from "../diagnostic.ts";
import { foldName, placed, shown, type Plan } from "../plan/index.ts";
import { findRuleSet } from "../ruleset/index.ts";
import type { Ledger } from "./fact-reader.ts";
import type { Supply } from "./system.ts";

/** Says which rule sets are not known, which edition stands in for another, and which numbers are not carried. */
export function checkRules(
  plan: Plan,
  supplies: readonly Supply[],
  ledger: Ledger,
  say: (d: Diagnostic) => void,
): void {
  const ofParts = plan.parts.flatMap(({ key, base, facts: { rules } }) =>
    rules === undefined || rules.value === "unknown"
      ? []
      : [{ about: `parts.${key}.rules`, pin: `parts: ${key}: rules`, text: rules.value, base, span: rules.span }],
  );
  const ofSystems = plan.rules.map(({ key, ...rule }) => ({ ...rule, about: `rules.${key}`, pin: `rules: ${key}` }));
  for (const { about, pin, text, base, span } of [...ofSystems, ...ofParts]) {
    const at = [placed(base, span)];
    const found = findRuleSet(text);
    if (!found.found) {
      say({ id: "system/rule-set-unknown", level: "error", at, about, message: found.problem, hint: found.hint });
      continue;
    }
    if (!found.editionNamed) {
      ledger.readerFor(about).assume({
        id: `edition-${found.set.id}`,
        value: 0,
        says: `${found.set.id} without an edition means ${found.edition.name}`,
        trust: "practice",
        pin,
      });
    }
    for (const remark of found.remarks)
      say({ id: "system/rule-set-remark", level: "note", at, about, message: remark });
  }
  if (plan.circuits.length === 0) return;
  const named = new Set(plan.rules.map((r) => foldName(r.key)));
  for (const { key, keySpan, base } of plan.systems) {
    // Nothing of the alternating side is sized yet.
    if (named.has(foldName(key)) || supplies.find((s) => s.id === key)?.current !== "DC") continue;
    say({
      id: "system/rules-missing",
      level: "note",
      at: [placed(base, keySpan)],
      about: `rules.${key}`,
      message: `no rule set is named for \`${shown(key)}\`, so none of its conductors can be sized`,
      hint: `write \`rules: { ${shown(key)}: iso-small-craft 2020+A1:2022 }\`, or another set`,
    });
  }
}
