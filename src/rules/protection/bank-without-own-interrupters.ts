import { cite } from "../../explain/index.ts";
import { nameOf } from "../battery/banks.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { sideBySide } from "./bank-devices.ts";

/** Ah in parallel. */
const LARGE = 500;

const bank = (ampHours: number, fuse: string): string =>
  `parts:\n  B1: { kind: battery, chemistry: AGM, capacity: ${ampHours} Ah, short-circuit: 3 kA }\n  B2: { kind: battery, chemistry: AGM, capacity: ${ampHours} Ah, short-circuit: 3 kA }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: 150 A class T at B1 }\n  W20: { path: B2 → ${fuse} }\n  W21: { path: B2:− → BN, length: 0.6 m, wire: 50 mm² }`;
const OWN = "SW1, length: 0.8 m, wire: 50 mm², sheathed: yes, fuse: 150 A class T at B2";
const NONE = "B1, length: 0.3 m, wire: 50 mm², fuse: none";

export const bankWithoutOwnInterrupters = defineRule({
  id: "protection/bank-without-own-interrupters",
  title: "Bank without interrupters of its own",
  severity: { otherwise: "should", sets: { "us-small-craft": "must" } },
  danger: "a battery that shorts inside is fed by a bank too large for anything behind it to break",
  why: `Above 500 Ah in parallel each battery has its own device of full breaking capacity, before the main device and before it meets the others.
    What each has to break is judged by protection/weak-interrupt-rating.`,
  silent: ["one battery or one string", "banks of up to 500 Ah in parallel: protection/unfused-battery-string"],
  sources: [{ cite: cite("abyc-e-11", "11.10.1.4.1 (2025)", "article") }],
  messages: {
    without: "{place} has {hours} in parallel, more than 500 Ah, and not each battery has a device of its own",
  },
  cures: ["device-at-source"],
  examples: {
    good: [
      { says: "a device on each post", plan: bank(300, OWN) },
      { says: "no more than 500 Ah", plan: bank(250, NONE) },
    ],
    bad: [
      { says: "600 Ah on one post", plan: bank(300, NONE), fails: "without", about: "parts.B1" },
      {
        says: "nobody knows how large they are",
        plan: bank(300, NONE).replaceAll("capacity: 300 Ah", "capacity: unknown"),
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const { bank: of, count, bare, ampHours, needs } of sideBySide(build)) {
      const { subject } = of.first;
      if (count < 2) report.notApplicable(subject, "one unit, or one string");
      else if (bare.length === 0) report.pass(subject);
      else if (ampHours === null) report.cannotTell(subject, [needed("the capacity of its batteries", subject)]);
      else if (ampHours <= LARGE) report.notApplicable(subject, "no more than 500 Ah in parallel");
      else if (needs.length > 0) report.cannotTell(subject, needs);
      else
        report.fail(subject, "without", {
          words: { place: nameOf(of), hours: `${Number(ampHours.toPrecision(3))} Ah` },
        });
    }
  },
});
