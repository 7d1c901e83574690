import { cite } from "../../explain/index.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";

export const overloadedConductor = defineRule({
  id: "conductor/overloaded-conductor",
  title: "Overloaded conductor",
  severity: "must",
  danger: "the insulation cooks, and the wire lights what touches it",
  why: `The design current of a conductor, the greatest that flows for long in any state, may not exceed what its size carries in its worst
    stretch: the value of the rule set's table for its insulation, times the factors for hot air, engine space and bundle.`,
  silent: [
    "alternating-current circuits, which are not studied yet",
    "the main cable of a starter, which carries its current for seconds",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.425(b), (c), (g)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7.6", "read"), sets: ["iso-small-craft"] },
  ],
  messages: {
    overloaded: "{place} carries {measured} for long ({state}); {size} may carry {limit} where it is hottest",
  },
  cures: ["looser-bundle", "hotter-insulation", "next-size"],
  examples: {
    good: [
      { says: "6 mm² for 10 A", plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 3 m, wire: 6 mm² }" },
      {
        says: "starter cable",
        plan: "parts:\n  M1: { kind: load, running: 400 A }\ncircuits:\n  W20: { path: BP → M1, length: 1 m, wire: 35 mm², fuse: none, cranking: yes }",
      },
    ],
    bad: [
      {
        says: "1 mm² for 25 A",
        plan: "parts:\n  lamp: { kind: light, running: 25 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.5 m, wire: 1 mm² }",
        fails: "overloaded",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, design } = c;
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (c.circuit.cranking) report.notApplicable(subject, "the main cable of a starter");
      else if (c.ruleSet === null) lacksNumbers(build, c, report);
      else if (design.size === null) {
        // Of a wire that is to be chosen it is the length that is missing.
        report.cannotTell(subject, [needed(c.circuit.size === "unknown" ? "its wire" : "its length", subject)]);
      } else if (design.steadyA === null || design.ampacityA === null)
        report.cannotTell(subject, [needed("its current", subject)]);
      else {
        const measured = {
          measured: design.steadyA,
          limit: design.ampacityA,
          unit: "A",
          margin: below(design.steadyA, design.ampacityA),
          state: design.steadyIn,
        } as const;
        if (design.steadyA <= design.ampacityA + 1e-9) report.pass(subject, measured);
        else {
          report.fail(subject, "overloaded", {
            ...measured,
            source: c.ruleSet.ampacity.table.source,
            trust: design.ampacityTrust,
            words: { size: design.size.label },
          });
        }
      }
    }
  },
});
