import { cite } from "../../explain/index.ts";
import { isEnough, type LeadAnswer } from "../../size/settled.ts";
import type { Build, CircuitView } from "../build.ts";
import { above, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";

const boat = (set: string, bond: string, more = ""): string =>
  `rules: { DC: ${set} }\nparts:\n  HULL: { kind: structure, is: bonding, prepared: yes }\n  winch: { kind: load, running: 90 A }\ncircuits:\n  W20: { path: BN → HULL, length: 1 m${bond} }\n  W21: { path: BP → winch, length: 3 m, wire: 35 mm² }${more}`;
const E11 = "us-small-craft ABYC E-11";
const caravan = (wire: string): string =>
  `rules: { AC: iec-caravan 2019 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A, loop impedance: 0.5 Ω }\n  CU: { kind: consumer unit, main: breaker 16 A 2-pole, ways: { 1: breaker } }\n  heater: { kind: load, rated: 2 kW, running: 9 A }\n  frame: { kind: structure, is: frame, prepared: yes }\ncircuits:\n  W20: { path: INL → CU:in, length: 0.4 m, wire: 2.5 mm² }\n  W21: { path: CU:1 → heater, length: 10 m, wire: 2.5 mm², breaker: 16 A MCB B at CU }\n  W22: { path: CU:PE → frame, length: 1 m, cores: [PE]${wire} }`;

export const undersizedBond = defineRule({
  id: "return/undersized-bond",
  title: "Undersized bond",
  severity: "must",
  danger: "the first fault burns the bond instead of opening a device, and all that it held down to earth is live",
  why: `A bond or an earth conductor carries nothing until something fails; then it brings all of it back until a device opens. Its rule set says how thick it has to be: by the largest plus or line that a fault may come
    from, by the device ahead, or a least size whatever there is; the largest of them counts. Where a set says nothing, practice does: no more than one size below the largest plus of direct current.`,
  silent: [
    "chassis and hulls that bring the current of loads back: other rules judge them",
    "case conductors of converters: return/undersized-dc-case-conductor",
    "protective conductors in the cable of their circuit: ac/undersized-protective-conductor",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.18, bonding conductors", "memory"), sets: ["us-small-craft"] },
    { cite: cite("nfpa-70-2023", "250.66, 250.122, 250.166", "memory"), sets: ["us-cabin"] },
    { cite: cite("nfpa-70-2023", "551.56(C), 552.10(C)", "article"), sets: ["us-rv"] },
    { cite: cite("iec-60364-5-54", "542.3, 543.1, 544.1", "memory"), sets: ["iec-cabin"] },
    { cite: cite("iec-60364-7-721", "721.411.3.1.2", "memory"), sets: ["iec-caravan"] },
    { cite: cite("trade-practice", "a bond no more than one size below the largest plus", "practice") },
  ],
  messages: {
    thin: "{place} carries current only in a fault, and has {measured}; {limit} is the least: {case}",
  },
  cures: ["next-size"],
  examples: {
    good: [
      { says: "one size below the largest plus", plan: boat(E11, ", wire: 25 mm²") },
      { says: "a size that is chosen", plan: boat(E11, "") },
      { says: "a frame on 4 mm²", plan: caravan(", wire: 4 mm²") },
      { says: "no bond", plan: "" },
    ],
    bad: [
      { says: "a hull bond of 10 mm²", plan: boat(E11, ", wire: 10 mm²"), fails: "thin", about: "circuits.W20" },
      { says: "a frame on 1.5 mm²", plan: caravan(", wire: 1.5 mm²"), fails: "thin", about: "circuits.W22" },
      {
        says: "a bond that nobody has measured",
        plan: boat(E11, ", wire: unknown"),
        fails: "cannot tell",
        about: "circuits.W20",
      },
    ],
  },
  alternating: true,
  judge(build, report) {
    for (const answer of build.settled.leads ?? []) {
      const id = build.settled.model.circuits[answer.position]?.circuit.id ?? "";
      const view = build.circuit(id);
      if (view !== undefined) judgeLead(build, view, answer, report);
    }
  },
});

function judgeLead(build: Build, view: CircuitView, { lead, asks, untold }: LeadAnswer, report: Report<"thin">): void {
  const { subject, design, circuit } = view;
  const [ask] = asks;
  const converts = build.part(lead.part)?.elements.some((e) => e.is === "converter" && e.inCurrent !== e.outCurrent);
  if (lead.to === "case" && converts === true)
    report.notApplicable(subject, "it bonds the case of a converter: return/undersized-dc-case-conductor");
  else if (ask === undefined && untold.length === 0)
    report.notApplicable(subject, "its rule set names no least size for it");
  else if (design.size === null) report.cannotTell(subject, [needed(whatIsMissing(view), subject)]);
  else {
    const area = design.size.areaMm2 * circuit.parallel;
    const limit = ask?.areaMm2 ?? 0;
    const said = { measured: area, limit, unit: "mm²", margin: above(area, limit) } as const;
    if (ask !== undefined && !isEnough(ask, area))
      report.fail(subject, "thin", {
        ...said,
        words: { case: ask.says },
        source: ask.source,
        trust: ask.trust,
        ...(ask.trust === "practice" ? { severity: "should" } : {}),
      });
    else if (untold.length > 0)
      report.cannotTell(
        subject,
        untold.map((other) => needed(whatIsMissing(build.circuit(other)), `circuits.${other}`)),
      );
    else report.pass(subject, said);
  }
}

const whatIsMissing = (view: CircuitView | undefined): string =>
  view?.circuit.length.origin === "unknown" && view.circuit.size !== "unknown" ? "its length" : "its size";
