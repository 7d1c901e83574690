import { cite } from "../../explain/index.ts";
import type { CircuitView } from "../build.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";

export const thinContinuousMargin = defineRule({
  id: "conductor/thin-continuous-margin",
  title: "Thin continuous margin",
  severity: { otherwise: "should", sets: { "us-cabin": "must" } },
  danger: "what is loaded for hours gets hotter than in the test that its rating is from",
  why: `Under the American code a conductor carries a load of three hours and more with a quarter to spare: 1.25 times its current may not exceed what the table and the
    terminals give before any correction, and its current not what is left after all of them. A load counts as continuous unless the plan says that
    it is intermittent.`,
  silent: [
    "rule sets that ask for no margin",
    "circuits whose loads are all intermittent",
    "conductors at a source of alternating current, which are made for its rating",
    "circuits that carry too much even without the margin: overloaded-conductor judges them",
  ],
  alternating: true,
  sources: [{ cite: cite("nfpa-70-2023", "210.19(A)(1), 215.2(A)(1)", "read") }],
  messages: {
    thin: "{place} carries {measured} for hours ({state}); {size} leaves a quarter to spare up to {limit}",
  },
  cures: ["next-size"],
  examples: {
    good: [
      {
        says: "15 A on 12 AWG",
        plan: "rules: { DC: us-cabin }\nparts:\n  lamp: { kind: load, running: 15 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 12 AWG }",
      },
      {
        says: "18 A now and then",
        plan: "rules: { DC: us-cabin }\nparts:\n  lamp: { kind: load, running: 18 A, duty: intermittent, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 12 AWG }",
      },
    ],
    bad: [
      {
        says: "18 A on 12 AWG",
        plan: "rules: { DC: us-cabin }\nparts:\n  lamp: { kind: load, running: 18 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 12 AWG }",
        fails: "thin",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, design, model, circuit, ruleSet } = c;
      if (model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (circuit.cranking) report.notApplicable(subject, "the main cable of a starter");
      else if (lacksNumbers(build, c, report) || ruleSet === null) continue;
      else if (ruleSet.ampacity.continuous === null)
        report.notApplicable(subject, "the rule set asks for no margin of what runs for hours");
      else if (circuit.draws.length > 0 && circuit.draws.every((id) => build.part(id)?.part.duty === "intermittent"))
        report.notApplicable(subject, "its loads are intermittent");
      else if (model.circuit.demand?.origin === "derived")
        report.notApplicable(subject, "it is made for all that its source gives; what flows for hours is not known");
      else if (design.size === null || design.steadyA === null || design.ampacityA === null || model.rungs === null)
        report.cannotTell(subject, [needed(missing(design), subject)]);
      else {
        const rung = build.settled.chosen.rungs[model.position] ?? 0;
        const limit = (model.rungs.steadyAmps[rung] ?? 0) * circuit.parallel;
        const { steadyA: amps, ampacityA, steadyIn } = design;
        const said = { measured: amps, limit, unit: "A", margin: below(amps, limit), state: steadyIn } as const;
        if (amps <= limit + 1e-9) report.pass(subject, said);
        else if (amps > ampacityA + 1e-9)
          report.notApplicable(subject, "it carries too much even for a short time: overloaded-conductor judges it");
        else report.fail(subject, "thin", { ...said, trust: design.ampacityTrust, words: { size: design.size.label } });
      }
    }
  },
});

function missing({ size, steadyA }: CircuitView["design"]): string {
  if (size === null) return "its wire";
  return steadyA === null ? "its current" : `what ${size.label} carries where it lies`;
}
