import { cite } from "../../explain/index.ts";
import type { Build, CircuitView } from "../build.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { saysCount } from "../stated.ts";
import { factsOfDevice, placeOfFact } from "./device-facts.ts";
import { markedParts, type Marked } from "./device-marks.ts";

const floating = (switchFact: string, breaker: string, earthed = "earthed at: none"): string =>
  `systems:\n  DC: { kind: DC, nominal: 12 V, return: BN, ${earthed} }\nparts:\n  SW1: { kind: switch, rated: 300 A${switchFact} }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, ${breaker} }`;
const BOTH = "breaker: 5 A 2-pole at BP";

export const missingPole = defineRule({
  id: "protection/missing-pole",
  title: "Missing pole",
  severity: { otherwise: "should", sets: { "iec-caravan": "must", "au-nz-vehicle": "must" } },
  danger:
    "what is switched off stays joined to the battery by its other pole, and the next fault to earth makes it live",
  why: `A switch or a breaker opens every live conductor of its supply together. Where one pole is reliably joined to earth, that pole is not live and
    one contact is enough; where none is, both are live. A fuse opens the pole that it stands in and is no switch: it is not asked for two.`,
  silent: [
    "alternating current: ac/half-opened-circuit",
    "supplies whose return is joined to earth, or of which the plan does not say it",
    "fuses; devices that are proposed, which can still be bought with two poles",
  ],
  sources: [
    { cite: cite("iso-13297-2020", "13.1.1, 13.2.1", "read"), sets: ["iso-small-craft"] },
    { cite: cite("iec-60364-7-721", "721", "article"), sets: ["iec-caravan"] },
    { cite: cite("as-nzs-3001-2-2022", "switching in all poles", "article"), sets: ["au-nz-vehicle"] },
    { cite: cite("trade-practice", "both poles of a supply that is not earthed", "practice") },
  ],
  messages: {
    one: "{place}: its {device} opens one pole, and no pole of {system} is joined to earth",
  },
  cures: ["both-poles"],
  examples: {
    good: [
      { says: "two poles where none is earthed", plan: floating(", poles: 2", BOTH) },
      { says: "one pole where the return is earthed", plan: floating("", "breaker: 5 A at BP", "earthed at: BN") },
    ],
    bad: [
      { says: "a main switch of one pole", plan: floating("", BOTH), fails: "one", about: "parts.SW1" },
      {
        says: "a breaker of one pole",
        plan: floating(", poles: 2", "breaker: 5 A at BP"),
        fails: "one",
        about: "circuits.W10",
      },
      {
        says: "nobody counted them",
        plan: floating(", poles: unknown", BOTH),
        fails: "cannot tell",
        about: "parts.SW1",
      },
    ],
  },
  judge(build, report) {
    for (const marked of markedParts(build)) judgeOne(build, marked, report);
    for (const view of build.circuits)
      if (view.model === null)
        report.notApplicable(view.subject, "alternating current: ac/half-opened-circuit asks it");
  },
});

function judgeOne(build: Build, marked: Marked, report: Report<"one">): void {
  const { subject, kind, guard, circuit, name } = marked;
  const supply = supplyOf(build, circuit, marked);
  if (supply?.earthed === undefined || supply.earthed === true) {
    const why =
      supply?.earthed === true ? "its return is joined to earth" : "the plan does not say that it is not earthed";
    report.notApplicable(subject, why);
    return;
  }
  if (kind === "fuse") {
    report.notApplicable(subject, "a fuse opens the pole that it stands in");
    return;
  }
  if (guard?.placed?.given === null) {
    report.notApplicable(subject, "it is proposed: one of two poles can be bought");
    return;
  }
  const poles = guard?.placed?.given?.poles ?? saysCount(factsOfDevice(build, marked), "poles") ?? 1;
  if (typeof poles === "number" && poles > 1) report.pass(subject);
  else if (poles === "unknown") report.cannotTell(subject, [needed("how many poles it opens", placeOfFact(marked))]);
  else if (supply.earthed === "unknown") {
    report.cannotTell(subject, [needed("whether its return is joined to earth", build.supply(supply))]);
  } else report.fail(subject, "one", { words: { device: name, system: supply.id } });
}

const supplyOf = (build: Build, circuit: CircuitView | null, { part }: Marked): CircuitView["supply"] =>
  circuit?.supply ?? build.system.supplies.find((s) => s.id === part?.supply);
