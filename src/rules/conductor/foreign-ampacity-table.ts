import { cite } from "../../explain/index.ts";
import { isUnknown, known } from "../../plan/index.ts";
import { findRuleSet } from "../../ruleset/index.ts";
import type { CircuitView } from "../build.ts";
import { figure } from "../figure.ts";
import { namedSet } from "../named-set.ts";
import { needed } from "../report.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { defineRule } from "../rule.ts";
import { quoted } from "./bought-of.ts";

/** Sets whose tables another set takes for its own, by current. */
const SHARED: Readonly<Partial<Record<RuleSetId, Readonly<Record<"DC" | "AC", readonly RuleSetId[]>>>>> = {
  "us-rv": { DC: ["us-small-craft"], AC: ["us-cabin"] },
  "iec-cabin": { DC: ["iec-caravan"], AC: ["iec-caravan"] },
  "iec-caravan": { DC: ["iec-cabin", "vehicle-practice"], AC: ["iec-cabin"] },
  "au-nz-vehicle": { DC: ["vehicle-practice"], AC: ["iec-cabin", "iec-caravan"] },
};

export const foreignAmpacityTable = defineRule({
  id: "conductor/foreign-ampacity-table",
  title: "Foreign ampacity table",
  severity: "should",
  danger:
    "a value for wire in free air, taken for wire in a conduit, lets it run a third hotter than its insulation bears",
  why: `Every rule set has tables of its own: for single wires in free air or for cables in a wall, at 30 °C or at 40 °C, with insulation of other
    temperatures. A rating that a plan states as taken from the table of another set says nothing here: between a boat's table for free air and a
    building's for conduit lie 30 to 60 %. The rating that counts is worked out from the set's own table and stands beside it.`,
  silent: ["circuits of which the plan states no rating", "sets that take each other's tables"],
  sources: [{ cite: cite("own-derivation", "ampacity tables of the sets laid beside each other", "derived") }],
  messages: { foreign: "{place} states a rating{stated} from the table of {table}; it is judged by {set}{own}" },
  cures: ["own-table"],
  examples: {
    good: [
      {
        says: "from its own table",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², carries: 29 A, carries by: iso-small-craft }",
      },
      {
        says: "no rating stated",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm² }",
      },
    ],
    bad: [
      {
        says: "from the American table",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², carries: 45 A, carries by: us-small-craft }",
        fails: "foreign",
        about: "circuits.W10",
      },
      {
        says: "from nobody knows where",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², carries: 45 A }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, plan, design } = c;
      const amps = plan?.facts.carries;
      const by = plan?.facts["carries by"];
      const set = namedSet(c);
      if (amps === undefined && by === undefined) report.notApplicable(subject, "the plan states no rating for it");
      else if (set === null) report.notApplicable(subject, "no rule set is named that its rating could belong to");
      else {
        const written = known(by);
        const named = written === undefined ? null : findRuleSet(written);
        if (written === undefined || isUnknown(by))
          report.cannotTell(subject, [needed("which table its rating was taken from", subject)]);
        else if (named?.found !== true)
          report.cannotTell(subject, [needed(`which rule set ${quoted(written)} is`, subject)]);
        else if (isOwn(c, set, named.set.id)) report.pass(subject);
        else {
          const stated = known(amps);
          report.fail(subject, "foreign", {
            ...(stated === undefined ? {} : { measured: stated.high }),
            ...(design.ampacityA === null ? {} : { limit: design.ampacityA }),
            unit: "A",
            words: {
              table: named.set.id,
              set,
              stated: stated === undefined ? "" : ` of ${stated.text}`,
              own: design.ampacityA === null ? "" : `, whose own gives ${sayAmps(design.ampacityA)} where it lies`,
            },
          });
        }
      }
    }
  },
});

const isOwn = ({ circuit }: CircuitView, set: RuleSetId, table: RuleSetId): boolean =>
  set === table || SHARED[set]?.[circuit.current].includes(table) === true;

const sayAmps = (amps: number): string => `${Math.round(amps * 10) / 10} ${figure(amps, "A").unit}`;
