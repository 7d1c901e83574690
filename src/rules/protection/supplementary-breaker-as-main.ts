import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { saysWord } from "../stated.ts";
import { factsOfDevice, placeOfFact } from "./device-facts.ts";
import { markedParts, tellUnmarked } from "./device-marks.ts";
import { isBoat } from "../battery/batteries.ts";

const STANDARDS = ["UL 489", "UL 1077", "UL 1500", "SAE J553", "IEC 60898", "IEC 60947-2"] as const;

const cabin = (standard: string, rules = "rules: { DC: us-cabin NEC 2023 }\n"): string =>
  `${rules}parts:\n  CB1: { kind: breaker, rated: 15 A, for: DC, DC volts: 65 V, reset: manual${standard} }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, wire: 12 AWG, breaker: CB1 }`;

export const supplementaryBreakerAsMain = defineRule({
  id: "protection/supplementary-breaker-as-main",
  title: "Supplementary breaker in place of a branch breaker",
  severity: { otherwise: "should", sets: { "us-cabin": "must" } },
  danger: "small breakers weld shut at the fault currents of a building",
  why: `A breaker made to UL 1077 protects something inside equipment, behind a breaker that guards the wiring. It does not stand in for that one: a feeder
    or a branch of a building has a breaker that is made and marked for branch circuits, UL 489.`,
  silent: [
    "boats, where breakers to UL 1077 and UL 1500 are usual",
    "sets outside America",
    "breakers of which nobody says what they are made to",
    "fuses and switches; alternating current, which is not studied yet",
  ],
  sources: [{ cite: cite("nfpa-70-2023", "240.10", "read") }],
  messages: { supplementary: "{place}: its breaker is made to {standard}, which is not for branch circuits" },
  cures: ["device-made-for-it"],
  examples: {
    good: [
      { says: "a breaker for branch circuits", plan: cabin(", made to: UL 489") },
      { says: "aboard", plan: cabin(", made to: UL 1077", "") },
      { says: "nobody says it", plan: cabin("") },
    ],
    bad: [
      {
        says: "a supplementary one on a branch",
        plan: cabin(", made to: UL 1077"),
        fails: "supplementary",
        about: "circuits.W10",
      },
      { says: "its label is worn", plan: cabin(", made to: unknown"), fails: "cannot tell", about: "circuits.W10" },
    ],
  },
  judge(build, report) {
    for (const marked of markedParts(build)) {
      const { subject, kind, family } = marked;
      const standard = saysWord(factsOfDevice(build, marked), "made to", STANDARDS);
      if (kind !== "breaker") report.notApplicable(subject, "no breaker");
      else if (isBoat(subject.set)) report.notApplicable(subject, "such breakers are usual aboard");
      else if (subject.set !== "us-cabin" && subject.set !== "us-rv") {
        report.notApplicable(subject, "its set does not tell branch breakers apart");
      } else if (standard === "UL 489" || (standard === undefined && family === "branch_breaker")) report.pass(subject);
      else if (standard === "unknown")
        report.cannotTell(subject, [needed("what its breaker is made to", placeOfFact(marked))]);
      else if (standard === undefined) report.notApplicable(subject, "nobody says what it is made to");
      else report.fail(subject, "supplementary", { words: { standard } });
    }
    tellUnmarked(build, report);
  },
});
