import { cite } from "../../explain/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, recordOfFacts, saysFigure, saysYes } from "../stated.ts";
import { airAt } from "./air-at.ts";
import { batteriesOf } from "./batteries.ts";

/** Warmest air in which a battery is charged, °C, where its maker says nothing: custom of the trade. */
const WARMEST = { LFP: 45, lead: 50 } as const;

const inHeat = (more: string): string =>
  `places:\n  beside the engine: { at: [1 m, 0 m, 0 m], zone: engine space }\nparts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, in: beside the engine${more} }`;

export const overheatedBattery = defineRule({
  id: "battery/overheated-battery",
  title: "Overheated battery",
  severity: "should",
  danger: "every 10 K of heat halve the life of a battery; beyond its limit it fails, and lead can run away",
  why: `The warmest air around a battery is no warmer than its management charges in, or its maker allows; else 45 °C for LFP and 50 °C for lead. No
    battery stands in an engine space unless its maker allows it: \`allowed in engine space: yes\`. Beyond a limit that its maker states it is a must
    for lithium under us-small-craft.`,
  silent: ["engine spaces that the battery's place does not name"],
  sources: [
    { cite: cite("abyc-e-13", "temperature limits", "article"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "no battery in the heat of an engine", "practice") },
  ],
  messages: {
    hot: "{place} stands in {measured}; {limit} is the most",
    engine: "{place} stands in {zone}, an engine space, and its maker is not said to allow it",
  },
  cures: [],
  examples: {
    good: [
      { says: "in the cool", plan: "" },
      { says: "in the engine space, as its maker allows", plan: inHeat(", allowed in engine space: yes") },
    ],
    bad: [
      { says: "in the engine space", plan: inHeat(""), fails: "engine", about: "parts.B1" },
      {
        says: "warmer than its management charges in",
        plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, ambient: 55 °C, management: { continuous: 200 A, charging below: 50 °C } }",
        fails: "hot",
        about: "parts.B1",
      },
      {
        says: "nobody knows what its maker allows",
        plan: inHeat(", allowed in engine space: unknown"),
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const { view, store } of batteriesOf(build)) {
      const { subject } = view;
      const facts = factsOf(view);
      const stated = saysFigure(recordOfFacts(facts, "management", ["charging below"]), "charging below");
      const allowed = saysYes(facts, "allowed in engine space");
      const { highest, isEngineSpace, zone } = airAt(build, view);
      const limit = stated === undefined || stated === "unknown" ? WARMEST[store.curve] : stated.low;
      const measured = { measured: highest, limit, unit: "°C", margin: below(highest, limit) } as const;
      const isMust = subject.set === "us-small-craft" && store.curve === "LFP" && typeof stated === "object";
      if (highest > limit && stated === "unknown")
        report.cannotTell(subject, [needed("up to which temperature it charges", subject)], measured);
      else if (highest > limit)
        report.fail(subject, "hot", { ...measured, severity: isMust ? "must" : "should", trust: "practice" });
      else if (isEngineSpace && allowed === "unknown")
        report.cannotTell(subject, [needed("whether its maker allows an engine space", subject)]);
      else if (isEngineSpace && allowed !== true) report.fail(subject, "engine", { words: { zone: zone ?? "" } });
      else report.pass(subject, measured);
    }
  },
});
