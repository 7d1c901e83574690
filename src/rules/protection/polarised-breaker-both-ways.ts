import { deviceMarks } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { saysYes } from "../stated.ts";
import { edgesOfDevice, factsOfDevice, placeOfFact } from "./device-facts.ts";
import { markedParts, tellUnmarked, type Marked } from "./device-marks.ts";
import { guardsOf } from "./guards.ts";
import { sourcesInWords } from "./look-at-end.ts";

const between = (fact: string): string =>
  `parts:\n  CB1: { kind: breaker, rated: 80 A, for: DC, DC volts: 60 V, reset: manual${fact} }\n  CHG: { kind: charger, output: 30 A, input: 3 A }\ncircuits:\n  W02: { path: SW1 → CB1 → BP, legs: [0.2 m, 0.2 m] }\n  W20: { path: CHG:out → BP, length: 1 m }`;

export const polarisedBreakerBothWays = defineRule({
  id: "protection/polarised-breaker-both-ways",
  title: "Polarised breaker where current goes both ways",
  severity: "must",
  danger: "when current comes from its wrong side a polarised breaker draws the arc into its works and goes on burning",
  why: `The magnet of a polarised breaker blows its arc into the chamber for one direction alone. It may stand only where nothing that pushes is
    found behind it, seen from either side: not between a bank and what charges it, not in the leads of batteries side by side, not where strings
    of modules meet. What can push counts, in whatever state and into a fault as well, not only what flows on a usual day.`,
  silent: [
    "alternating current",
    "fuses, and breakers and switches that open from either side or of which nothing is stated",
    "circuits without a device of their own",
  ],
  sources: [{ cite: cite("trade-practice", "markings of line and load on breakers for direct current", "practice") }],
  messages: {
    bothWays:
      "{place}: the {device} opens one way only, and {sources} can push into it from one side, {others} from the other",
  },
  cures: ["device-made-for-it"],
  examples: {
    good: [
      { says: "one that opens from either side", plan: between(", polarised: no") },
      {
        says: "a polarised one before a load",
        plan: "parts:\n  CB1: { kind: breaker, rated: 10 A, reset: manual, polarised: yes }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: CB1 }",
      },
    ],
    bad: [
      {
        says: "between a bank and its charger",
        plan: between(", polarised: yes"),
        fails: "bothWays",
        about: "parts.CB1",
      },
      {
        says: "nobody has read its label",
        plan: between(", polarised: unknown"),
        fails: "cannot tell",
        about: "parts.CB1",
      },
    ],
  },
  judge(build, report) {
    for (const marked of markedParts(build)) judgeOne(build, marked, report);
    tellUnmarked(build, report);
  },
});

function judgeOne(build: Build, marked: Marked, report: Report<"bothWays">): void {
  const { subject, kind, family, name } = marked;
  if (kind === "fuse") {
    report.notApplicable(subject, "a fuse has no polarity");
    return;
  }
  const usual = family === null ? "by part" : deviceMarks(family).polarised;
  const own = saysYes(factsOfDevice(build, marked), "polarised");
  const isPolarised = own ?? (usual === "by part" ? undefined : usual === "yes");
  if (isPolarised === undefined) {
    report.notApplicable(subject, "nothing says that it opens one way only");
    return;
  }
  if (isPolarised === false) {
    report.pass(subject);
    return;
  }
  const guards = guardsOf(build);
  const sides = edgesOfDevice(build, marked).map((e) => {
    const edge = guards.grid.edges[e];
    if (edge === undefined) return [];
    return [edge.a, edge.b].map((node) => [...new Set(guards.push(node, e, "sure").sources)]);
  });
  const both = sides.find((s) => s.length === 2 && s.every((sources) => sources.length > 0));
  if (both === undefined) report.pass(subject);
  else if (isPolarised === "unknown") {
    report.cannotTell(subject, [needed("whether it is polarised", placeOfFact(marked))]);
  } else {
    const [sources = [], others = []] = both;
    report.fail(subject, "bothWays", {
      words: { device: name, sources: sourcesInWords(sources), others: sourcesInWords(others) },
    });
  }
}
