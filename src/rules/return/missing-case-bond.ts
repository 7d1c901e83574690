import { cite } from "../../explain/index.ts";
import { isRoad } from "../battery/batteries.ts";
import type { Build, PartView, Subject } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysWord } from "../stated.ts";
import { caseIs, isBonded, metalOf, metalPieces, type Metal } from "./metal.ts";

const hookUp = (more: string, rest = ""): string =>
  `rules: { DC: us-rv NEC 2023, AC: us-rv NEC 2023 }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 30 A }\n  ACP: { kind: panel, ways: { 1: breaker 15 A }, main: breaker 30 A }\n  ${more}\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → ACP:in, length: 1 m }\n  W21: { path: ACP:1 → kettle, length: 3 m }${rest}`;

export const missingCaseBond = defineRule({
  id: "return/missing-case-bond",
  title: "Missing case bond",
  severity: "must",
  danger:
    "with one fault inside the skin is live, and whoever stands on the ground and takes the door handle closes the circuit",
  why: `Metal that can be touched of what mains flows in (inlet, panel, generator, converter, appliance of class I), and chassis, frame and skin of a vehicle with mains, is joined by a protective or bonding
    conductor to the protective conductor of the supply. Joins are followed as metal, from the case on. What is connected to mains is for a licensed electrician to check.`,
  silent: [
    "parts of which the plan does not say that their case is metal",
    "parts of class II, and parts without alternating current",
    "chassis, frame and skin where there is no alternating current",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "551.20(C), 551.30(A), 551.56(C)", "article"), sets: ["us-rv"] },
    { cite: cite("iec-60364-7-721", "721", "article"), sets: ["iec-caravan"] },
    { cite: cite("trade-practice", "every case of metal is bonded", "practice") },
  ],
  messages: {
    bare: "{place}: its case is metal and has no bond",
    loose: "{place}: what its case is bonded to does not lead to the protective conductor of any supply",
    skin: "{place} is metal of a vehicle with mains, and has no bond to its protective conductor",
  },
  cures: ["bond-case"],
  examples: {
    good: [
      {
        says: "a metal heater on a core of its own",
        plan: hookUp(
          "heater: { kind: load, rated: 1 kW, case: metal }",
          "\n  W22: { path: ACP:in → heater, length: 2 m }",
        ),
      },
      {
        says: "a chassis that is bonded",
        plan: hookUp(
          "chassis: { kind: chassis, is: chassis }",
          "\n  W22: { path: ACP:PE → chassis, length: 2 m, cores: [PE], wire: 8 AWG }",
        ),
      },
      {
        says: "a bond that the plan does not draw",
        plan: hookUp("chassis: { kind: chassis, is: chassis, bonded: yes }"),
      },
      {
        says: "nothing said of any case",
        plan: hookUp("fan: { kind: load, running: 1 A }", "\n  W22: { path: BP → fan, length: 2 m }"),
      },
    ],
    bad: [
      {
        says: "a metal heater on two cores",
        plan: hookUp(
          "heater: { kind: load, rated: 1 kW, case: metal }",
          "\n  W22: { path: ACP:in → heater, length: 2 m, cores: [L, N] }",
        ),
        fails: "bare",
        about: "parts.heater",
      },
      {
        says: "a heater bonded to a bar that leads nowhere",
        plan: hookUp(
          "heater: { kind: load, rated: 1 kW, case: metal }\n  BE: { kind: bus bar }",
          "\n  W22: { path: ACP:in → heater, length: 2 m, cores: [L, N] }\n  W23: { path: heater:case → BE, length: 1 m, cores: [PE] }",
        ),
        fails: "loose",
        about: "parts.heater",
      },
      {
        says: "a chassis without a bond",
        plan: hookUp("chassis: { kind: chassis, is: chassis }"),
        fails: "skin",
        about: "parts.chassis",
      },
      {
        says: "nobody knows what the case is",
        plan: hookUp(
          "heater: { kind: load, rated: 1 kW, case: unknown }",
          "\n  W22: { path: ACP:in → heater, length: 2 m, cores: [L, N] }",
        ),
        fails: "cannot tell",
        about: "parts.heater",
      },
    ],
  },
  judge(build, report) {
    const supply = build.system.supplies.find((s) => s.current === "AC");
    const hasMains = supply !== undefined;
    const road = build.circuits.some((c) => isRoad(c.ruleSet?.id ?? null));
    for (const part of build.parts) {
      const { id, subject } = part;
      const is = part.part.traits.structure === true ? saysWord(factsOf(part), "is", STRUCTURES) : undefined;
      const isSkin = is === "chassis" || is === "frame" || is === "skin";
      const case_ = caseIs(build, id);
      if (!isSkin && case_ === undefined) continue;
      const about: Subject =
        subject.set === null && supply !== undefined ? { ...subject, set: build.supply(supply).set } : subject;
      if (isSkin ? !hasMains || !road : !meetsMains(part)) {
        report.notApplicable(about, "no alternating current comes near it");
        continue;
      }
      if (!isSkin && (case_ === "insulated" || saysWord(factsOf(part), "class", ["I", "II", "III"]) === "II")) {
        report.notApplicable(about, "its case is insulated, or it is of class II");
        continue;
      }
      const bonded = isBonded(build, id);
      const found = bonded === true ? "bonded" : bondOf(build, part, isSkin);
      if (found === "bonded") report.pass(about);
      else if (case_ === "unknown") report.cannotTell(about, [needed("what its case is made of", about)]);
      else if (bonded === "unknown") report.cannotTell(about, [needed("whether it is bonded", about)]);
      else report.fail(about, isSkin ? "skin" : found);
    }
  },
});

const STRUCTURES = ["hull", "chassis", "engine", "frame", "skin", "bonding"] as const;

const meetsMains = ({ part, elements }: PartView): boolean =>
  part.current === "AC" ||
  elements.some((e) => e.is === "source" || (e.is === "converter" && (e.inCurrent === "AC" || e.outCurrent === "AC")));

/** How the case of a part is joined to what is earthed. */
function bondOf(build: Build, { id }: PartView, isSkin: boolean): "bonded" | "loose" | "bare" {
  const metal = metalOf(build);
  const own = isSkin ? [...(metal.structures.get(id) ?? [])] : [metal.caseOf(id)].filter((n) => n >= 0);
  const isBond = (n: number): boolean =>
    (metal.at[n] ?? []).some((e) => metal.edges[e]?.is === "bond" || metal.edges[e]?.is === "blocker" || isSkin);
  if (!own.some(isBond)) return "bare";
  const pieces = metalPieces(metal, () => true);
  const to = new Set(referencesOf(build, metal, id).map((n) => pieces[n]));
  return own.some((n) => to.has(pieces[n])) ? "bonded" : "loose";
}

/** What a case is bonded to in the end: the protective terminal of another source, or a converter that makes alternating current, an electrode. */
function referencesOf(build: Build, metal: Metal, id: string): readonly number[] {
  return build.parts.flatMap((p) => {
    if (p.id === id) return p.elements.some((e) => e.is === "source") ? othersAt(metal, metal.caseOf(id)) : [];
    if (p.part.traits.electrode === true) return [metal.nodeOf(`${p.id}:pole`)].filter((n) => n >= 0);
    const makes = p.elements.some((e) => e.is === "source" || (e.is === "converter" && e.outCurrent === "AC"));
    const own = makes ? metal.caseOf(p.id) : -1;
    return own >= 0 ? [own] : [];
  });
}

/** A source is its own reference as soon as anything is joined to its case. */
const othersAt = (metal: Metal, n: number): readonly number[] => ((metal.at[n] ?? []).length > 0 ? [n] : []);
