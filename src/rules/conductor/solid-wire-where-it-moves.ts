import { cite } from "../../explain/index.ts";
import { strandsFault } from "../../ruleset/index.ts";
import { isStrands, strandClasses } from "../../wire/index.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { zoneKinds } from "../zone-kinds.ts";
import { defineRule } from "../rule.ts";
import { isStated, unstated } from "./stated-make.ts";

export const solidWireWhereItMoves = defineRule({
  id: "conductor/solid-wire-where-it-moves",
  title: "Solid wire where it moves",
  severity: {
    otherwise: "must",
    sets: { "vehicle-practice": "should", "us-cabin": "note", "iec-cabin": "note" },
  },
  danger: "solid copper cracks beside its terminal after some seasons of shaking, and arcs there",
  why: `Boats and vehicles shake, so their conductors are stranded everywhere, and finely stranded where they bend with a hinge, a drawer or a mast.
    In a building that stands still solid wire is right.`,
  silent: ["alternating-current circuits, which are not studied yet", "the fixed wiring of a building"],
  alternating: true,
  sources: [
    { cite: cite("33-cfr-183", "183.425(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "552.10(B)", "read"), sets: ["us-rv"] },
    { cite: cite("trade-practice", "stranded wire where it moves", "practice") },
  ],
  messages: {
    solid: "{place} is one solid wire ({strands}) in a build that shakes; a stranded conductor is asked for",
    stiff: "{place} is of {strands} where it bends often; {fine} is asked for there",
  },
  cures: ["stranded"],
  examples: {
    good: [
      { says: "finely stranded", plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, strands: class 5 }" },
      {
        says: "solid wire in a cabin",
        plan: "rules: { DC: us-cabin }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, strands: solid }",
      },
    ],
    bad: [
      {
        says: "solid wire on a boat",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, strands: solid, wire: 2.5 mm² }",
        fails: "solid",
        about: "circuits.W10",
      },
      {
        says: "class 2 in a hinge",
        plan: "zones:\n  hinge: { kind: moving }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, strands: class 2, wire: 2.5 mm², zones: { hinge: 0.4 m, dry: rest } }",
        fails: "stiff",
        about: "circuits.W10",
      },
      {
        says: "nobody knows the strands",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, strands: unknown, wire: 2.5 mm² }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, ruleSet } = c;
      const strands = isStrands(c.circuit.strands) ? c.circuit.strands : "class 5";
      const { isSolid } = strandClasses[strands];
      if (c.model === null) {
        report.notApplicable(subject, "alternating current is not studied yet");
        continue;
      }
      const bends = zoneKinds(build, c).has("moving");
      if (lacksNumbers(build, c, report) || ruleSet === null) continue;
      if (ruleSet.conductor.solidAllowed.value && !bends) {
        report.notApplicable(subject, "fixed wiring of a building may be solid");
        continue;
      }
      if (!isStated(build, c, "strands")) {
        report.cannotTell(subject, [unstated(c, "strands")]);
        continue;
      }
      const words = { strands: c.circuit.strands, fine: "class 5, class 6 or type 3" };
      const fault = strandsFault(ruleSet.conductor, strands, bends);
      if (fault === null) report.pass(subject);
      else
        report.fail(subject, isSolid && !ruleSet.conductor.solidAllowed.value ? "solid" : "stiff", {
          source: fault,
          words,
        });
    }
  },
});
