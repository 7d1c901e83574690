import { findRow } from "../../explain/index.ts";
import { known } from "../../plan/index.ts";
import { usSmallCraftStranding } from "../../reference/us-small-craft-stranding.ts";
import { isStrands, strandClasses } from "../../wire/index.ts";
import { boughtOf } from "./bought-of.ts";
import { figure } from "../figure.ts";
import { above } from "../report.ts";
import { defineRule } from "../rule.ts";
import { isStated, unstated } from "./stated-make.ts";

/**
 * Class 2 of IEC 60228 and class B of ASTM B8 are laid of 7 strands up to 2 AWG and of 19 from there to 4/0, from memory: fewer than type 2 everywhere.
 */
const COARSE: ReadonlySet<string> = new Set(["class 2", "class B"]);

export const thinlyStrandedConductor = defineRule({
  id: "conductor/thinly-stranded-conductor",
  title: "Thinly stranded conductor",
  severity: "should",
  danger: "few thick strands break sooner where a boat shakes them, and a lean make-up carries less than its label",
  why: `The American small-craft standard lists for each gauge the least copper, and the least number of strands where it is fixed (type 2). What bends
    often is judged by solid-wire-where-it-moves. A label of what was bought that counts its strands is held to the least copper of its gauge.`,
  silent: [
    "rule sets other than us-small-craft",
    "sizes that are no gauge",
    "solid wire, which another rule judges",
    "alternating-current circuits, which are not studied yet",
  ],
  alternating: true,
  sources: [{ cite: usSmallCraftStranding.cite }],
  messages: {
    coarse: "{place} is of {strands}, with fewer strands than the {least} that {size} has as type 2",
    lean: "{place} was bought with {measured} of copper; {size} holds at least {limit}",
  },
  cures: ["stranded"],
  examples: {
    good: [
      {
        says: "boat cable of type 2",
        plan: "rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 12 AWG, strands: type 2 }",
      },
      {
        says: "vehicle gauge, whose copper the table allows",
        plan: 'rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 12 SAE, strands: type 2, bought as: "12 SAE 19/25" }',
      },
      {
        says: "another rule set",
        plan: "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², strands: class 2 }",
      },
    ],
    bad: [
      {
        says: "building wire",
        plan: "rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 12 AWG, strands: class 2 }",
        fails: "coarse",
        about: "circuits.W10",
      },
      {
        says: "14 AWG of a lean catalogue",
        plan: 'rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 14 AWG, strands: type 2, bought as: "14 GA 19/28" }',
        fails: "lean",
        about: "circuits.W10",
      },
      {
        says: "nobody knows the strands",
        plan: "rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 14 AWG, strands: unknown }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const c of build.circuits) {
      const { subject, circuit, model } = c;
      const make = model?.rungs?.ladder.makes[build.settled.chosen.rungs[model.position] ?? 0];
      const strands = isStrands(circuit.strands) ? circuit.strands : "class 5";
      if (model === null) report.notApplicable(subject, "alternating current is not studied yet");
      else if (c.ruleSet?.id !== "us-small-craft")
        report.notApplicable(subject, "only us-small-craft lists the strands of each size");
      else if (!isStated(build, c, "strands") || circuit.size === "unknown" || make === undefined)
        report.cannotTell(subject, [unstated(c, "strands")]);
      else if (strandClasses[strands].isSolid)
        report.notApplicable(subject, "a solid wire: solid-wire-where-it-moves judges it");
      else {
        const { size } = make;
        const isGauge = size.system === "AWG" || size.system === "SAE";
        // For a size that the table does not list its next row down says how few strands are too few; no more is read from it.
        const row = isGauge
          ? findRow(usSmallCraftStranding, size.name)
          : COARSE.has(strands)
            ? (usSmallCraftStranding.rows.findLast((r) => r.areaMm2 <= size.areaMm2) ?? null)
            : null;
        if (row === null) {
          report.notApplicable(subject, "the table of strands lists other sizes");
          continue;
        }
        const label = known(c.plan?.facts["bought as"]);
        const bought = label === undefined ? size : (boughtOf(c, label, make).makes[0]?.make.size ?? size);
        const said = {
          measured: bought.areaMm2,
          limit: row.areaMm2,
          unit: "mm²",
          margin: above(bought.areaMm2, row.areaMm2),
        } as const;
        if (COARSE.has(strands))
          report.fail(subject, "coarse", {
            words: { strands, size: size.label, least: figure(row.type2MinStrands, "count") },
            trust: "memory",
          });
        // The table prints thousandths of a mm²: half of one on its least row, 0.779 mm².
        else if (bought.areaMm2 < row.areaMm2 * (1 - 0.0005 / 0.779))
          report.fail(subject, "lean", { ...said, words: { size: size.label } });
        else report.pass(subject, said);
      }
    }
  },
});
