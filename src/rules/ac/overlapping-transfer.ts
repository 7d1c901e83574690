import { cite } from "../../explain/index.ts";
import { sayMover, saySteps } from "../../switching/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { sourcesOf } from "./fed.ts";
import { alternatingPart, doubtsOf, switchingOf } from "./switching-of.ts";
import { alternates } from "./tell-states.ts";

const TRANSFER = "kind: transfer switch, poles: 2, rated: 16 A, inputs: [shore, inverter]";

export const overlappingTransfer = defineRule({
  id: "ac/overlapping-transfer",
  title: "Overlapping transfer",
  severity: "must",
  danger: "an instant with both sources on one line is enough to destroy the smaller",
  why: `What chooses between two sources opens the one before it closes the other. Every move of every switch that can come to pass while two sources give is looked at; a move through a position in which nothing is
    joined, or of a switch that breaks before it makes, is right.`,
  silent: [
    "what moves inside an inverter/charger, which its maker answers for",
    "builds in which nothing chooses between sources",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "702.5", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "transfer of sources", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "break before make", "practice") },
  ],
  messages: {
    overlaps: "{mover} goes from {from} to {to} and for a moment joins {first} and {second}; the way there: {steps}",
  },
  cures: ["break-first"],
  examples: {
    good: [
      { says: "a switch that breaks before it makes", plan: shoreAndInverter() },
      {
        says: "an inverter/charger that moves both sources in 8 ms",
        plan: shoreAndInverter({
          parts: {
            INV: "kind: inverter/charger, rated: 1200 VA, charging: 30 A, neutral–earth join: closed when inverting, transfer time: 8 ms",
            TS: null,
          },
          circuits: {
            W21: "path: CU:1 → INV:in, length: 2 m",
            W22: null,
            W23: "path: INV:out → sockets, length: 3 m",
          },
        }),
      },
      {
        says: "one that makes first, with a position in which it joins nothing between",
        plan: shoreAndInverter({
          parts: { TS: `${TRANSFER}, off: yes, break before make: no` },
          more: "interlocks:\n  gate: { never: [TS shore, INV on] }",
        }),
      },
      { says: "nothing that chooses", plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A" } }) },
    ],
    bad: [
      {
        says: "a switch that makes before it breaks",
        plan: shoreAndInverter({ parts: { TS: `${TRANSFER}, break before make: no` } }),
        fails: "overlaps",
        about: "parts.TS",
      },
      {
        says: "nobody knows which it does first",
        plan: shoreAndInverter({ parts: { TS: `${TRANSFER}, break before make: unknown` } }),
        fails: "cannot tell",
        about: "parts.TS",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const { problem, study } = switchingOf(build);
    const doubts = doubtsOf(build);
    const sources = sourcesOf(build);
    const partOf = (source: string): string => sources.get(source)?.part ?? source;
    for (const { id, part, breaksFirst } of problem.movers) {
      if (breaksFirst === undefined) continue;
      const subject = alternatingPart(build, part);
      const own = study.transients.filter((t) => t.mover === id);
      const sure = own.find((t) => t.certain);
      if ([...sources.values()].some((s) => s.part === part && s.passes)) {
        report.notApplicable(subject, "it moves inside an inverter/charger");
      } else if (sure !== undefined) {
        const [first, second] = sure.sources.map(partOf);
        const { from, to } = sure;
        const steps = saySteps(sure.steps);
        const words = { mover: sayMover(id), from, to, first: first ?? "", second: second ?? "", steps };
        report.fail(subject, "overlaps", { words });
      } else if (own.length > 0) {
        report.cannotTell(subject, [needed("whether it breaks before it makes", subject)]);
      } else if (doubts.length > 0) report.cannotTell(subject, doubts);
      else report.pass(subject);
    }
  },
});
