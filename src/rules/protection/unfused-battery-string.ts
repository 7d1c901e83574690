import { cite } from "../../explain/index.ts";
import { nameOf } from "../battery/banks.ts";
import { nameSome } from "../battery/name-some.ts";
import { defineRule } from "../rule.ts";
import { sideBySide } from "./bank-devices.ts";

const second = (fuse: string): string =>
  `parts:\n  B2: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: 150 A class T at B1 }\n  W20: { path: B2 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: ${fuse} }\n  W21: { path: B2:− → BN, length: 0.6 m, wire: 50 mm² }`;
const three = "parts:\n  B1: { kind: battery, count: 3, chemistry: AGM, capacity: 100 Ah, short-circuit: 2 kA }";
const TWO_POSTS =
  "parts:\n  B2: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }\ncircuits:\n  W20: { path: B2 → B1, length: 0.3 m, wire: 50 mm², fuse: none }\n  W21: { path: B2:− → BN, length: 0.6 m, wire: 50 mm² }";

/** Ah above which the American standard asks for a device on each battery. */
const LARGE = 500;

export const unfusedBatteryString = defineRule({
  id: "protection/unfused-battery-string",
  title: "Unfused battery string",
  severity: "must",
  danger: "the healthy batteries burn the sick one, and nothing opens between them",
  why: `Where batteries, or strings of them, stand side by side, one that fails inside is fed by all the others together. Each has a device of its own
    before it meets the others, which opens what they push; that it can break so much is judged by protection/weak-interrupt-rating. With two side
    by side it is advice, with three or more a must, and so it is above 500 Ah on American boats. Units that a plan draws as one behind one pair of
    terminals have none, unless it says that they are (\`units fused: yes\`).`,
  silent: ["banks of one unit, or of one string"],
  sources: [
    { cite: cite("abyc-e-11", "11.10.1.4.1 (2025)", "article"), sets: ["us-small-craft"] },
    { cite: cite("own-derivation", "fault in one of several batteries", "derived") },
  ],
  messages: {
    bare: "{place}: with a fault in one unit the others push {measured} into it, and {units} have no device of their own",
  },
  cures: ["device-at-source"],
  examples: {
    good: [
      { says: "each with a fuse at its post", plan: second("150 A class T at B2") },
      { says: "one battery", plan: "" },
      {
        says: "three in one case, each with its own breaker",
        plan: three.replace("count: 3,", "count: 3, units fused: yes,"),
      },
    ],
    bad: [
      { says: "three behind one pair of terminals", plan: three, fails: "bare", about: "parts.B1" },
      { says: "two on one post", plan: TWO_POSTS, fails: "bare", about: "parts.B1" },
      {
        says: "nobody has looked",
        plan: TWO_POSTS.replace("fuse: none", "fuse: unknown, as found: yes"),
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const { bank, count, bare, each, ampHours, needs } of sideBySide(build)) {
      const { subject } = bank.first;
      const measured = (count - 1) * each;
      if (count < 2) report.notApplicable(subject, "one unit, or one string");
      else if (bare.length === 0) report.pass(subject, { measured, unit: "A" });
      else if (needs.length > 0) report.cannotTell(subject, needs, { severity: count > 2 ? "must" : "should" });
      else {
        const isLarge = subject.set === "us-small-craft" && (ampHours ?? 0) > LARGE;
        report.fail(subject, "bare", {
          measured,
          unit: "A",
          severity: count > 2 || isLarge ? "must" : "should",
          words: { place: nameOf(bank), units: bare.length === 1 ? `units of ${bare[0] ?? ""}` : nameSome(bare) },
        });
      }
    }
  },
});
