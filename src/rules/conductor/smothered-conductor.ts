import { cite } from "../../explain/index.ts";
import { figure } from "../figure.ts";
import { ampsWithout } from "../held-to-less.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";

/** Least conductor in the thermal insulation of a vehicle, mm². Source: AS/NZS 3001, an older edition, as a trade page tells it. */
const LEAST_WRAPPED = 2.5;

export const smotheredConductor = defineRule({
  id: "conductor/smothered-conductor",
  title: "Smothered conductor",
  severity: { otherwise: "should", sets: { "iec-cabin": "must" } },
  danger: "a wire in the foam of a wall cannot shed its heat",
  why: `Thermal insulation around a conductor keeps its heat in: over half a metre half of its rating is left, over less more of it. What flows has to fit into that,
    in every zone that the plan calls insulated. In vehicles of Australia and New Zealand nothing thinner than 2.5 mm² lies there.`,
  silent: [
    "runs that cross no insulated zone",
    "rule sets without a factor for it",
    "circuits that carry too much even without the insulation: overloaded-conductor judges them",
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [{ cite: cite("iec-60364-5-52", "523.9", "memory") }],
  messages: {
    hot: "{place} carries {measured} for long ({state}); wrapped in thermal insulation {size} may carry {limit}, and {free} without it",
    thin: "{place} is {size} and lies in thermal insulation, where {least} is the least",
  },
  cures: ["out-of-the-insulation", "next-size"],
  examples: {
    good: [
      {
        says: "6 A on 2.5 mm² in the wall",
        plan: "rules: { DC: iec-cabin }\nzones:\n  wall: { kind: insulated }\nparts:\n  lamp: { kind: load, running: 6 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 2.5 mm², zone: wall }",
      },
    ],
    bad: [
      {
        says: "18 A on 2.5 mm² in the wall",
        plan: "rules: { DC: iec-cabin }\nzones:\n  wall: { kind: insulated }\nparts:\n  lamp: { kind: load, running: 18 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 2.5 mm², zone: wall }",
        fails: "hot",
        about: "circuits.W10",
      },
      {
        says: "1.5 mm² in the wall of a van",
        plan: "rules: { DC: au-nz-vehicle }\nzones:\n  wall: { kind: insulated }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 2 m, wire: 1.5 mm², zone: wall }",
        fails: "thin",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, design, circuit, ruleSet, run } = c;
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (!run.stretches.some((s) => s.insulated)) report.notApplicable(subject, "it crosses no insulated zone");
      else if (lacksNumbers(build, c, report) || ruleSet === null) continue;
      else if (design.size === null || design.ampacityA === null) report.cannotTell(subject, [wireNeeded(c)]);
      else if (ruleSet.id === "au-nz-vehicle" && design.size.areaMm2 < LEAST_WRAPPED * (1 - 1e-3))
        report.fail(subject, "thin", {
          measured: design.size.areaMm2,
          limit: LEAST_WRAPPED,
          unit: "mm²",
          source: cite("trade-practice", "thermal insulation of vehicles, an older edition of AS/NZS 3001", "article"),
          words: { size: design.size.label, least: figure(LEAST_WRAPPED, "mm²") },
        });
      else if (ruleSet.ampacity.insulated.length === 0)
        report.notApplicable(subject, "the rule set has no factor for thermal insulation");
      else if (circuit.cranking) report.notApplicable(subject, "the main cable of a starter");
      else if (design.steadyA === null) report.cannotTell(subject, [needed("its current", subject)]);
      else {
        const [amps, limit] = [design.steadyA, design.ampacityA];
        const said = { measured: amps, limit, unit: "A", margin: below(amps, limit), state: design.steadyIn } as const;
        const free = ampsWithout(build, c, "insulation") ?? 0;
        if (amps <= limit + 1e-9) report.pass(subject, said);
        else if (amps > free + 1e-9)
          report.notApplicable(
            subject,
            "it carries too much even without the insulation: overloaded-conductor judges it",
          );
        else
          report.fail(subject, "hot", {
            ...said,
            trust: design.ampacityTrust,
            words: { size: design.size.label, free: figure(free, "A") },
          });
      }
    }
  },
});
