import { cite } from "../../explain/index.ts";
import { sayMover } from "../../switching/index.ts";
import { nameSome } from "../battery/name-some.ts";
import { isBoat } from "../battery/batteries.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { oneSource } from "./example-plans.ts";
import { sourcesOf } from "./fed.ts";
import { reachOf } from "./reach.ts";
import { singlePoleWays } from "./single-pole-ways.ts";
import { alternatingPart } from "./switching-of.ts";
import { alternates } from "./tell-states.ts";

const boat = (inlet: string, poles = ""): string =>
  oneSource({
    set: "us-small-craft ABYC E-11",
    parts: {
      INL: `kind: shore inlet, rated: 16 A${inlet}`,
      CU: `kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A${poles} }`,
    },
  });

export const missingPolarityGuard = defineRule({
  id: "ac/missing-polarity-guard",
  title: "Missing polarity guard",
  severity: { otherwise: "note", sets: { "us-small-craft": "must", "iso-small-craft": "must" } },
  danger: "with line and neutral exchanged ashore, what is switched off by one pole stays live",
  why: `Breakers of one pole in branches open the line only as long as the plug brings it where it is expected. Something aboard shows when it does not, or every branch opens both poles, or a transformer makes the line
    anew.`,
  silent: [
    "sets other than those of boats",
    "branches that all open both poles",
    "shore power that comes through a transformer",
    "builds without shore power",
  ],
  sources: [
    { cite: cite("iso-13297-2020", "6.10", "read"), sets: ["iso-small-craft"] },
    { cite: cite("abyc-e-11", "polarity indicator, 25 kΩ", "memory"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "a polarity indicator, or both poles", "practice") },
  ],
  messages: {
    none: "{place}: nothing shows when line and neutral are exchanged ashore, and {ways} open one pole",
  },
  cures: ["polarity-indicator"],
  examples: {
    good: [
      { says: "an indicator", plan: boat(", polarity indicator: yes") },
      { says: "both poles in each branch", plan: boat("", " 2-pole") },
    ],
    bad: [
      { says: "single poles and no indicator", plan: boat(""), fails: "none", about: "parts.INL" },
      {
        says: "nobody knows whether there is one",
        plan: boat(", polarity indicator: unknown"),
        fails: "cannot tell",
        about: "parts.INL",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const sources = [...sourcesOf(build).values()];
    const single = singlePoleWays(build);
    const boards = build.parts.filter((p) => p.part.current === "AC" && p.part.traits.distributes === true);
    const inlets = sources.filter((s) => s.kind === "shore");
    if (inlets.length === 0) report.notApplicable(build.whole, "no shore power");
    for (const { id, part } of inlets) {
      const reach = reachOf(build, id);
      const ways = single.filter(reach.mover);
      const subject = alternatingPart(build, part);
      const view = build.part(part);
      const shown = [...(view === undefined ? [] : [view]), ...boards.filter((b) => reach.part(b.id))].map((p) =>
        saysYes(factsOf(p), "polarity indicator"),
      );
      if (!isBoat(subject.set)) report.notApplicable(subject, "its rule set does not ask for it");
      else if (single.length === 0) report.notApplicable(subject, "every branch opens both poles");
      else if (ways.length === 0)
        report.notApplicable(subject, "what it reaches opens both poles, or a transformer makes the line anew");
      else if (shown.includes(true)) report.pass(subject);
      else if (shown.includes("unknown"))
        report.cannotTell(subject, [needed("whether something shows an exchanged line", subject)]);
      else report.fail(subject, "none", { words: { ways: nameSome(ways.map(sayMover)) } });
    }
  },
});
