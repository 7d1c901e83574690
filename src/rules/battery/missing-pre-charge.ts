import { cite } from "../../explain/index.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysYes } from "../stated.ts";

/** From these on the capacitors of an inverter take an inrush that welds contacts: custom of the trade. */
const FROM = { volts: 24, voltAmperes: 1000 } as const;

const at24 = (rated: string, facts: string): string =>
  `systems:\n  DC: { kind: DC, nominal: 24 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak: 400 A } }\n  INV: { kind: inverter, rated: ${rated}, surge: 3 kVA${facts} }\n  fridge: { kind: load, running: 2 A }\ncircuits:\n  W20: { path: BP → INV:in, length: 1 m }`;

export const missingPreCharge = defineRule({
  id: "battery/missing-pre-charge",
  title: "Missing pre-charge",
  severity: "should",
  danger:
    "the empty capacitors of the inverter weld the contact that closes on them, or trip the management at switch-on",
  why: `At 24 V and more an inverter of 1 kVA and more has its input filled through a resistor before it is switched on, inside it or beside the switch:
    \`pre-charge: yes\`.`,
  silent: ["inverters of less than 1 kVA, or on less than 24 V: their inrush is small"],
  sources: [{ cite: cite("trade-practice", "pre-charge of large inverters", "practice") }],
  messages: {
    none: "{place} ({measured} at {volts}) is switched straight on: nothing is said to fill its input first",
  },
  cures: ["pre-charge"],
  examples: {
    good: [
      { says: "a small inverter", plan: at24("800 VA", "") },
      { says: "a large one that is filled first", plan: at24("2 kVA", ", pre-charge: yes") },
    ],
    bad: [
      { says: "a large one switched straight on", plan: at24("2 kVA", ""), fails: "none", about: "parts.INV" },
      { says: "nobody knows", plan: at24("2 kVA", ", pre-charge: unknown"), fails: "cannot tell", about: "parts.INV" },
    ],
  },
  judge(build, report) {
    for (const { inverter } of build.settled.model.grid.draws) {
      const view = inverter === null ? undefined : build.part(inverter.part);
      if (inverter === null || view === undefined) continue;
      const { subject } = view;
      const fills = saysYes(factsOf(view), "pre-charge");
      const nominal = inverter.volts.high;
      const rating = inverter.amps.high * nominal;
      if (fills === true) report.pass(subject);
      else if (nominal < FROM.volts || (rating < FROM.voltAmperes && inverter.amps.origin !== "unknown"))
        report.notApplicable(subject, "its inrush is small");
      else if (inverter.amps.origin === "unknown") report.cannotTell(subject, [needed("its rating", subject)]);
      else if (fills === "unknown")
        report.cannotTell(subject, [needed("whether its input is filled before it is switched on", subject)]);
      else
        report.fail(subject, "none", {
          measured: rating,
          unit: "VA",
          words: { volts: { value: nominal, unit: "V" } },
        });
    }
  },
});
