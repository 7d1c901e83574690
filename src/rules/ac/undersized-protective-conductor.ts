import { cite } from "../../explain/index.ts";
import { equipmentGround } from "../../protect/earth-fault/protective-size.ts";
import { earthingRules } from "../../ruleset/earthing-rules.ts";
import type { ProtectiveJudged } from "../../size/study-earth-faults-shapes.ts";
import type { CircuitView } from "../build.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { earthFaultsAt } from "./as-designed.ts";

const wired = (set: string, circuit: string, inlet = "loop impedance: 0.5 Ω"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 32 A, ${inlet} }\n  CU: { kind: consumer unit, main: breaker 40 A 2-pole, ways: { 1: breaker } }\n  heater: { kind: load, rated: 2 kW, running: 9 A }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m, wire: 10 mm² }\n  W21: { path: CU:1 → heater, ${circuit} }`;

export const undersizedProtectiveConductor = defineRule({
  id: "ac/undersized-protective-conductor",
  title: "Undersized protective conductor",
  severity: "must",
  danger: "the safety wire melts first, and the case stays live",
  why: `By the American code the device ahead decides how thick the protective conductor is, and it grows in the share by which the live conductors were enlarged. By the international tables it is as thick as the live
    ones up to 16 mm², and half of them beyond 35 mm²; one that is thinner is right where it bears the heat of the worst fault until the device has opened. On American boats it is as thick up to 30 A, one size less above. One as
    thick as its live conductors is always enough.`,
  silent: [
    "circuits without a protective conductor",
    "conductors that carry earth alone: return/undersized-bond",
    "cables that cable/reduced-earth-core finds too thin already",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "250.122", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "earth conductor beside its supply", "memory"), sets: ["us-small-craft"] },
    { cite: cite("iec-60364-5-54", "543.1", "read") },
  ],
  messages: {
    thin: "{place} has a protective conductor of {measured}; {limit} is asked for, {case}",
  },
  cures: ["next-size"],
  examples: {
    good: [
      { says: "as thick as its live conductors", plan: wired("iec-cabin 2009", "length: 10 m, wire: 2.5 mm², breaker: 16 A MCB B at CU") }, // prettier-ignore
      {
        says: "thinner, and it bears the fault",
        plan: wired("iec-cabin 2009", "length: 10 m, cable: 2.5 mm² T&E, breaker: 16 A MCB B at CU"),
      },
    ],
    bad: [
      {
        says: "live conductors grown for their length, and the earth of their cable did not",
        plan: wired("us-cabin NEC 2023", "length: 30 m, cable: 8/2 w/G NM-B, breaker: 15 A at CU"),
        fails: "thin",
        about: "circuits.W21",
      },
      {
        says: "thinner, and nobody knows the fault",
        plan: wired("iec-cabin 2009", "length: 10 m, cable: 2.5 mm² T&E, breaker: 16 A MCB B at CU", "prospective current: unknown"), // prettier-ignore
        fails: "cannot tell",
        about: "circuits.W21",
      },
    ],
  },
  judge(build, report, soFar) {
    const told = new Set(soFar().flatMap((f) => (f.rule === "cable/reduced-earth-core" && f.outcome === "fail" ? [f.about] : []))); // prettier-ignore
    for (const view of build.circuits) {
      const { subject, circuit } = view;
      if (circuit.current !== "AC") continue;
      const judged = earthFaultsAt(build, view.id)?.protective;
      if (judged === undefined || !circuit.conductors.some((k) => k.role === "protective"))
        report.notApplicable(subject, "it has no protective conductor");
      else if (told.has(subject.path)) report.notApplicable(subject, "cable/reduced-earth-core tells of it");
      else if (circuit.conductors.every((k) => k.fn === "PE"))
        report.notApplicable(subject, "it carries earth alone: return/undersized-bond");
      else judgeBeside(view, judged, report);
    }
  },
});

/** Printed areas are rounded. */
const EDGE = 1e-3;

function judgeBeside(
  view: CircuitView,
  judged: ProtectiveJudged,
  report: Parameters<typeof undersizedProtectiveConductor.judge>[1],
): void {
  const { subject } = view;
  const { areaMm2: area, liveMm2: live, byTable, byHeat, outcome, missing } = judged;
  const grown = grownOf(view, judged);
  if (outcome === "not asked") report.notApplicable(subject, "no rule set says how thick it has to be");
  else if (area === null || live === null) report.cannotTell(subject, [needed("its size", subject)]);
  else if (grown !== null && area < grown.areaMm2 * (1 - EDGE) && area < live * (1 - EDGE))
    report.fail(subject, "thin", {
      measured: area,
      limit: grown.areaMm2,
      unit: "mm²",
      margin: above(area, grown.areaMm2),
      trust: grown.trust,
      words: { case: grown.says },
    });
  else if (outcome === "enough") {
    const least = [grown, byHeat, byTable].flatMap((n) => (n === null ? [] : [n.areaMm2])).filter((n) => area >= n * (1 - EDGE)); // prettier-ignore
    const limit = least.length === 0 ? live : Math.max(...least);
    report.pass(subject, { measured: area, limit, unit: "mm²", margin: above(area, limit) });
  } else if (outcome === "cannot tell")
    report.cannotTell(subject, [
      needed(
        missing === "device"
          ? "the rating of its device"
          : missing === "fault"
            ? "what flows in a fault, and how soon its device opens: its protective conductor is thinner than the table asks,"
            : "its size",
        subject,
      ),
    ]);
  else {
    const need = byHeat ?? byTable;
    report.fail(subject, "thin", {
      measured: area,
      limit: need?.areaMm2 ?? live,
      unit: "mm²",
      margin: above(area, need?.areaMm2 ?? live),
      trust: need?.trust ?? null,
      words: { case: need?.says ?? "as thick as its live conductors" },
    });
  }
}

/** By the American code: what the device asks, grown with live conductors that are thicker than ampacity and device ask. */
function grownOf({ design, ruleSet, circuit }: CircuitView, { liveMm2 }: ProtectiveJudged) {
  if (ruleSet === null || earthingRules(ruleSet)?.protective.by !== "device" || liveMm2 === null) return null;
  const rating = Math.max(0, ...design.devices.map((d) => d.ratingA ?? 0));
  const asked = design.constraints.flatMap((c) => ((c.id === "ampacity" || c.id === "device" || c.id === "mechanical") && c.alone !== null ? [c.alone.areaMm2] : [])); // prettier-ignore
  if (rating === 0 || asked.length === 0) return null;
  const metal = circuit.metal === "aluminium" ? "aluminium" : "copper";
  return equipmentGround({ rating, metal, liveMm2, leastLiveMm2: Math.min(liveMm2, Math.max(...asked)) });
}
