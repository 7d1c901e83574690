import { cite } from "../../explain/index.ts";
import type { Build, PartView } from "../build.ts";
import { above, below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";
import { metalOf, metalPieces } from "./metal.ts";

/** 8 AWG, mm². */
const LEAST_MM2 = 8.367;
/** What may stay on metal that is touched, V. */
const TOUCH_VOLTS = 50;

const cabin = (more: string, set = "us-cabin NEC 2023", rest = "", earthed = ""): string =>
  `rules: { DC: ${set}, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE]${earthed} }\nparts:\n  INV: { kind: inverter, rated: 1000 VA, pre-charge: yes }\n  LC: { kind: load centre, ways: { 1: breaker 15 A }, main: { residual device: 30 mA, poles: 2 } }\n  kettle: { kind: load, rated: 800 W }${more}\ncircuits:\n  W20: { path: BP → INV, length: 1 m }\n  W21: { path: INV:out → LC:in, length: 2 m }\n  W22: { path: LC:1 → kettle, length: 2 m }${rest}`;
const rod = (more: string, wire: string, set?: string): string =>
  cabin(
    `\n  ROD: { kind: earth rod${more} }`,
    set,
    `\n  W23: { path: LC:PE → ROD, length: 3 m, cores: [PE], wire: ${wire} }`,
  );

export const missingEarthElectrode = defineRule({
  id: "return/missing-earth-electrode",
  title: "Missing earth electrode",
  severity: { otherwise: "note", sets: { "us-cabin": "must", "iec-cabin": "must" } },
  danger:
    "without earth nothing holds the volts of the wires down: a residual device has nothing to compare with, and an arrester nothing to lead to",
  why: `A cabin that makes its own alternating current has an electrode in the soil, joined to its protective conductors by no less than 8 AWG. By iec-cabin resistance to earth × residual current of the device stays within 50 V. The earthing of a
    cabin is for a licensed electrician and the local code to decide.`,
  silent: [
    "boats and vehicles",
    "cabins without alternating current",
    "conductors to the electrode whose size is not stated",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "250.50, 250.66, 250.166", "memory"), sets: ["us-cabin"] },
    { cite: cite("iec-60364-4-41", "411.5.3", "memory"), sets: ["iec-cabin"] },
    { cite: cite("trade-practice", "an electrode at the source", "practice") },
  ],
  messages: {
    none: "{place}: the plan has no earth electrode",
    loose: "{place}: no metal joins its protective conductors to {others}",
    thin: "{place} leads to the electrode with {measured}; {limit} is the least",
    volts:
      "{place}: {measured} may stay on metal that is touched, of its resistance and the {residual} of the residual device; {limit} is the most",
  },
  cures: ["earth-rod", "equal-size"],
  examples: {
    good: [
      { says: "a rod", plan: rod("", "6 AWG") },
      { says: "a rod of 200 Ω and 30 mA", plan: rod(", resistance to earth: 200 Ω", "16 mm²", "iec-cabin 2009") },
      { says: "no alternating current", plan: "" },
    ],
    bad: [
      { says: "no electrode", plan: cabin(""), fails: "none", about: "systems.AC" },
      {
        says: "a rod that nothing leads to",
        plan: cabin("\n  ROD: { kind: earth rod }"),
        fails: "loose",
        about: "systems.AC",
      },
      { says: "a thin wire to the rod", plan: rod("", "14 AWG"), fails: "thin", about: "circuits.W23" },
      {
        says: "a rod of 3 kΩ",
        plan: rod(", resistance to earth: 3000 Ω", "16 mm²", "iec-cabin 2009"),
        fails: "volts",
        about: "parts.ROD",
      },
      {
        says: "nobody has looked for one",
        plan: cabin("", undefined, "", ", earthed at: unknown"),
        fails: "cannot tell",
        about: "systems.AC",
      },
      {
        says: "nobody has measured it",
        plan: rod(", resistance to earth: unknown", "16 mm²", "iec-cabin 2009"),
        fails: "cannot tell",
        about: "parts.ROD",
      },
    ],
  },
  judge(build, report) {
    const rods = build.parts.filter((p) => p.part.traits.electrode === true);
    for (const supply of build.system.supplies) {
      if (supply.current !== "AC") continue;
      const subject = build.supply(supply);
      if (subject.set !== "us-cabin" && subject.set !== "iec-cabin") {
        report.notApplicable(subject, "its rule set is not one of cabins");
        continue;
      }
      if (!build.parts.some((p) => p.part.current === "AC")) {
        report.notApplicable(subject, "nothing makes or takes alternating current");
        continue;
      }
      if (rods.length === 0) {
        if (supply.earthed === "unknown") report.cannotTell(subject, [needed("where it meets earth", subject)]);
        else report.fail(subject, "none");
        continue;
      }
      const metal = metalOf(build);
      const pieces = metalPieces(metal, () => true);
      const sources = build.parts.flatMap((p) =>
        p.elements.some((e) => e.is === "source" || (e.is === "converter" && e.outCurrent === "AC"))
          ? [metal.caseOf(p.id)]
          : [],
      );
      const nodes = rods.map((r) => metal.nodeOf(`${r.id}:pole`));
      const joined = nodes.some((n) => n >= 0 && sources.some((s) => s >= 0 && pieces[s] === pieces[n]));
      if (!joined) report.fail(subject, "loose", { words: { others: rods.map((r) => r.id).join(", ") } });
      else report.pass(subject);
      for (const rod of rods) {
        judgeLeads(rod);
        if (subject.set === "iec-cabin") judgeResistance(rod);
      }

      function judgeLeads({ id }: PartView): void {
        const node = metal.nodeOf(`${id}:pole`);
        for (const e of metal.at[node] ?? []) {
          const view = metal.edges[e]?.view;
          if (view === undefined) continue;
          const size = view.circuit.size === "unknown" ? undefined : view.circuit.size;
          const area = view.design.size?.areaMm2 ?? size?.areaMm2;
          const about = view.subject.set === null ? { ...view.subject, set: subject.set } : view.subject;
          if (area === undefined) {
            if (view.circuit.size === "unknown") report.cannotTell(about, [needed("its size", about)]);
            else report.notApplicable(about, "its size is not stated");
            continue;
          }
          const said = { measured: area, limit: LEAST_MM2, unit: "mm²", margin: above(area, LEAST_MM2) } as const;
          if (area >= LEAST_MM2 * (1 - 1e-3)) report.pass(about, said);
          else report.fail(about, "thin", said);
        }
      }

      function judgeResistance(rod: PartView): void {
        const about = { ...rod.subject, set: subject.set };
        const ohms = saysFigure(factsOf(rod), "resistance to earth");
        const amps = residualOf(build);
        if (ohms === undefined || amps === null)
          report.notApplicable(
            about,
            ohms === undefined
              ? "its resistance is not stated"
              : "there is no residual device of which the current is stated",
          );
        else if (ohms === "unknown") report.cannotTell(about, [needed("its resistance to earth", about)]);
        else {
          const volts = ohms.low * amps;
          const said = { measured: volts, limit: TOUCH_VOLTS, unit: "V", margin: below(volts, TOUCH_VOLTS) } as const;
          if (volts > TOUCH_VOLTS)
            report.fail(about, "volts", { ...said, words: { residual: { value: amps, unit: "A" } } });
          else if (ohms.high * amps > TOUCH_VOLTS) report.cannotTell(about, [needed("its resistance to earth", about)]);
          else report.pass(about, said);
        }
      }
    }
  },
});

/** The largest residual current that a device of the build opens at; null: none is stated. */
function residualOf({ system }: Build): number | null {
  const all = system.elements.flatMap((e) => (e.is === "residual guard" && e.amps !== "unknown" ? [e.amps.high] : []));
  return all.length === 0 ? null : Math.max(...all);
}
