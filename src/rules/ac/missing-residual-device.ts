import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { defineRule } from "../rule.ts";
import type { RuleSetId } from "../rule-set-id.ts";
import { oneSource, shoreAndInverter } from "./example-plans.ts";
import { isFed, sourcesOf, takersOf } from "./fed.ts";
import { guardsOf, isGuarded, THIRTY, unsureGuard } from "./guarded.ts";
import { alternatingPart, statesOf } from "./switching-of.ts";
import { alternates, tellStates, verdictOn } from "./tell-states.ts";

const ASKS: ReadonlySet<RuleSetId> = new Set<RuleSetId>(["us-small-craft", "iso-small-craft", "iec-caravan", "au-nz-vehicle", "iec-cabin"]); // prettier-ignore

const bare = (main: string): string =>
  `kind: consumer unit, main: { poles: 2, rated: 16 A${main} }, ways: { 1: breaker 10 A 2-pole }`;

export const missingResidualDevice = defineRule({
  id: "ac/missing-residual-device",
  title: "Missing residual device",
  severity: "must",
  danger: "current through a person, or into the water around swimmers, goes on for as long as it can",
  why: `On boats, in caravans and vehicles whatever mains feeds lies behind a residual device of at most 30 mA in all live poles; in an iec-cabin the outlets do. Under us-small-craft the device stands at the main of shore
    power, and an isolation transformer at the inlet may stand in for it. A device counts where it sees leakage: neutral through it, the join of neutral and earth ahead of it. What is asked where you are is for a
    licensed electrician to say.`,
  silent: [
    "us-cabin and us-rv, which ask by the place of the outlet: see unguarded-outlet",
    "us-small-craft: what no shore power feeds, or only through an isolation transformer",
    "iec-cabin: what is no outlet",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.11.1", "read"), sets: ["us-small-craft"] },
    { cite: cite("iec-60364-7-721", "721", "article"), sets: ["iec-caravan"] },
    { cite: cite("iec-60364-4-41", "411.3.3", "article"), sets: ["iec-cabin"] },
    { cite: cite("as-nzs-3001-2-2022", "AS/NZS 3000 2.6.3", "article"), sets: ["au-nz-vehicle"] },
    { cite: cite("iso-13297-2020", "residual devices", "memory"), sets: ["iso-small-craft"] },
    { cite: cite("trade-practice", "30 mA ahead of what people touch", "practice") },
  ],
  messages: {
    bare: "with {state}, no residual device of 30 mA or less that works lies ahead of {place}; the way there: {steps}",
  },
  cures: ["main-guard", "outlet-guard"],
  examples: {
    good: [
      { says: "30 mA in the main", plan: shoreAndInverter() },
      {
        says: "a way of one switched pole, with neutral through its 30 mA",
        plan: oneSource({
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            CU: "kind: consumer unit, main: { poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 30 mA }",
          },
        }),
      },
      {
        says: "an isolation transformer on an American boat",
        plan: oneSource({
          set: "us-small-craft ABYC E-11",
          parts: {
            INL: "kind: shore inlet, rated: 16 A",
            T1: "kind: isolation transformer, rated: 3600 VA, neutral–earth join: always",
            CU: bare(""),
          },
          circuits: { W20: "path: INL → T1:in, length: 1 m", W21: "path: T1:out → CU:in, length: 1 m" },
        }),
      },
      {
        says: "an American cabin, which asks by place",
        plan: oneSource({ set: "us-cabin NEC 2023", parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare("") } }),
      },
    ],
    bad: [
      {
        says: "none",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare("") } }),
        fails: "bare",
        about: "parts.sockets",
      },
      {
        says: "one of 300 mA",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare(", residual device: 300 mA") } }),
        fails: "bare",
        about: "parts.sockets",
      },
      {
        says: "nobody knows at what it opens",
        plan: oneSource({ parts: { INL: "kind: shore inlet, rated: 16 A", CU: bare(", residual device: unknown") } }),
        fails: "cannot tell",
        about: "parts.sockets",
      },
    ],
  },
  judge(build, report) {
    if (!alternates(build, report)) return;
    const guards = guardsOf(build);
    const sources = sourcesOf(build);
    for (const [id, taker] of takersOf(build)) {
      const subject = alternatingPart(build, taker.part);
      const verdict = verdictOn<"bare">(subject);
      verdict.exempt = exemption(build, subject.set, taker.part);
      let some = false;
      for (const state of verdict.exempt === null ? statesOf(build) : []) {
        const at = state.takers.find((t) => t.taker === id);
        if (at === undefined || !isFed(at, taker)) continue;
        const kinds = at.sources.map((s) => sources.get(s)?.kind);
        if (subject.set === "us-small-craft" && !kinds.includes("shore")) continue;
        const is = isGuarded(at, guards, THIRTY);
        if (is === true) some = true;
        else if (is !== false) verdict.needs.push(unsureGuard(is, subject));
        else verdict.faults.push({ message: "bare", state });
      }
      // Guarded with one source and bare with another: the rule of skipped devices tells it.
      tellStates(build, report, [some ? { ...verdict, faults: [] } : verdict]);
    }
  },
});

function exemption(build: Build, set: RuleSetId | null, part: string): string | null {
  if (set === null || !ASKS.has(set)) return "its rule set does not ask for it, or asks by place";
  const isOutlet = build.part(part)?.part.traits.outlet === true;
  return set === "iec-cabin" && !isOutlet ? "it is no outlet" : null;
}
