import { cite } from "../../explain/index.ts";
import type { PartView } from "../build.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, saysWord } from "../stated.ts";

/** m, 6 ft 7 in: the highest place of a handle. */
const HIGHEST = 2;

const board = (facts: string, rules = ""): string =>
  `${rules}parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes${facts} }`;
const CABIN = "rules: { DC: us-cabin NEC 2023 }\n";

export const unreachableDevice = defineRule({
  id: "protection/unreachable-device",
  title: "Unreachable device",
  severity: { otherwise: "should", sets: { "us-cabin": "must" } },
  danger: "nobody can switch the circuit off in smoke",
  why: `Devices, and the boards that hold them, are reached with a hand, without a tool. In American buildings the handle at its highest stands no higher
    than 2.0 m above the floor. Whether it stands in a bathroom is not looked at.`,
  silent: ["devices and boards of which the plan does not say how they are reached"],
  sources: [
    { cite: cite("nfpa-70-2023", "240.24", "read"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("abyc-e-11", "devices readily accessible", "memory") },
  ],
  messages: {
    tool: "{place} is reached only with a tool",
    high: "{place}: its handle stands {measured} above the floor; {limit} is the highest",
  },
  cures: ["within-reach"],
  examples: {
    good: [
      { says: "by hand, at eye level", plan: board(", reach: by hand, height: 1.6 m", CABIN) },
      { says: "the plan does not say", plan: board("") },
    ],
    bad: [
      { says: "behind a screwed cover", plan: board(", reach: with a tool"), fails: "tool", about: "parts.PNL" },
      { says: "under the ceiling", plan: board(", height: 2.3 m", CABIN), fails: "high", about: "parts.PNL" },
      { says: "nobody knows", plan: board(", reach: unknown"), fails: "cannot tell", about: "parts.PNL" },
    ],
  },
  judge(build, report) {
    for (const view of build.parts) {
      const { traits } = view.part;
      if (traits.guards !== undefined || (traits.distributes === true && traits.dropUse === "panel feeder")) {
        judgePart(view, report);
      }
    }
  },
});

function judgePart(view: PartView, report: Report<"tool" | "high">): void {
  const { subject } = view;
  const facts = factsOf(view);
  const reach = saysWord(facts, "reach", ["by hand", "with a tool"]);
  const height = saysFigure(facts, "height");
  const isHeld = subject.set === "us-cabin";
  if (reach === "with a tool") report.fail(subject, "tool");
  else if (isHeld && typeof height === "object" && height.low > HIGHEST) {
    report.fail(subject, "high", {
      measured: height.low,
      limit: HIGHEST,
      unit: "m",
      margin: below(height.low, HIGHEST),
    });
  } else if (reach === "unknown") report.cannotTell(subject, [needed("how it is reached", subject)]);
  else if (isHeld && (height === "unknown" || (typeof height === "object" && height.high > HIGHEST))) {
    report.cannotTell(subject, [needed("the height of its handle", subject)]);
  } else if (reach === undefined && height === undefined) {
    report.notApplicable(subject, "the plan does not say how it is reached");
  } else report.pass(subject);
}
