import { cite } from "../../explain/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import type { ContactAmps } from "./contact-amps.ts";
import { contactAmpsOf } from "./contact-amps.ts";
import { openAmps } from "./open-amps.ts";
import { switchesOf } from "./switches.ts";

const main = (facts: string): string =>
  `parts:\n  SW1: { kind: switch, ${facts} }\n  lamp: { kind: light, running: 60 A }`;

export const undersizedDisconnect = defineRule({
  id: "battery/undersized-disconnect",
  title: "Undersized disconnect",
  severity: "must",
  danger: "a switch that is too small runs hot, is found by its smell, and may weld shut when it is needed",
  why: `A switch carries for long no more than its continuous rating, in every state, with each load alone and with each source at its rating; while
    something starts, no more than its intermittent rating where one is stated. The volts that it can open, where stated, are no less than the
    highest of its system while that charges.`,
  silent: [
    "switches of alternating current, which is not studied yet",
    "intermittent ratings and volts that are not stated",
  ],
  sources: [
    { cite: cite("abyc-e-11", "11.6.1.2", "memory"), sets: ["us-small-craft"] },
    { cite: cite("trade-practice", "no more through a switch than its rating", "practice") },
  ],
  messages: {
    continuous: "{place} carries {measured} for long ({state}); it is rated {limit}",
    intermittent: "{place} carries {measured} while something starts; it is rated {limit} for a short time",
    volts: "{place} can open {limit}; its system reaches {measured} while it charges",
  },
  cures: ["larger-part"],
  examples: {
    good: [
      { says: "a switch of 300 A", plan: "" },
      { says: "as much as it carries", plan: main("rated: 70 A, intermittent: 100 A, DC volts: 16 V") },
    ],
    bad: [
      { says: "60 A through a switch of 50 A", plan: main("rated: 50 A"), fails: "continuous", about: "parts.SW1" },
      {
        says: "a start that is too much for it",
        plan: "parts:\n  SW1: { kind: switch, rated: 50 A, intermittent: 100 A }\n  fridge: { kind: load, running: 20 A, starting: 120 A }",
        fails: "intermittent",
        about: "parts.SW1",
      },
      { says: "a switch for 12 V", plan: main("rated: 100 A, DC volts: 12 V"), fails: "volts", about: "parts.SW1" },
      { says: "nobody knows its rating", plan: main("rated: unknown"), fails: "cannot tell", about: "parts.SW1" },
    ],
  },
  judge(build, report) {
    for (const { part, subject } of build.parts) {
      const { traits, current, positions } = part;
      if (traits.passes === true && traits.guards === undefined && current === "AC" && positions.includes("off"))
        report.notApplicable(subject, "alternating current is not studied yet");
    }
    const switches = switchesOf(build);
    if (switches.length === 0) return;
    const ampsOf = contactAmpsOf(build);
    const { edges } = build.settled.model.grid;
    for (const { view, contacts } of switches) {
      const { part, subject, supply } = view;
      const flows = contacts.map(ampsOf);
      const most = flows.reduce<ContactAmps>((a, b) => (b.steady > a.steady ? b : a), {
        steady: 0,
        state: "",
        start: 0,
      });
      const start = Math.max(0, ...flows.map((f) => f.start));
      const volts = part.marks?.dcVolts;
      const highest = supply?.highestVolts ?? 0;
      const { rated, intermittent } = part;
      const steady = (limit: number) =>
        ({
          measured: most.steady,
          limit,
          unit: "A",
          margin: below(most.steady, limit),
          state: most.state || null,
        }) as const;
      const isOpen = volts !== undefined && volts !== "unknown" && highest > volts.high;
      if (isOpen)
        report.fail(subject, "volts", {
          measured: highest,
          limit: volts.high,
          unit: "V",
          margin: below(highest, volts.high),
        });
      if (intermittent !== undefined && intermittent !== "unknown" && start > intermittent.high)
        report.fail(subject, "intermittent", {
          measured: start,
          limit: intermittent.high,
          unit: "A",
          margin: below(start, intermittent.high),
        });
      const open = openAmps(build, edges[contacts[0] ?? -1]?.a ?? -1);
      const needs = [
        ...(rated === undefined || rated === "unknown" ? [needed("its continuous rating", subject)] : []),
        ...(intermittent === "unknown" ? [needed("its rating for a short time", subject)] : []),
        ...(volts === "unknown" ? [needed("the volts that it can open", subject)] : []),
      ];
      if (rated !== undefined && rated !== "unknown" && most.steady > rated.high)
        report.fail(subject, "continuous", steady(rated.high));
      else if (needs.length > 0) report.cannotTell(subject, needs);
      else if (rated === undefined || rated === "unknown") continue;
      else if (most.steady > rated.low)
        report.cannotTell(subject, [needed("its continuous rating, closer", subject)], steady(rated.low));
      else if (open.length > 0) report.cannotTell(subject, open);
      else report.pass(subject, steady(rated.low));
    }
  },
});
