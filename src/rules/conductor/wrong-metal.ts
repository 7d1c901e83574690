import { cite, type Citation } from "../../explain/index.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { namedSet } from "../named-set.ts";
import { defineRule } from "../rule.ts";
import { isStated, unstated } from "./stated-make.ts";

/** Sets that are known to want copper and lend no numbers yet, with what they say. */
const COPPER_ONLY: Readonly<Partial<Record<RuleSetId, Citation>>> = {
  "us-rv": cite("nfpa-70-2023", "552.10(B)", "read"),
  "vehicle-practice": cite("trade-practice", "copper wire in vehicles", "practice"),
};

/** Sets that allow aluminium where everything is made for it. */
const ON_CONDITIONS: Readonly<Partial<Record<RuleSetId, Citation>>> = {
  "us-cabin": cite("nfpa-70-2023", "110.14", "read"),
  "iec-cabin": cite("trade-practice", "aluminium needs terminals made for it", "practice"),
};

export const wrongMetal = defineRule({
  id: "conductor/wrong-metal",
  title: "Wrong metal",
  severity: "must",
  danger: "aluminium creeps and corrodes under a terminal made for copper, and the joint burns",
  why: `On boats and vehicles conductors are copper. In buildings aluminium is lawful with its own ampacity, from 12 AWG up, on terminals marked for it:
    that is noted, so that the terminals are looked at.`,
  silent: ["alternating-current circuits, which are not studied yet"],
  sources: [
    { cite: cite("33-cfr-183", "183.425(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7", "memory"), sets: ["iso-small-craft"] },
  ],
  messages: {
    wrong: "{place} is of {metal}; conductors of this set are of copper",
    conditions:
      "{place} is of {metal}; both its terminals have to be marked for it, and it may not be thinner than 12 AWG",
  },
  cures: ["copper"],
  examples: {
    good: [
      {
        says: "tinned copper",
        plan: "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }",
      },
    ],
    bad: [
      {
        says: "aluminium on a boat",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², metal: aluminium }",
        fails: "wrong",
        about: "circuits.W10",
      },
      {
        says: "aluminium in a cabin, whose terminals want a look",
        plan: "rules: { DC: us-cabin }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 8 AWG, metal: aluminium }",
        fails: "conditions",
        about: "circuits.W10",
      },
      {
        says: "nobody knows the metal",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², metal: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit, ruleSet } = c;
      const isCopper = circuit.metal !== "aluminium";
      const words = { metal: circuit.metal };
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (!isStated(build, c, "metal")) report.cannotTell(subject, [unstated(c, "metal")]);
      else if (isCopper) report.pass(subject);
      else if (ruleSet !== null) {
        if (ruleSet.conductor.metals.value.includes("aluminium")) report.pass(subject);
        else report.fail(subject, "wrong", { source: ruleSet.conductor.metals.source, words });
      } else {
        const set = namedSet(c);
        const only = set === null ? undefined : COPPER_ONLY[set];
        const condition = set === null ? undefined : ON_CONDITIONS[set];
        if (only !== undefined) report.fail(subject, "wrong", { source: only, words });
        else if (condition !== undefined)
          report.fail(subject, "conditions", { source: condition, severity: "note", words });
        else lacksNumbers(build, c, report);
      }
    }
  },
});
