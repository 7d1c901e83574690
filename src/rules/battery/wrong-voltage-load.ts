import { cite } from "../../explain/index.ts";
import { isUnknown } from "../../plan/index.ts";
import { above, below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { bankVolts } from "./bank-volts.ts";
import { banksOf, nameOf } from "./banks.ts";

/** A label of one of these means a system of that name, not a limit. */
const NAMES = [6, 12, 24, 36, 48];
/** What gear for a nominal voltage bears, and what a bank may have, for every volt of it: custom of the trade. */
const BEARS = 15 / 12;
const BANK = { low: 0.9, high: 1.2 } as const;

const lamp = (volts: string): string => `parts:\n  lamp: { kind: light, running: 2 A, volts: ${volts} }`;

export const wrongVoltageLoad = defineRule({
  id: "battery/wrong-voltage-load",
  title: "Wrong-voltage load",
  severity: "must",
  danger: "gear for 12 V dies at once on 24 V, and slowly on a bar that is charged to 15 V",
  why: `A load whose plan states the volts that it is made for bears the highest charging volts of its system, and runs at its nominal. A range is taken
    as it stands; a label of 12 V, 24 V, 36 V or 48 V means gear for such a system, up to 15 V for every 12 V; any other figure is the most that it
    bears. A bank has the volts of its system: 0.9 to 1.2 times the nominal.`,
  silent: ["loads of which the plan does not state the volts", "alternating-current loads"],
  sources: [{ cite: cite("trade-practice", "gear is made for the volts of its system", "practice") }],
  messages: {
    above: "{place} hangs on a system that reaches {measured} while it charges; it bears {limit}",
    low: "{place} hangs on a system of {measured}; it wants {limit} at least",
    battery: "{place} has {measured}, and its system is one of {limit}",
  },
  cures: ["as-its-system"],
  examples: {
    good: [
      { says: "gear for 12 V", plan: lamp("12 V") },
      { says: "gear for a wide range", plan: lamp("10…32 V") },
    ],
    bad: [
      { says: "gear that bears 14 V", plan: lamp("10…14 V"), fails: "above", about: "parts.lamp" },
      { says: "gear for 24 V", plan: lamp("20…32 V"), fails: "low", about: "parts.lamp" },
      { says: "nobody knows", plan: lamp("unknown"), fails: "cannot tell", about: "parts.lamp" },
      {
        says: "a battery of 24 V in a system of 12 V",
        plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 200 Ah, short-circuit: 3 kA }",
        fails: "battery",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const { subject, part, plan, supply } of build.parts) {
      if (part.traits.load !== true || part.current !== "DC") continue;
      const fact = plan?.facts.volts;
      if (isUnknown(fact)) report.cannotTell(subject, [needed("the volts that it is made for", subject)]);
      else if (fact === undefined || fact.value === "unknown" || supply === undefined)
        report.notApplicable(subject, "the volts that it is made for are not stated");
      else {
        const { low, high } = fact.value;
        const name = low === high && NAMES.includes(high);
        const most = name ? BEARS * high : high;
        const { highestVolts, nominal } = supply;
        if (highestVolts > most)
          report.fail(subject, "above", {
            measured: highestVolts,
            limit: most,
            unit: "V",
            margin: below(highestVolts, most),
          });
        else if ((name || low < high) && nominal < low)
          report.fail(subject, "low", { measured: nominal, limit: low, unit: "V", margin: above(nominal, low) });
        else
          report.pass(subject, { measured: highestVolts, limit: most, unit: "V", margin: below(highestVolts, most) });
      }
    }
    for (const bank of banksOf(build).list) {
      const { subject, supply } = bank.first;
      const volts = bankVolts(build, bank);
      if (supply === undefined) {
        report.notApplicable(subject, "it belongs to no system");
        continue;
      }
      const { nominal } = supply;
      const said = { measured: volts, limit: nominal, unit: "V" } as const;
      if (volts > BANK.high * nominal || volts < BANK.low * nominal)
        report.fail(subject, "battery", { ...said, margin: -1, words: { place: nameOf(bank) } });
      else report.pass(subject, said);
    }
  },
});
