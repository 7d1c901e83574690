import { ampacityAmps } from "../../ampacity/index.ts";
import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import { celsius } from "../../quantity/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { computedMake, ampsWithout } from "../held-to-less.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { wireNeeded } from "../wire-needed.ts";

/** The coolest terminals that are sold, °C. Source: NEC 110.14(C). */
const COOLEST = 60;

export const ampacityAboveItsTerminal = defineRule({
  id: "conductor/ampacity-above-its-terminal",
  title: "Ampacity above its terminal",
  severity: { otherwise: "should", sets: { "us-cabin": "must", "us-rv": "must" } },
  danger: "the lug melts although the wire is fine",
  why: `A terminal sheds its heat into the wire and has a temperature of its own. What flows may not exceed the value of the table's column for the cooler of the two
    terminals, whatever better insulation could bear. Where nothing is marked, the American code takes 60 °C up to 1 AWG and 75 °C above it; other sets take
    the lowest temperature that is marked.`,
  silent: [
    "terminals of which the plan says nothing, in sets that assume nothing of them",
    "circuits that carry too much for their wire as well: overloaded-conductor judges them",
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [
    { cite: cite("trade-practice", "lowest marked temperature rating on the way", "practice") },
    { cite: cite("nfpa-70-2023", "110.14(C)(1)", "read"), sets: ["us-cabin", "us-rv"] },
  ],
  messages: {
    above:
      "{place} carries {measured} for long ({state}); its terminals let {size} carry {limit}, and the wire itself {wire}",
  },
  cures: ["hotter-terminals", "next-size"],
  examples: {
    good: [
      {
        says: "22 A on 10 AWG with terminals of 60 °C",
        plan: "rules: { DC: us-cabin }\nparts:\n  lamp: { kind: load, running: 22 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 10 AWG }",
      },
      {
        says: "25 A on 2.5 mm² with terminals of 90 °C",
        plan: "parts:\n  lamp: { kind: load, running: 25 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 2.5 mm², terminals: 90 °C }",
      },
    ],
    bad: [
      {
        says: "22 A on 12 AWG with terminals that nothing is marked on",
        plan: "rules: { DC: us-cabin }\nparts:\n  lamp: { kind: load, running: 22 A, duty: intermittent, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 12 AWG }",
        fails: "above",
        about: "circuits.W10",
      },
      {
        says: "nobody knows the terminals",
        plan: "parts:\n  lamp: { kind: load, running: 25 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 1 m, wire: 2.5 mm², terminals: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, design, circuit, ruleSet, plan } = c;
      const fact = plan?.facts.terminals;
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (circuit.cranking) report.notApplicable(subject, "the main cable of a starter");
      else if (lacksNumbers(build, c, report) || ruleSet === null) continue;
      else if (
        ruleSet.ampacity.terminals === null ||
        (fact === undefined && ruleSet.ampacity.terminals.assumed.length === 0)
      )
        report.notApplicable(subject, "nothing is marked on its terminals, and the rule set assumes nothing");
      else if (design.size === null || design.ampacityA === null) report.cannotTell(subject, [wireNeeded(c)]);
      else if (design.steadyA === null) report.cannotTell(subject, [needed("its current", subject)]);
      else {
        const amps = design.steadyA;
        const limit = isUnknown(fact) ? ampsAtCoolest(build, c) : design.ampacityA;
        const said = { measured: amps, limit, unit: "A", margin: below(amps, limit), state: design.steadyIn } as const;
        if (amps <= limit + 1e-9) report.pass(subject, said);
        else {
          const wire = ampsWithout(build, c, "terminals") ?? 0;
          if (amps > wire + 1e-9)
            report.notApplicable(subject, "it carries too much for its wire as well: overloaded-conductor judges it");
          else if (isUnknown(fact))
            report.cannotTell(subject, [needed("the temperature marked on its terminals", subject)]);
          else
            report.fail(subject, "above", {
              ...said,
              trust: design.ampacityTrust,
              words: { size: design.size.label, wire: figure(wire, "A") },
            });
        }
      }
    }
  },
});

/** What a circuit carries with the coolest terminals that are sold. */
function ampsAtCoolest(build: Build, c: CircuitView): number {
  const make = computedMake(build, c);
  if (make === null || c.ruleSet === null) return 0;
  const stretches = c.run.stretches.map((s) => ({ ...s, ambientC: celsius(s.ambientC) }));
  const installed = { ...c.run.installed, terminalsC: celsius(COOLEST) };
  return c.circuit.parallel * ampacityAmps(c.ruleSet.ampacity, make, c.circuit.insulationC.low, stretches, installed);
}
