import { cite } from "../../explain/index.ts";
import { awgSize } from "../../wire/index.ts";
import { lacksNumbers } from "../lacks-numbers.ts";
import { defineRule } from "../rule.ts";
import { isStated, unstated } from "./stated-make.ts";

/** Thinnest aluminium that the American code knows, mm². Source: NEC 310.3(A), read. */
const THINNEST = awgSize("12")?.areaMm2 ?? 0;

export const wrongMetal = defineRule({
  id: "conductor/wrong-metal",
  title: "Wrong metal",
  severity: "must",
  danger: "aluminium creeps and corrodes under a terminal made for copper, and the joint burns",
  why: `On boats and vehicles conductors are copper. In buildings aluminium is lawful with its own ampacity, from 12 AWG up, on terminals marked for it:
    that is noted, so that the terminals are looked at.`,
  silent: ["alternating-current circuits, which are not studied yet"],
  alternating: true,
  sources: [
    { cite: cite("33-cfr-183", "183.425(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("iso-10133-2012", "7", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("nfpa-70-2023", "110.14", "read"), sets: ["us-cabin"] },
    { cite: cite("trade-practice", "aluminium needs terminals made for it", "practice") },
  ],
  messages: {
    wrong: "{place} is of {metal}; conductors of this set are of copper",
    conditions:
      "{place} is of {metal}; both its terminals have to be marked for it, and it may not be thinner than 12 AWG",
  },
  cures: ["copper"],
  examples: {
    good: [
      {
        says: "tinned copper",
        plan: "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }",
      },
    ],
    bad: [
      {
        says: "aluminium on a boat",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², metal: aluminium }",
        fails: "wrong",
        about: "circuits.W10",
      },
      {
        says: "aluminium in a cabin, whose terminals want a look",
        plan: "rules: { DC: us-cabin }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 8 AWG, metal: aluminium }",
        fails: "conditions",
        about: "circuits.W10",
      },
      {
        says: "nobody knows the metal",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², metal: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit, ruleSet } = c;
      const isCopper = circuit.metal !== "aluminium";
      const words = { metal: circuit.metal };
      if (c.model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (!isStated(build, c, "metal")) report.cannotTell(subject, [unstated(c, "metal")]);
      else if (isCopper) report.pass(subject);
      else if (lacksNumbers(build, c, report) || ruleSet === null) continue;
      else {
        const { metals } = ruleSet.conductor;
        const isThin = (c.design.size?.areaMm2 ?? Infinity) < THINNEST * (1 - 1e-3);
        if (!metals.value.includes("aluminium")) report.fail(subject, "wrong", { source: metals.source, words });
        else report.fail(subject, "conditions", { severity: isThin ? "must" : "note", words });
      }
    }
  },
});
