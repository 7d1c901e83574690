import { cite } from "../../explain/index.ts";
import { isBoat } from "../battery/batteries.ts";
import { above, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { isolatorsOf } from "./isolators.ts";

/** A boat with an isolator in its shore earth. */
export const isolated = (isolator: string, set = "iso-small-craft 2020+A1:2022", inlet = "rated: 16 A"): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, ${inlet}, breaker: 16 A 2-pole }\n  GI: { kind: galvanic isolator${isolator} }\n  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2 }, ways: { 1: breaker 10 A 2-pole } }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m, in PE: GI }\n  W21: { path: CU:1 → kettle, length: 3 m }`;

export const undersizedGalvanicIsolator = defineRule({
  id: "ac/undersized-galvanic-isolator",
  title: "Undersized galvanic isolator",
  severity: { otherwise: "note", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger: "it burns open in a fault, at the moment when the earth wire has to save a life",
  why: `A galvanic isolator stands in the protective conductor of the shore: its continuous rating is that of the inlet behind which it stands, or more, so that it bears the fault until the
    breaker of the shore opens. Whether it passed the fault test of its standard is for its maker to say.`,
  silent: ["what is not afloat"],
  sources: [
    { cite: cite("abyc-a-28", "continuous and fault ratings", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "an isolator of the rating of its shore supply", "practice") },
  ],
  messages: {
    small: "{place} is made for {measured}, and {inlet} lets {limit} in",
  },
  cures: ["larger-part"],
  examples: {
    good: [
      { says: "one of 16 A behind an inlet of 16 A", plan: isolated(", rated: 16 A, fail-safe: yes") },
      { says: "no isolator", plan: "" },
    ],
    bad: [
      {
        says: "one of 10 A behind an inlet of 16 A",
        plan: isolated(", rated: 10 A, fail-safe: yes"),
        fails: "small",
        about: "parts.GI",
      },
      {
        says: "one of no stated rating",
        plan: isolated(", fail-safe: yes"),
        fails: "cannot tell",
        about: "parts.GI",
      },
    ],
  },
  judge(build, report) {
    for (const { view, inlets } of isolatorsOf(build)) {
      const { subject } = view;
      const { rated } = view.part;
      const [largest] = [...inlets].sort((a, b) => (b.amps ?? Infinity) - (a.amps ?? Infinity));
      if (!isBoat(subject.set)) report.notApplicable(subject, "its rule set is not one of boats");
      else if (largest === undefined) report.notApplicable(subject, "no inlet leads through it");
      else if (rated === undefined || rated === "unknown" || rated.origin === "unknown")
        report.cannotTell(subject, [needed("its rating", subject)]);
      else if (largest.amps === null)
        report.cannotTell(subject, [needed(`the rating of ${largest.view.id}`, largest.view.subject)]); // prettier-ignore
      else {
        const limit = largest.amps;
        const said = { measured: rated.low, limit, unit: "A", margin: above(rated.low, limit) } as const;
        if (rated.low < limit) report.fail(subject, "small", { ...said, words: { inlet: largest.view.id } });
        else report.pass(subject, said);
      }
    }
  },
});
