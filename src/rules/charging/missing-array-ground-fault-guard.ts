import { cite } from "../../explain/index.ts";
import type { Build, PartView } from "../build.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysWord, saysYes } from "../stated.ts";
import { joinedPieces } from "../battery/pieces.ts";
import { arraysOf, type ArrayInput } from "./arrays.ts";

/** Strings that an array may have without a guard, where it is earthed solidly and away from buildings. */
const FEW = 2;

const roof = (controller: string, module = "", set = "us-cabin"): string => `rules: { DC: ${set} }
parts:
  MPPT: { kind: solar controller, output: 30 A${controller} }
  PV: { kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A${module} }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;

export const missingArrayGroundFaultGuard = defineRule({
  id: "charging/missing-array-ground-fault-guard",
  title: "Missing array ground-fault guard",
  severity: { otherwise: "note", sets: { "us-cabin": "must", "iec-cabin": "should" } },
  danger: "one solar roof in ten was found to leak to earth unnoticed, and a second fault then burns",
  why: `The modules of a building have a guard that detects a fault to earth, tells of it and isolates them: in the controller, or in the box in which their strings meet
    (\`ground-fault guard\`).`,
  silent: [
    "boats, vehicles and other rule sets, which do not ask for it",
    "arrays of one or two strings, earthed solidly, on no building and with no line in one",
  ],
  sources: [
    { cite: cite("nfpa-70-2017", "690.41(B)", "read"), sets: ["us-cabin"] },
    { cite: cite("iec-60364-7-712", "712.421", "memory") },
  ],
  messages: { missing: "{place}: a fault of {modules} to earth is noticed by nothing" },
  cures: ["ground-fault-guard"],
  examples: {
    good: [
      { says: "a controller with one", plan: roof(", ground-fault guard: yes") },
      { says: "one string on the ground, earthed", plan: roof("", ", on building: no, earthing: solid") },
      { says: "on a boat", plan: roof("", "", "iso-small-craft 2020+A1:2022") },
    ],
    bad: [
      { says: "a controller without", plan: roof(""), fails: "missing", about: "parts.MPPT" },
      { says: "nobody knows", plan: roof(", ground-fault guard: unknown"), fails: "cannot tell", about: "parts.MPPT" },
    ],
  },
  judge(build, report) {
    for (const input of arraysOf(build).inputs) judgeOne(build, input, report);
  },
});

function judgeOne(build: Build, input: ArrayInput, report: Report<"missing">): void {
  const { subject } = input.view;
  const { modules } = input;
  const fitted = [input.view, ...boxesOf(build, input)].map((view) => saysYes(factsOf(view), "ground-fault guard"));
  const strings = modules.reduce((sum, m) => sum + m.strings, 0);
  const isAway = modules.every(({ view }) => {
    const facts = factsOf(view);
    const earthing = saysWord(facts, "earthing", ["none", "solid", "through a detector"]);
    return earthing === "solid" && saysYes(facts, "on building") === false;
  });
  if (modules.length === 0) report.notApplicable(subject, "no module hangs on it");
  else if (subject.set !== "us-cabin" && subject.set !== "iec-cabin")
    report.notApplicable(subject, "the rule set does not ask for it");
  else if (fitted.includes(true)) report.pass(subject);
  else if (strings <= FEW && isAway)
    report.notApplicable(subject, "one or two strings, earthed solidly, on no building");
  else if (fitted.includes("unknown"))
    report.cannotTell(subject, [needed("whether it holds a ground-fault guard", subject)]);
  else report.fail(subject, "missing", { words: { modules: modules.map(({ view }) => view.id).join(", ") } });
}

/** Parts that the metal of an input leads to and that may hold a guard. */
function boxesOf(build: Build, { plus }: ArrayInput): readonly PartView[] {
  const { grid } = build.settled.model;
  const pieces = joinedPieces(build.settled);
  const ids = new Set(
    build.circuits.flatMap(({ circuit }) =>
      circuit.conductors.some((c) => c.role === "live" && pieces[grid.nodeOf(c.from)] === pieces[plus])
        ? [circuit.from.part, circuit.to.part]
        : [],
    ),
  );
  return build.parts.filter((p) => ids.has(p.id) && p.part.traits.distributes === true);
}
