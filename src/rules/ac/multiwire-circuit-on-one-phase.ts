import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import type { Build, CircuitView, Subject } from "../build.ts";
import type { Needed } from "../finding.ts";
import { defineRule } from "../rule.ts";
import { oneSource } from "./example-plans.ts";
import { fedBy, isFed, sourcesOf, takersOf } from "./fed.ts";
import { alternatingPart, statesOf, switchingOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn, type StateVerdict } from "./tell-states.ts";

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
    two lines and a neutral, or loads on a line each behind wires that part.`,
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
          if (angles.includes(null)) verdict.needs.push(asksOf(build, sources.get(source)?.part ?? source));
          else if (new Set(angles).size < 2) verdict.faults.push({ message: "same", state, taker: id });
        }
      }
      tellStates(build, report, [verdict]);
    }
    tellStates(build, report, build.circuits.flatMap((view) => (isParted(build, view) ? [sharedBehind(build, view)] : []))); // prettier-ignore
  },
});

/** Whether a circuit of two lines and a neutral ends where wires alone go on: the loads behind it share the neutral, each on a line. */
function isParted(build: Build, { circuit }: CircuitView): boolean {
  const fns = new Set(circuit.conductors.map((k) => k.fn));
  return (
    circuit.current === "AC" &&
    ["L1", "L2", "N"].every((fn) => fns.has(fn as "N")) && // any text may be asked for
    build.part(circuit.to.part)?.elements.every((e) => e.is === "join") === true
  );
}

function sharedBehind(build: Build, { circuit, subject }: CircuitView): StateVerdict<"same"> {
  const verdict = verdictOn<"same">(subject);
  const { terminals } = switchingOf(build);
  const takers = takersOf(build);
  const sources = sourcesOf(build);
  const nodeOf = (terminal: string): number => terminals.findIndex((t) => t.includes(terminal));
  const [lines, neutral] = [["L1", "L2"], ["N"]].map((fns) =>
    circuit.conductors.flatMap((k) => (fns.includes(k.fn) ? [nodeOf(k.to)] : [])),
  );
  for (const state of statesOf(build)) {
    for (const island of state.islands) {
      const isHere =
        lines?.every((n) => island.lineNodes.includes(n)) === true &&
        neutral?.every((n) => island.neutralNodes.includes(n)) === true;
      if (!isHere || fedBy(state, island, takers).length === 0) continue;
      for (const id of island.sources) {
        const source = sources.get(id);
        const angles = source?.lines.map((l) => l.angle) ?? [];
        if (source === undefined || angles.length < 2) continue;
        if (angles.includes(null)) verdict.needs.push(asksOf(build, source.part));
        else if (new Set(angles).size < 2) verdict.faults.push({ message: "same", state });
      }
    }
  }
  return verdict;
}

const asksOf = (build: Build, part: string): Needed =>
  needed(`whether the lines of ${part} swing together`, alternatingPart(build, part).path);

/** The circuit whose neutral is shared; the part itself where none ends there. */
const feedingCircuit = (build: Build, part: string): Subject =>
  build.circuits.find((c) => c.circuit.current === "AC" && c.circuit.to.part === part)?.subject ??
  alternatingPart(build, part);
