import { cite } from "../../explain/index.ts";
import { isBoat } from "../battery/batteries.ts";
import { nameSome } from "../battery/name-some.ts";
import type { Build, PartView, Subject } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysWord, saysYes } from "../stated.ts";
import { metalOf, metalPieces } from "./metal.ts";

const afloat = (isolator: string, parts: string, rest = ""): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 16 A }\n  CU: { kind: consumer unit, ways: { 1: breaker 10 A 2-pole }, main: { residual device: 30 mA, poles: 2 } }\n  GI: { kind: galvanic isolator, rated: 16 A${isolator} }\n  kettle: { kind: load, rated: 1 kW }\n  shaft: { kind: structure, immersed: yes }\n  ${parts}\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m, in PE: GI }\n  W21: { path: CU:1 → kettle, length: 3 m }\n  W22: { path: CU:PE → BN, length: 1 m, cores: [PE], wire: 10 mm² }\n  W23: { path: BN → shaft, length: 1 m, cores: [PE], wire: 10 mm² }${rest}`;
const ANODE = "zinc: { kind: hull anode, is: anode }";
const BONDED = "\n  W24: { path: BN → zinc, length: 1 m, cores: [PE], wire: 10 mm² }";

export const galvanicLoop = defineRule({
  id: "return/galvanic-loop",
  title: "Galvanic loop",
  severity: "should",
  danger: "by the earth wire of the shore lead the steel of the neighbour's boat eats your propeller and shaft",
  why: `Metal in the water that is bonded has an anode on the same metal. Where it is joined to the protective conductor of the shore, a galvanic isolator that fails safe, or an isolation transformer, stands
    between: the protective conductor is followed as metal with the isolator taken out.`,
  silent: [
    "boats of which the plan names no metal in the water, or none that is bonded",
    "what is not afloat",
    "the second test: boats without shore power, or behind an isolation transformer",
  ],
  sources: [{ cite: cite("trade-practice", "anodes, and an isolator in the shore earth", "practice") }],
  messages: {
    anode: "{place} is in the water and bonded, and no anode stands on the same metal",
    loop: "{place} is in the water and joined by metal to the earth of the shore at {inlet}",
    fails: "{place} is in the water and joined to the earth of the shore by {isolator}, which does not fail safe",
  },
  cures: ["fit-anode", "fail-safe-isolator"],
  examples: {
    good: [
      { says: "an anode, and an isolator that fails safe", plan: afloat(", fail-safe: yes", ANODE, BONDED) },
      { says: "no metal in the water", plan: "" },
    ],
    bad: [
      {
        says: "no anode",
        plan: afloat(", fail-safe: yes", "lamp: { kind: light, running: 2 A }"),
        fails: "anode",
        about: "parts.shaft",
      },
      {
        says: "no isolator",
        plan: `${afloat(", fail-safe: yes", ANODE, BONDED)}\n  W20: { path: INL → CU:in, length: 1 m }\n  W25: { path: GI:in → GI:out, length: 1 m, cores: [PE] }`,
        fails: "loop",
        about: "parts.shaft",
      },
      {
        says: "an isolator that opens when it fails",
        plan: afloat(", fail-safe: no", ANODE, BONDED),
        fails: "fails",
        about: "parts.shaft",
      },
      {
        says: "an isolator of which nobody knows",
        plan: afloat("", ANODE, BONDED),
        fails: "cannot tell",
        about: "parts.shaft",
      },
    ],
  },
  judge(build, report) {
    const immersed = build.parts.filter((p) => saysYes(factsOf(p), "immersed") === true || isAnode(p));
    if (immersed.length === 0) return;
    const metal = metalOf(build);
    const nodesOf = ({ id }: PartView): readonly number[] => {
      const own = metal.structures.get(id);
      return own === undefined ? [metal.nodeOf(`${id}:pole`)].filter((n) => n >= 0) : [...own];
    };
    const direct = metalPieces(metal, (e) => e.is !== "blocker");
    const all = metalPieces(metal, () => true);
    const anodes = new Set(
      immersed
        .filter(isAnode)
        .flatMap(nodesOf)
        .map((n) => direct[n]),
    );
    const shores = build.parts.flatMap((p) => {
      const node = p.elements.some((e) => e.is === "source" && e.from === "shore") ? metal.caseOf(p.id) : -1;
      return node < 0 ? [] : [{ id: p.id, node }];
    });
    for (const part of immersed) {
      if (isAnode(part)) continue;
      const subject = withSet(build, part);
      const own = nodesOf(part);
      if (!isBoat(subject.set)) report.notApplicable(subject, "its rule set is not one of boats");
      else if (!own.some((n) => (metal.at[n] ?? []).length > 0)) report.notApplicable(subject, "it is not bonded");
      else if (!own.some((n) => anodes.has(direct[n]))) report.fail(subject, "anode");
      else {
        const loop = shores.find(({ node }) => own.some((n) => direct[n] === direct[node]));
        const through = shores.some(({ node }) => own.some((n) => all[n] === all[node]));
        const isolators = metal.edges.flatMap((e) => (e.is === "blocker" && e.part !== null ? [e.part] : []));
        const says = isolators.map((id) => {
          const view = build.part(id);
          return view === undefined ? undefined : saysYes(factsOf(view), "fail-safe");
        });
        if (loop !== undefined) report.fail(subject, "loop", { words: { inlet: loop.id } });
        else if (!through || says.some((s) => s === true)) report.pass(subject);
        else if (says.every((s) => s === false))
          report.fail(subject, "fails", { words: { isolator: nameSome(isolators) } });
        else
          report.cannotTell(subject, [
            needed(`whether ${nameSome(isolators)} fails safe`, `parts.${isolators[0] ?? ""}`),
          ]);
      }
    }
  },
});

const isAnode = (part: PartView): boolean =>
  part.part.traits.electrode === true && saysWord(factsOf(part), "is", ["anode"]) === "anode";

/** Metal in the water belongs to no supply: it follows the set of the first that names one. */
function withSet(build: Build, { subject }: PartView): Subject {
  const set = subject.set ?? build.system.supplies.map((s) => build.supply(s).set).find((s) => s !== null) ?? null;
  return { ...subject, set };
}
