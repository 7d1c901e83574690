import { cite, type Citation } from "../../explain/index.ts";
import { strandsFault } from "../../ruleset/index.ts";
import { isStrands, strandClasses } from "../../wire/index.ts";
import type { Severity } from "../finding.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { namedSet } from "../named-set.ts";
import { zoneKinds } from "../zone-kinds.ts";
import { defineRule } from "../rule.ts";
import { isStated, unstated } from "./stated-make.ts";

interface Asked {
  readonly severity: Severity;
  /** Null: what is known of it is from memory, without a document at hand. */
  readonly source: Citation | null;
  /** Solid wire is lawful where nothing moves. */
  readonly solidWhereFixed: boolean;
}

const building: Asked = {
  severity: "note",
  source: cite("trade-practice", "stranded wire where it moves", "practice"),
  solidWhereFixed: true,
};

/** What sets ask that lend no numbers yet. */
const ASKED: Readonly<Partial<Record<RuleSetId, Asked>>> = {
  "us-rv": { severity: "must", source: cite("nfpa-70-2023", "552.10(B)", "read"), solidWhereFixed: false },
  "iec-caravan": { severity: "must", source: null, solidWhereFixed: false },
  "au-nz-vehicle": { severity: "must", source: null, solidWhereFixed: false },
  "vehicle-practice": {
    severity: "should",
    source: cite("trade-practice", "stranded wire in vehicles", "practice"),
    solidWhereFixed: false,
  },
  "us-cabin": building,
  "iec-cabin": building,
};

/** Classes that bear being bent often, where no carried set says so itself. */
const BENDS_OFTEN: ReadonlySet<string> = new Set(["class 5", "class 6", "type 3", "class K", "class M"]);

export const solidWireWhereItMoves = defineRule({
  id: "conductor/solid-wire-where-it-moves",
  title: "Solid wire where it moves",
  severity: "must",
  danger: "solid copper cracks beside its terminal after some seasons of shaking, and arcs there",
  why: `Boats and vehicles shake, so their conductors are stranded everywhere, and finely stranded where they bend with a hinge, a drawer or a mast.
    In a building that stands still solid wire is right.`,
  silent: ["alternating-current circuits, which are not studied yet", "the fixed wiring of a building"],
  sources: [
    { cite: cite("33-cfr-183", "183.425(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7", "memory"), sets: ["iso-small-craft"] },
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
      const set = ruleSet === null ? namedSet(c) : ruleSet.id;
      const asked = set === null ? undefined : ASKED[set];
      if (asked?.solidWhereFixed === true && !bends) {
        report.notApplicable(subject, "fixed wiring of a building may be solid");
        continue;
      }
      if (!isStated(build, c, "strands")) {
        report.cannotTell(subject, [unstated(c, "strands")], asked === undefined ? {} : { severity: asked.severity });
        continue;
      }
      const words = { strands: c.circuit.strands, fine: "class 5, class 6 or type 3" };
      const message = isSolid ? "solid" : "stiff";
      if (ruleSet !== null) {
        const fault = strandsFault(ruleSet.conductor, strands, bends);
        if (fault === null) report.pass(subject);
        else report.fail(subject, message, { source: fault, words });
      } else if (!isSolid && (!bends || BENDS_OFTEN.has(strands))) report.pass(subject);
      else if (asked === undefined) lacksNumbers(build, c, report);
      else
        report.fail(subject, bends ? "stiff" : message, {
          severity: asked.severity,
          source: asked.source,
          trust: asked.source === null ? "memory" : null,
          words,
        });
    }
  },
});
