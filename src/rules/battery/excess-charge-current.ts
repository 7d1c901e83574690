import { cite } from "../../explain/index.ts";
import type { Store, Value } from "../../system/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { bankFlowsOf } from "./bank-flows.ts";
import { banksOf, type Bank } from "./banks.ts";
import { chargersOfBank } from "./chargers.ts";
import { leadDoubt } from "./lead-doubt.ts";
import { many, placeOf, weighUnits, type Limit, type LimitFor, type Load } from "./unit-limits.ts";

/** Charging current as a share of the capacity in an hour that is usual where a maker states none: `bulk_current_limit` of the battery table. */
const USUAL: Readonly<Record<string, number>> = { LFP: 0.5, AGM: 0.4, gel: 0.2, flooded: 0.2 };

/** A converter to lower volts gives more amps than it takes: so many times, where both sides are of one nominal voltage. */
const MORE_OUT_THAN_IN = 1.25;

const takes = (more: string): string =>
  `chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, peak: 400 A }${more}`;
const charger = (output: string): string =>
  `  CHG: { kind: charger, output: ${output} }\n  MPPT: { kind: solar controller, output: 40 A }\n  PV: { kind: solar module, Voc: 40 V, Vmp: 33 V, Isc: 12 A, rated: 400 W }`;
const wires =
  "circuits:\n  W20: { path: CHG:out → BP, length: 1 m }\n  W21: { path: MPPT:out → BP, length: 1 m }\n  W22: { path: PV → MPPT:in, length: 4 m }";

export const excessChargeCurrent = defineRule({
  id: "battery/excess-charge-current",
  title: "Excess charge current",
  severity: "must",
  danger: "charged too fast, lithium plates metal inside, lead boils and swells",
  why: `All sources that charge a bank, with the engine, on shore and from the sun at once, each at its rating and with no load on, may push no more into any
    unit than its maker's charging limit. Where the maker states none, half the capacity an hour is usual for LFP, two
    fifths for AGM, a fifth for gel and flooded: more than that is worth asking about.`,
  silent: [
    "banks that nothing charges",
    "start batteries whose maker states no limit: they take from their alternator what they accept",
  ],
  sources: [{ cite: cite("data-sheets", "charging current by chemistry", "article") }],
  messages: {
    beyond: "{place} takes {measured} ({state}); its maker allows {limit}",
    usual: "{place} takes {measured} ({state}); its maker states no limit, and {limit} is usual",
  },
  cures: ["less-charge", "another-unit"],
  examples: {
    good: [
      { says: "nothing charges it", plan: "" },
      {
        says: "a charger and the sun within the limit",
        plan: `parts:\n  B1: { kind: battery, ${takes(", charge limit: 100 A")} }\n${charger("50 A")}\n${wires}`,
      },
      {
        says: "a start battery on its alternator",
        plan: "parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A }\n  ALT: { kind: alternator, rated: 80 A }\ncircuits:\n  W20: { path: ALT → SW1:in, length: 1 m }",
      },
    ],
    bad: [
      {
        says: "each within the limit, and both together not",
        plan: `parts:\n  B1: { kind: battery, ${takes(", charge limit: 80 A")} }\n${charger("60 A")}\n${wires}`,
        fails: "beyond",
        about: "parts.B1",
      },
      {
        says: "more than is usual",
        plan: `parts:\n  B1: { kind: battery, ${takes("")} }\n${charger("80 A")}\n${wires}`,
        fails: "usual",
        about: "parts.B1",
      },
      {
        says: "nobody knows the limit",
        plan: `parts:\n  B1: { kind: battery, ${takes(", charge limit: unknown")} }\n${charger("60 A")}\n${wires}`,
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const { stores } = build.settled.model.grid;
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const chargers = chargersOfBank(build, bank);
      const own = bank.units.flatMap((i) => stores[i]?.element ?? []);
      if (chargers.length === 0) {
        report.notApplicable(subject, "nothing charges it");
        continue;
      }
      if (own.every((s) => s.unit.chargingAmps === undefined && s.unit.crankingAmps !== undefined)) {
        report.notApplicable(subject, "a start battery takes what it accepts");
        continue;
      }
      const open = chargers.filter((c) => c.amps.origin === "unknown");
      const unknown = open.map((c) => needed(`the output of ${c.view.id}`, c.view.subject));
      // What such a one takes bounds what it gives; one that states neither gives any current.
      const more = open.reduce((sum, c) => sum + MORE_OUT_THAN_IN * (c.inputAmps?.high ?? Infinity), 0);
      const share = leadDoubt(build, bank).length > 0 ? "even" : "solved";
      const { worst, needs } = weighUnits(build, bank, bankFlowsOf(build).charging(), chargeLimit, null, share);
      const isStated = worst !== null && statesLimit(bank, worst.part);
      if (worst !== null && worst.amps > worst.limit.high)
        report.fail(subject, isStated ? "beyond" : "usual", {
          ...said(worst),
          ...(isStated ? {} : { severity: "should", trust: "article" }),
          words: { place: placeOf(bank, worst) },
        });
      else if (needs.length > 0) report.cannotTell(subject, needs);
      else if (unknown.length > 0 && !(worst !== null && worst.amps + more <= worst.limit.low))
        report.cannotTell(subject, unknown);
      else report.pass(subject, worst === null ? {} : said(worst));
    }
  },
});

const said = ({ amps, limit, state }: Load) =>
  ({ measured: amps, limit: limit.low, unit: "A", margin: below(amps, limit.low), state }) as const;

const statesLimit = (bank: Bank, part: string): boolean =>
  bank.parts.some(
    (p) => p.id === part && p.elements.some((e) => e.is === "store" && e.unit.chargingAmps !== undefined),
  );

const chargeLimit: LimitFor = (store, { charging }) => ({
  limit: charging ? many(store.unit.chargingAmps ?? usualLimit(store), store.strings) : undefined,
  fact: `the charging current that ${store.part} may take`,
});

/** What is usual for its chemistry; undefined where its chemistry or its capacity is not stated. */
function usualLimit({ unit }: Store): Limit {
  const share = USUAL[unit.chemistry ?? ""];
  const { capacityCoulombs } = unit;
  if (share === undefined || capacityCoulombs === undefined || capacityCoulombs === "unknown") return undefined;
  const amps = (coulombs: number): number => (share * coulombs) / 3600;
  const value: Value = { low: amps(capacityCoulombs.low), high: amps(capacityCoulombs.high), origin: "default" };
  return value;
}
