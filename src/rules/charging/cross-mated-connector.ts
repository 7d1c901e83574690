import { cite } from "../../explain/index.ts";
import { foldName } from "../../plan/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf } from "../stated.ts";
import { arraysOf } from "./arrays.ts";

const plugged = (facts: string): string => `parts:
  MPPT: { kind: solar controller, output: 30 A }
  PV: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A${facts} }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const crossMatedConnector = defineRule({
  id: "charging/cross-mated-connector",
  title: "Cross-mated connector",
  severity: { otherwise: "should", sets: { "iec-cabin": "must" } },
  danger: "halves that were never tested together loosen, heat and arc: a leading cause of fires on solar roofs",
  why: `Plug-in connectors of solar modules are tested as pairs. Halves of two makers, or of two families of one maker, may go together by hand and still differ in
    metal and spring. The plan states what is on the module and what is plugged into it, and they are the same.`,
  silent: ["modules of which a half is not stated"],
  sources: [
    { cite: cite("iec-60364-7-712", "connectors of one type from one maker", "memory"), sets: ["iec-cabin"] },
    { cite: cite("data-sheets", "fire study of solar plants", "article") },
  ],
  messages: { mixed: "{place} has connectors of {own}, and halves of {other} are plugged into them" },
  cures: ["same-connector"],
  examples: {
    good: [
      { says: "both halves alike", plan: plugged(", connectors: make A 4 mm, mated with: Make A 4 mm") },
      { says: "nothing is stated", plan: plugged("") },
    ],
    bad: [
      {
        says: "two makes",
        plan: plugged(", connectors: make A 4 mm, mated with: make B 4 mm"),
        fails: "mixed",
        about: "parts.PV",
      },
      {
        says: "nobody has looked",
        plan: plugged(", connectors: make A 4 mm, mated with: unknown"),
        fails: "cannot tell",
        about: "parts.PV",
      },
    ],
  },
  judge(build, report) {
    for (const { view } of arraysOf(build).modules) {
      const { subject } = view;
      const facts = factsOf(view);
      const [own, other] = [facts["connectors"]?.value, facts["mated with"]?.value];
      const needs = [
        ...(own === "unknown" ? [needed("its connectors", subject)] : []),
        ...(other === "unknown" ? [needed("what its connectors are plugged into", subject)] : []),
      ];
      if (needs.length > 0) report.cannotTell(subject, needs);
      else if (typeof own !== "string" || typeof other !== "string")
        report.notApplicable(subject, "its connectors, or what they are plugged into, are not stated");
      else if (foldName(own) === foldName(other)) report.pass(subject);
      else report.fail(subject, "mixed", { words: { own, other } });
    }
  },
});
