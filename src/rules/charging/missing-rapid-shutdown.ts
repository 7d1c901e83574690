import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { arraysOf } from "./arrays.ts";

const roof = (facts: string, set = "us-cabin"): string => `rules: { DC: ${set} }
parts:
  MPPT: { kind: solar controller, output: 30 A }
  PV: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A${facts} }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const missingRapidShutdown = defineRule({
  id: "charging/missing-rapid-shutdown",
  title: "Missing rapid shutdown",
  severity: "must",
  danger: "whoever fights a fire there cuts into a roof that is live as long as the sun shines",
  why: `Under the American code the lines of modules on or in a building can be brought down to harmless volts from outside, within seconds: a switch at the modules, or
    a system made for it.`,
  silent: [
    "boats, vehicles and other rule sets, which do not ask for it",
    "modules on the ground whose lines enter no building",
    "plans that do not say where they stand",
  ],
  sources: [{ cite: cite("nfpa-70-2023", "690.12", "article") }],
  messages: { missing: "{place} is on a building, and nothing brings its lines down to harmless volts from outside" },
  cures: ["rapid-shutdown"],
  examples: {
    good: [
      { says: "on a roof, with it", plan: roof(", on building: yes, rapid shutdown: yes") },
      { says: "on the ground", plan: roof(", on building: no") },
      { says: "on a boat", plan: roof(", on building: no", "iso-small-craft 2020+A1:2022") },
    ],
    bad: [
      { says: "on a roof, without", plan: roof(", on building: yes"), fails: "missing", about: "parts.PV" },
      {
        says: "nobody knows",
        plan: roof(", on building: yes, rapid shutdown: unknown"),
        fails: "cannot tell",
        about: "parts.PV",
      },
    ],
  },
  judge(build, report) {
    for (const { view } of arraysOf(build).modules) {
      const { subject } = view;
      const facts = factsOf(view);
      const onBuilding = saysYes(facts, "on building");
      const fitted = saysYes(facts, "rapid shutdown");
      if (subject.set !== "us-cabin") report.notApplicable(subject, "the rule set does not ask for it");
      else if (fitted === true) report.pass(subject);
      else if (onBuilding === false) report.notApplicable(subject, "it is on no building, and its lines enter none");
      else if (onBuilding === undefined) report.notApplicable(subject, "whether it is on a building is not stated");
      else if (onBuilding === "unknown" || fitted === "unknown")
        report.cannotTell(subject, [
          ...(onBuilding === "unknown" ? [needed("whether it is on a building", subject)] : []),
          ...(fitted === "unknown" ? [needed("whether its lines can be shut down from outside", subject)] : []),
        ]);
      else report.fail(subject, "missing");
    }
  },
});
