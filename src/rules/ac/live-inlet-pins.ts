import { cite } from "../../explain/index.ts";
import { nameSome } from "../battery/name-some.ts";
import { defineRule } from "../rule.ts";
import { shoreAndInverter } from "./example-plans.ts";
import { sourcesOf } from "./fed.ts";
import { alternatingPart, statesOf, switchingOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

export const liveInletPins = defineRule({
  id: "ac/live-inlet-pins",
  title: "Live inlet pins",
  severity: "must",
  danger: "a child touches the pins of an inlet, and mains is on them",
  why: `With the plug out nothing aboard may feed back to the inlet. Every state that the switches can be set to is looked at, for each inlet that gives nothing.`,
  silent: ["builds without an inlet"],
  sources: [
    { cite: cite("nfpa-70-2023", "551", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "dead pins with the plug out", "practice") },
  ],
  messages: {
    live: "with {state}, {place} is fed back by {from}; the way there: {steps}",
  },
  cures: ["never-both"],
  examples: {
    good: [{ says: "a transfer switch between inlet and inverter", plan: shoreAndInverter() }],
    bad: [
      {
        says: "an inverter on a way of the board that the inlet feeds",
        plan: shoreAndInverter({
          parts: { INV: "kind: inverter, rated: 1200 VA, neutral–earth join: never", TS: null },
          circuits: {
            W21: "path: CU:1 → sockets, length: 3 m",
            W22: "path: INV:out → CU:2, length: 1 m",
            W23: null,
          },
        }),
        fails: "live",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const sources = sourcesOf(build);
    const verdicts = new Map<string, StateVerdict<"live">>();
    for (const { part, kind } of sources.values())
      if (kind === "shore") verdicts.set(part, verdictOn(alternatingPart(build, part)));
    for (const { id } of switchingOf(build).problem.pins ?? []) verdicts.set(id, verdictOn(alternatingPart(build, id)));
    if (verdicts.size === 0) report.notApplicable(build.whole, "no source enters by a plug");
    for (const state of statesOf(build))
      for (const { source, from } of state.livePins) {
        const words = { from: nameSome(from.map((id) => sources.get(id)?.part ?? id)) };
        verdicts.get(sources.get(source)?.part ?? source)?.faults.push({ message: "live", state, said: { words } });
      }
    tellStates(build, report, verdicts.values());
  },
});
