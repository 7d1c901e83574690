import { cite } from "../../explain/index.ts";
import { stockedSizes } from "../../wire/index.ts";
import type { Build, CircuitView, PartView } from "../build.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { metalOf } from "./metal.ts";

/** 16 AWG, mm². */
const LEAST = 1.309;

const inverter = (wire: string): string =>
  `rules: { DC: us-small-craft ABYC E-11, AC: us-small-craft ABYC E-11 }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE], earthed at: BN }\nstock: { sizes: AWG, metal: tinned copper, strands: type 3, insulation: 105 °C }\nparts:\n  INV: { kind: inverter, rated: 1000 VA, pre-charge: yes }\n  kettle: { kind: load, rated: 800 W }\ncircuits:\n  W20: { path: BP → INV, length: 1 m, wire: 2 AWG, fuse: 150 A class T at BP }\n  W21: { path: INV:out → kettle, length: 2 m }\n  W22: { path: INV:case → BN, length: 1 m, cores: [PE]${wire} }`;

export const undersizedDcCaseConductor = defineRule({
  id: "return/undersized-dc-case-conductor",
  title: "Undersized DC case conductor",
  severity: { otherwise: "note", sets: { "us-small-craft": "should" } },
  danger: "a short of the battery to the case inside burns the green wire of the mains, and the boat with it",
  why: `The case of an inverter or a charger is bonded to the minus of direct current by a conductor of its own: no more than one size below the plus lead, and 16 AWG at least, so that it bears what the fuse of
    the plus lets through. Of several leads at its plus the thickest counts.`,
  silent: ["parts with no bonding conductor drawn on their direct-current side", "parts without alternating current"],
  sources: [
    { cite: cite("abyc-e-11", "E-9.21.2.1, an older text", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a case conductor one size below the plus", "practice") },
  ],
  messages: {
    thin: "{place} bonds the case of {part} with {measured}; one size below its plus lead is {limit}",
  },
  cures: ["next-size", "equal-size"],
  examples: {
    good: [
      { says: "one size below", plan: inverter(", wire: 4 AWG") },
      { says: "no inverter", plan: "" },
    ],
    bad: [
      { says: "a thin green wire", plan: inverter(", wire: 12 AWG"), fails: "thin", about: "circuits.W22" },
      { says: "nobody knows its size", plan: inverter(", wire: unknown"), fails: "cannot tell", about: "circuits.W22" },
    ],
  },
  judge(build, report) {
    for (const part of build.parts) {
      const ports = part.elements.flatMap((e) =>
        e.is !== "converter" || e.inCurrent === e.outCurrent ? [] : [e.inCurrent === "DC" ? e.inPlus : e.outPlus],
      );
      if (ports.length === 0) continue;
      const bonds = caseBonds(build, part);
      const supply = build.circuits.filter(
        (c) => c.model !== null && c.circuit.conductors.some((k) => ports.includes(k.from) || ports.includes(k.to)),
      );
      if (bonds.length === 0) {
        report.notApplicable(part.subject, "no bonding conductor is drawn on its direct-current side");
        continue;
      }
      const sizes = supply.flatMap((c) => c.design.size ?? []);
      const [thickest] = [...sizes].sort((a, b) => b.areaMm2 - a.areaMm2);
      for (const bond of bonds) {
        const subject = bond.subject.set === null ? { ...bond.subject, set: part.subject.set } : bond.subject;
        const own = bond.design.size?.areaMm2;
        const { size } = bond.circuit;
        const area = own ?? (size === undefined || size === "unknown" ? null : size.areaMm2);
        if (thickest === undefined) report.notApplicable(subject, "the size of its plus lead is not known");
        else if (area === null) {
          if (size === "unknown") report.cannotTell(subject, [needed("its size", subject)]);
          else report.notApplicable(subject, "its size is not chosen yet");
        } else {
          const limit = Math.max(LEAST, oneBelow(build, thickest.areaMm2));
          const said = { measured: area, limit, unit: "mm²", margin: above(area, limit) } as const;
          if (area >= limit * (1 - 1e-6)) report.pass(subject, said);
          else report.fail(subject, "thin", { ...said, words: { part: part.id } });
        }
      }
    }
  },
});

/** Bonding conductors by themselves on the case of a part. */
function caseBonds(build: Build, { id }: PartView): readonly CircuitView[] {
  const metal = metalOf(build);
  const at = metal.caseOf(id);
  if (at < 0) return [];
  const views = (metal.at[at] ?? []).flatMap((e) => {
    const edge = metal.edges[e];
    const alone = edge?.view?.circuit.conductors.every((c) => c.role === "protective") === true;
    return edge?.is === "bond" && edge.view !== undefined && alone ? [edge.view] : [];
  });
  return [...new Set(views)];
}

/** The stocked size below one, mm²; of another system than the shelf's the next that is thinner. */
function oneBelow({ system }: Build, areaMm2: number): number {
  const { stock } = system;
  const sizes = stock.sizes.length > 0 ? stock.sizes : stockedSizes(stock.system);
  const thinner = sizes.map((s) => s.areaMm2).filter((a) => a < areaMm2 * (1 - 1e-3));
  return thinner.length === 0 ? 0 : Math.max(...thinner);
}
