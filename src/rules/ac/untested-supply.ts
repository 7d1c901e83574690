import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";
import { inletsOf } from "./inlets.ts";

const park = (inlet: string, parts = ""): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: us-rv NEC 2023 }\nsystems:\n  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }\nparts:\n  INL: { kind: shore inlet, rated: 30 A, breaker: 15 A 2-pole${inlet} }${parts}\n  CU: { kind: consumer unit, main: breaker 15 A 2-pole, ways: { 1: breaker 15 A 2-pole } }\n  kettle: { kind: load, rated: 1 kW }\ncircuits:\n  W20: { path: INL → CU:in, length: 1 m }\n  W21: { path: CU:1 → kettle, length: 3 m }`;
const ADAPTER = "\n  A1: { kind: adapter, upstream: 15 A, rated: 15 A }";

export const untestedSupply = defineRule({
  id: "ac/untested-supply",
  title: "Untested supply",
  severity: "should",
  danger:
    "an outlet that is wired for twice the volts kills all that is plugged in, and one with a false earth makes the skin live",
  why: `Before a supply is let in somebody measures its volts, its polarity and its earth, or a device does and keeps it out. A tester with three lamps does not find a false earth. Where the plan
    names adapters, it meets supplies that it was not made for.`,
  silent: ["inlets of which the plan says nothing, and no adapter is named"],
  sources: [{ cite: cite("trade-practice", "a supply is measured before it is let in", "practice") }],
  messages: {
    untested: "{place}: nobody measures a supply before it is let in",
    adapters: "{place} is plugged into other supplies by {adapter}, and nothing says that they are measured first",
  },
  cures: ["measure-first"],
  examples: {
    good: [
      { says: "measured first", plan: park(", tested first: yes", ADAPTER) },
      { says: "no adapter, and nothing said", plan: park("") },
    ],
    bad: [
      { says: "not measured", plan: park(", tested first: no"), fails: "untested", about: "parts.INL" },
      { says: "an adapter, and nothing said", plan: park("", ADAPTER), fails: "adapters", about: "parts.INL" },
      { says: "nobody knows", plan: park(", tested first: unknown"), fails: "cannot tell", about: "parts.INL" },
    ],
  },
  judge(build, report) {
    const adapter = build.parts.find((p) => p.part.kind === "adapter");
    for (const { view } of inletsOf(build)) {
      const { subject } = view;
      const tested = saysYes(factsOf(view), "tested first");
      if (tested === true) report.pass(subject);
      else if (tested === false) report.fail(subject, "untested");
      else if (tested === "unknown")
        report.cannotTell(subject, [needed("whether a supply is measured first", subject)]);
      else if (adapter !== undefined) report.fail(subject, "adapters", { words: { adapter: adapter.id } });
      else report.notApplicable(subject, "the plan says nothing of it, and names no adapter");
    }
  },
});
