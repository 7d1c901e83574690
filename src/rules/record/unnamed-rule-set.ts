import { findRuleSet } from "../../ruleset/index.ts";
import { defineRule } from "../rule.ts";

export const unnamedRuleSet = defineRule({
  id: "record/unnamed-rule-set",
  title: "Unnamed rule set",
  severity: "must",
  danger: "“to code” means no code: nobody can say what the build was judged by",
  why: `Every supply of a plan names the rule set and the edition that its conductors are judged by. A conductor between two supplies is judged
    by both, so each needs one of its own.`,
  silent: ["a supply that has no circuits"],
  sources: [],
  messages: {
    none: "{place} names no rule set; its circuits can be judged by nothing",
    stranger: "{place} names `{text}`, which is no rule set that is known here",
    edition: "{place} names {set} without an edition; {taken} is taken",
  },
  cures: ["name-rule-set"],
  examples: {
    good: [{ says: "set and edition", plan: "rules: { DC: iso-small-craft 2020+A1:2022 }" }],
    bad: [
      {
        says: "no rules at all",
        plan: "rules: { AC: iso-small-craft 2020+A1:2022 }",
        fails: "none",
        about: "systems.DC",
      },
      {
        says: "a name that nobody knows",
        plan: "rules: { DC: iso boat rules }",
        fails: "stranger",
        about: "systems.DC",
      },
      { says: "no edition", plan: "rules: { DC: iso-small-craft }", fails: "edition", about: "systems.DC" },
    ],
  },
  judge(build, report) {
    const used = new Set(build.system.circuits.map((c) => c.supply));
    for (const supply of build.system.supplies) {
      const subject = build.supply(supply);
      if (!used.has(supply.id)) {
        report.notApplicable(subject, "it has no circuits");
        continue;
      }
      if (supply.rules === undefined) {
        report.fail(subject, "none");
        continue;
      }
      const found = findRuleSet(supply.rules);
      if (!found.found) report.fail(subject, "stranger", { words: { text: supply.rules.slice(0, 60) } });
      else if (!found.editionNamed) {
        // The numbers are known then; what is missing is a word in the record.
        report.fail(subject, "edition", { severity: "note", words: { set: found.set.id, taken: found.edition.name } });
      } else report.pass(subject);
    }
  },
});
