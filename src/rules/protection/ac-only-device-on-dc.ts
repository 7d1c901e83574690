import { deviceFamily } from "../../device/index.ts";
import { cite } from "../../explain/index.ts";
import { needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { markedParts, tellUnmarked, type Marked } from "./device-marks.ts";

export const acOnlyDeviceOnDc = defineRule({
  id: "protection/ac-only-device-on-dc",
  title: "AC-only device on DC",
  severity: "must",
  danger: "a part for alternating current relies on the zero that direct current never has: its arc burns on",
  why: `A fuse, breaker or switch of a direct-current circuit is marked for direct current. One whose label names alternating current alone, or
    whose family is made for it, fails unless its maker gives direct volts as well.`,
  silent: [
    "alternating current, which is not studied yet",
    "parts on which nothing is stated, and whose family is not named",
    "circuits without a device of their own",
  ],
  sources: [
    { cite: cite("nfpa-70-2023", "240.86", "memory"), sets: ["us-cabin", "us-rv"] },
    { cite: cite("trade-practice", "parts marked for direct current", "practice") },
  ],
  messages: {
    family: "{place}: a {device} is made for alternating current, and no direct volts are stated",
    marked: "{place}: the {device} is marked for alternating current alone",
  },
  cures: ["device-made-for-it"],
  examples: {
    good: [
      {
        says: "a panel breaker",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: 5 A thermal breaker at BP }",
      },
      {
        says: "a breaker marked for both",
        plan: "parts:\n  CB1: { kind: breaker, rated: 10 A, family: MCB C, AC volts: 230 V, DC volts: 48 V }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: CB1 }",
      },
    ],
    bad: [
      {
        says: "a miniature breaker of a house",
        plan: "circuits:\n  W10: { path: BP → lamp, length: 4 m, breaker: 10 A MCB C at BP }",
        fails: "family",
        about: "circuits.W10",
      },
      {
        says: "a switch for alternating current",
        plan: "parts:\n  SW1: { kind: switch, rated: 300 A, for: AC }",
        fails: "marked",
        about: "parts.SW1",
      },
      {
        says: "alternating volts only on the label",
        plan: "parts:\n  SW1: { kind: switch, rated: 300 A, AC volts: 250 V }",
        fails: "marked",
        about: "parts.SW1",
      },
      {
        says: "the label cannot be read",
        plan: "parts:\n  SW1: { kind: switch, rated: 300 A, for: unknown }",
        fails: "cannot tell",
        about: "parts.SW1",
      },
    ],
  },
  judge(build, report) {
    for (const marked of markedParts(build)) judgeOne(marked, report);
    tellUnmarked(build, report);
  },
});

function judgeOne({ subject, part, family, name }: Marked, report: Report<"family" | "marked">): void {
  const { use, dcVolts, acVolts } = part?.marks ?? {};
  const known = family === null ? null : deviceFamily(family);
  const isForDirect =
    use === "DC" || use === "both" || (dcVolts !== undefined && dcVolts !== "unknown" && dcVolts.high > 0);
  const words = { device: name };
  if (use === "AC") report.fail(subject, "marked", { words });
  else if (isForDirect) report.pass(subject);
  else if (use === "unknown" || dcVolts === "unknown") {
    report.cannotTell(subject, [
      needed(`whether its ${name} is for direct current`, part === null ? subject : `parts.${part.id}`),
    ]);
  } else if (acVolts !== undefined) report.fail(subject, "marked", { words });
  else if (known === null) report.notApplicable(subject, "nothing is stated of the current that it is for");
  else if (!known.supplies.includes("DC")) report.fail(subject, "family", { words, source: known.source });
  else if (known.dcVolts === null) {
    report.cannotTell(subject, [
      needed(`the direct volts of its ${name}`, part === null ? subject : `parts.${part.id}`),
    ]);
  } else report.pass(subject);
}
