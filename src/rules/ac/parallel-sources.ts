import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { sourcesOf } from "./fed.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

const BOTH = { INV: "kind: inverter, rated: 1200 VA, neutral–earth join: never", TS: null };
const ON_ONE_BOARD = {
  W21: "path: CU:1 → sockets, length: 3 m",
  W22: "path: INV:out → CU:2, length: 1 m",
  W23: null,
};

export const parallelSources = defineRule({
  id: "ac/parallel-sources",
  title: "Parallel sources",
  severity: "must",
  danger: "the two meet at whatever angle they stand: one destroys the other, or burns",
  why: `Every state that switches, plugs and engines can come to is looked at, interlocks obeyed. In none may the lines of two sources be one piece of metal while both give, unless one of them is made to give beside the
    other. A warning on a label, or the habit of those aboard, keeps no state away.`,
  silent: ["a source that is stated to add to another one's supply", "builds with one source"],
  sources: [
    { cite: cite("nfpa-70-2023", "551, 705", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "one source at a time", "article"), sets: ["us-small-craft"] },
    { cite: cite("iec-60364-5-53", "551.6", "article"), sets: ["iec-cabin", "iec-caravan"] },
    { cite: cite("trade-practice", "a switch or an interlock between any two sources", "practice") },
  ],
  messages: {
    parallel: "with {state}, {place} and {other} feed the same line at once; the way there: {steps}",
  },
  cures: ["never-both"],
  examples: {
    good: [
      { says: "a transfer switch between them", plan: shoreAndInverter() },
      {
        says: "an inverter/charger that moves both by its own relay",
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
        says: "two breakers with a slide between them",
        plan: shoreAndInverter({
          parts: BOTH,
          circuits: ON_ONE_BOARD,
          more: "interlocks:\n  slide: { never: [CU:main on, CU:2 on] }",
        }),
      },
      { says: "one source", plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A" } }) },
    ],
    bad: [
      {
        says: "an inverter on a way of the board that shore feeds",
        plan: shoreAndInverter({ parts: BOTH, circuits: ON_ONE_BOARD }),
        fails: "parallel",
        about: "parts.INV",
      },
      {
        says: "nobody knows whether it may give beside shore",
        plan: shoreAndInverter({
          parts: {
            INV: "kind: inverter/charger, rated: 1200 VA, charging: 30 A, neutral–earth join: never, adds to shore: unknown",
            TS: null,
          },
          circuits: ON_ONE_BOARD,
        }),
        fails: "cannot tell",
        about: "parts.INV",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const sources = sourcesOf(build);
    const verdicts = new Map<string, StateVerdict<"parallel">>();
    for (const { part } of sources.values()) verdicts.set(part, verdictOn(alternatingPart(build, part)));
    if (sources.size < 2) for (const verdict of verdicts.values()) verdict.exempt = "it is the only source";
    for (const state of statesOf(build)) {
      for (const { sources: pair, lawful } of state.parallel) {
        if (lawful === true) continue;
        // What stands aboard can be changed: it is named before what comes from outside.
        const [other, own] = pair
          .flatMap((id) => sources.get(id) ?? [])
          .sort((a, b) => Number(a.kind !== "shore") - Number(b.kind !== "shore"));
        const verdict = verdicts.get(own?.part ?? "");
        if (verdict === undefined || other === undefined || own === undefined) continue;
        if (lawful === "unknown")
          verdict.needs.push(needed(`whether ${own.part} may give beside ${other.part}`, verdict.subject));
        else verdict.faults.push({ message: "parallel", state, said: { words: { other: other.part } } });
      }
    }
    tellStates(build, report, verdicts.values());
  },
});
