import { deviceFamily } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { markedParts, tellUnmarked, type Marked } from "./device-marks.ts";

export const selfResettingBreaker = defineRule({
  id: "protection/self-resetting-breaker",
  title: "Self-resetting breaker",
  severity: { otherwise: "should", sets: { "us-small-craft": "must" } },
  danger: "a breaker that closes by itself heats the same fault all night",
  why: `A breaker that has opened stays open until a hand closes it, when the fault has been found. One that resets itself feeds the fault again
    and again. Protectors inside a motor are its maker's affair.`,
  silent: [
    "alternating current, which is not studied yet",
    "fuses and switches",
    "breakers of which nothing is stated",
    "circuits without a device of their own",
  ],
  sources: [
    { cite: cite("33-cfr-183", "183.455(a)", "read"), sets: ["us-small-craft"] },
    { cite: cite("abyc-e-11", "11.10, manual reset", "article") },
  ],
  messages: {
    resets: "{place}: the {device} closes again by itself",
  },
  cures: ["device-made-for-it"],
  examples: {
    good: [
      {
        says: "a breaker with a handle",
        plan: "parts:\n  CB1: { kind: breaker, rated: 10 A, reset: manual }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: CB1 }",
      },
    ],
    bad: [
      {
        says: "one that resets itself, in a line",
        plan: "parts:\n  CB1: { kind: breaker, rated: 10 A, reset: automatic }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: CB1 }",
        fails: "resets",
        about: "circuits.W10",
      },
      {
        says: "one that resets itself, a part on the way",
        plan: "parts:\n  CB1: { kind: breaker, rated: 10 A, reset: automatic }\ncircuits:\n  W10: { path: BP → CB1 → lamp, legs: [0.1 m, 4 m] }",
        fails: "resets",
        about: "parts.CB1",
      },
      {
        says: "nobody knows",
        plan: "parts:\n  CB1: { kind: breaker, rated: 10 A, reset: unknown }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: CB1 }",
        fails: "cannot tell",
        about: "circuits.W10",
      },
    ],
  },
  judge(build, report) {
    for (const marked of markedParts(build)) judgeOne(marked, report);
    tellUnmarked(build, report);
  },
});

function judgeOne({ subject, part, kind, family, name }: Marked, report: Report<"resets">): void {
  if (kind !== "breaker") {
    report.notApplicable(subject, kind === null ? "a switch" : "a fuse is replaced, not reset");
    return;
  }
  const own = part?.marks?.reset;
  const usual = family === null ? null : deviceFamily(family).reset;
  if (own === "unknown") {
    report.cannotTell(subject, [needed("how its breaker is reset", part === null ? subject : `parts.${part.id}`)]);
  } else if (own === "automatic" || (own === undefined && usual === "self")) {
    report.fail(subject, "resets", { words: { device: name } });
  } else if (own === "manual" || usual === "manual") report.pass(subject);
  else report.notApplicable(subject, "how its breaker is reset is not stated");
}
