import { cite } from "../../explain/index.ts";
import { isBoat } from "../battery/batteries.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { isolatorsOf } from "./isolators.ts";
import { isolated } from "./undersized-galvanic-isolator.ts";

export const openFailingIsolator = defineRule({
  id: "ac/open-failing-isolator",
  title: "Isolator that fails open",
  severity: { otherwise: "note", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger: "the earth of the shore is gone and no one knows, until a case is live",
  why: `A galvanic isolator that fails leaves the protective conductor whole: it is made so that it fails closed. On American boats something that shows aboard when it has failed does instead.`,
  silent: ["what is not afloat"],
  sources: [
    { cite: cite("abyc-a-28", "2008, fail-safe or monitored", "article"), sets: ["us-small-craft"] },
    { cite: cite("iso-13297-2020", "6.9", "read"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "isolators that fail closed", "practice") },
  ],
  messages: {
    opens: "{place} may fail open, and nothing shows it",
    shown: "{place} may fail open; that something shows it is not enough under its rule set",
  },
  cures: ["fail-safe-isolator"],
  examples: {
    good: [
      { says: "one that fails safe", plan: isolated(", rated: 16 A, fail-safe: yes") },
      {
        says: "one that is watched, on an American boat",
        plan: isolated(", rated: 16 A, fail-safe: no, monitored: yes", "us-small-craft ABYC E-11"),
      },
    ],
    bad: [
      {
        says: "one that fails open",
        plan: isolated(", rated: 16 A, fail-safe: no"),
        fails: "opens",
        about: "parts.GI",
      },
      {
        says: "one that is watched, by the international standard",
        plan: isolated(", rated: 16 A, fail-safe: no, monitored: yes"),
        fails: "shown",
        about: "parts.GI",
      },
      { says: "nobody says it", plan: isolated(", rated: 16 A"), fails: "cannot tell", about: "parts.GI" },
    ],
  },
  judge(build, report) {
    for (const { view } of isolatorsOf(build)) {
      const { subject } = view;
      const safe = saysYes(factsOf(view), "fail-safe");
      const watched = saysYes(factsOf(view), "monitored");
      const doesInstead = subject.set === "us-small-craft";
      if (!isBoat(subject.set)) report.notApplicable(subject, "its rule set is not one of boats");
      else if (safe === true || (doesInstead && watched === true)) report.pass(subject);
      else if (safe === false && doesInstead && watched === "unknown")
        report.cannotTell(subject, [needed("whether it is monitored", subject)]);
      else if (safe === false) report.fail(subject, watched === true ? "shown" : "opens");
      else report.cannotTell(subject, [needed("whether it fails safe", subject)]);
    }
  },
});
