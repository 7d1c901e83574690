import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import type { Build, Subject } from "../build.ts";
import { defineRule } from "../rule.ts";
import { oneSource } from "./example-plans.ts";
import { isFed, sourcesOf, takersOf } from "./fed.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn } from "./tell-states.ts";

const split = (lines: string, cores = "L1, L2, N, PE"): string =>
  oneSource({
    set: "us-cabin NEC 2023",
    system: "kind: AC, nominal: 240 V, phases: split, cores: [L1, L2, N, PE]",
    parts: {
      INV: `kind: inverter, rated: 2 kW, neutral–earth join: always${lines}`,
      CU: "kind: load centre, ways: { 1: breaker 15 A 2-pole }",
    },
    circuits: {
      W20: "path: INV:out → CU:in, length: 1 m",
      W23: `path: CU:1 → sockets, length: 3 m, cores: [${cores}]`,
      W24: "path: BP → INV, length: 1 m",
    },
  });

export const multiwireCircuitOnOnePhase = defineRule({
  id: "ac/multiwire-circuit-on-one-phase",
  title: "Multiwire circuit on one phase",
  severity: { otherwise: "should", sets: { "us-cabin": "must", "us-rv": "must" } },
  danger: "the shared neutral carries the sum of both lines in place of their difference, and no device sees it",
  why: `Two lines may share a neutral while they swing against each other. A source that feeds both with the same 120 V makes their currents add up in it. Every state is looked at in which such a source feeds a load on
    two lines and a neutral.`,
  silent: ["loads on one line, or on two lines without a neutral", "sources whose lines swing against each other"],
  sources: [
    { cite: cite("nfpa-70-2023", "710.15(C)", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "no shared neutral on one phase", "practice") },
  ],
  messages: {
    same: "with {state}, both lines of {place} are of one phase and share its neutral; the way there: {steps}",
  },
  cures: [],
  examples: {
    good: [
      { says: "120/240 V", plan: split("") },
      { says: "one line", plan: split(", lines: in phase", "L1, N, PE") },
    ],
    bad: [
      { says: "both lines of one phase", plan: split(", lines: in phase"), fails: "same", about: "circuits.W23" },
      { says: "nobody knows", plan: split(", lines: unknown"), fails: "cannot tell", about: "circuits.W23" },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const sources = sourcesOf(build);
    for (const [id, taker] of takersOf(build)) {
      const verdict = verdictOn<"same">(feedingCircuit(build, taker.part));
      if (taker.lines.length !== 2 || taker.neutral === null) verdict.exempt = "it has no neutral that two lines share";
      for (const state of verdict.exempt === null ? statesOf(build) : []) {
        const at = state.takers.find((t) => t.taker === id);
        if (at === undefined || !isFed(at, taker)) continue;
        for (const source of at.sources) {
          const angles = sources.get(source)?.lines.map((l) => l.angle) ?? [];
          if (angles.includes(null)) {
            const { path } = alternatingPart(build, sources.get(source)?.part ?? source);
            verdict.needs.push(
              needed(`whether the lines of ${sources.get(source)?.part ?? source} swing together`, path),
            );
          } else if (new Set(angles).size < 2) verdict.faults.push({ message: "same", state });
        }
      }
      tellStates(build, report, [verdict]);
    }
  },
});

/** The circuit whose neutral is shared; the part itself where none ends there. */
const feedingCircuit = (build: Build, part: string): Subject =>
  build.circuits.find((c) => c.circuit.current === "AC" && c.circuit.to.part === part)?.subject ??
  alternatingPart(build, part);
