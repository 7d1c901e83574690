import { cite } from "../../explain/index.ts";
import type { Value } from "../../system/index.ts";
import { twelves } from "../battery/bank-volts.ts";
import { banksOf, nameOf, type Bank } from "../battery/banks.ts";
import { chargersOf, chargersOfBank, type Charger } from "../battery/chargers.ts";
import type { Build } from "../build.ts";
import { below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure, saysYes } from "../stated.ts";

/**
 * Volts at which each chemistry is charged, for every 12 V: within a tenth or two of a volt of `absorption_voltage_per_cell_25c` of the battery
 * table, as far as makers differ. From memory.
 */
const WINDOWS: Readonly<Record<string, readonly [number, number]>> = {
  LFP: [13.6, 14.6],
  AGM: [14.1, 14.8],
  gel: [13.8, 14.4],
  flooded: [14.1, 15.0],
};

const charged = (battery: string, charger: string): string =>
  `parts:\n  B1: { kind: battery, ${battery}, capacity: 200 Ah }\n  CHG: { kind: charger, output: 20 A, ${charger} }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }`;

export const mismatchedChargeVoltage = defineRule({
  id: "charging/mismatched-charge-voltage",
  title: "Mismatched charge voltage",
  severity: "must",
  danger: "too many volts dry lead out and make lithium switch itself off; too few never fill it",
  why: `The volts that a charging source is said to hold lie within what the battery's maker wants, else for every 12 V within 13.6…14.6 V for LFP,
    14.1…14.8 V for AGM, 13.8…14.4 V for gel and 14.1…15.0 V for flooded cells. Too few is advice: it never gets full. Lithium is not equalised, and
    no source that charges it changes its volts with temperature.`,
  silent: ["sources whose volts the plan does not state", "chemistries that are not stated"],
  sources: [{ cite: cite("data-sheets", "charging volts by chemistry", "memory") }],
  messages: {
    above: "{place} holds {measured}; {limit} is the most for {bank} ({chemistry})",
    low: "{place} holds {measured}; {bank} ({chemistry}) wants {limit} at least to get full",
    equalises: "{place} equalises to {measured}; {bank} ({chemistry}) bears {limit}",
    compensates: "{place} changes its volts with temperature, which {bank} ({chemistry}) does not bear",
  },
  cures: ["right-volts"],
  examples: {
    good: [
      { says: "nothing charges", plan: "" },
      {
        says: "14.2 V on LFP",
        plan: charged("chemistry: LFP, nominal: 12.8 V, short-circuit: 3 kA", "charging volts: 14.2 V"),
      },
      {
        says: "as the maker of the battery wants",
        plan: charged(
          "chemistry: AGM, charging volts: 14.6…15.0 V",
          "charging volts: 14.9 V, temperature compensation: yes",
        ),
      },
    ],
    bad: [
      {
        says: "gel at 14.8 V",
        plan: charged("chemistry: gel", "charging volts: 14.8 V"),
        fails: "above",
        about: "parts.CHG",
      },
      {
        says: "AGM at 13.5 V",
        plan: charged("chemistry: AGM", "charging volts: 13.5 V"),
        fails: "low",
        about: "parts.CHG",
      },
      {
        says: "lithium that is equalised",
        plan: charged(
          "chemistry: LFP, nominal: 12.8 V, short-circuit: 3 kA",
          "charging volts: 14.2 V, equalising volts: 15.5 V",
        ),
        fails: "equalises",
        about: "parts.CHG",
      },
      {
        says: "lithium charged by temperature",
        plan: charged(
          "chemistry: LFP, nominal: 12.8 V, short-circuit: 3 kA",
          "charging volts: 14.2 V, temperature compensation: yes",
        ),
        fails: "compensates",
        about: "parts.CHG",
      },
      {
        says: "nobody knows the volts",
        plan: charged("chemistry: gel", "charging volts: unknown"),
        fails: "cannot tell",
        about: "parts.CHG",
      },
    ],
  },
  judge(build, report) {
    const banks = banksOf(build).list.map((bank) => ({ bank, chargers: new Set(chargersOfBank(build, bank)) }));
    for (const charger of chargersOf(build)) {
      const own = banks.filter(({ chargers }) => chargers.has(charger));
      if (own.length === 0) report.notApplicable(charger.view.subject, "it charges no battery");
      for (const { bank } of own) judgePair(build, report, charger, bank);
    }
  },
});

type Message = "above" | "low" | "equalises" | "compensates";

function judgePair(build: Build, report: Report<Message>, { view, volts }: Charger, bank: Bank): void {
  const { subject } = view;
  const facts = factsOf(view);
  const store = bank.first.elements.find((e) => e.is === "store");
  const chemistry = store?.unit.chemistry ?? "unknown";
  const times = twelves(build, bank);
  const stated = saysFigure(factsOf(bank.first), "charging volts");
  const usual = WINDOWS[chemistry];
  // What a maker says is of one unit: of a string each has its share.
  const units = times / Math.max(1e-9, (store?.nominalVolts ?? 12) / (store?.curve === "LFP" ? 12.8 : 12));
  const window: Value | undefined =
    stated !== undefined && stated !== "unknown"
      ? { low: stated.low * units, high: stated.high * units, origin: "given" }
      : usual === undefined
        ? undefined
        : { low: usual[0] * times, high: usual[1] * times, origin: "default" };
  const trust = window?.origin === "default" ? ("memory" as const) : null;
  const words = { bank: nameOf(bank), chemistry };
  const held = saysFigure(facts, "charging volts");
  const equalised = saysFigure(facts, "equalising volts");
  const compensates = saysYes(facts, "temperature compensation");
  const isLithium = store?.curve === "LFP";
  if (window === undefined) {
    report.notApplicable(subject, "the chemistry of what it charges is not stated");
    return;
  }
  const said = (measured: number, limit: number) =>
    ({ measured, limit: Number(limit.toFixed(2)), unit: "V", margin: below(measured, limit), trust, words }) as const;
  if (held !== undefined && held !== "unknown" && held.low > window.high + SLACK)
    report.fail(subject, "above", said(held.low, window.high));
  else if (isLithium && typeof equalised === "object" && equalised.high > window.high + SLACK)
    report.fail(subject, "equalises", said(equalised.high, window.high));
  else if (isLithium && compensates === true) report.fail(subject, "compensates", { trust, words });
  else if (held === "unknown") report.cannotTell(subject, [needed("the volts that it holds", subject)]);
  else if (isLithium && (equalised === "unknown" || compensates === "unknown"))
    report.cannotTell(subject, [needed("whether it equalises, or changes its volts with temperature", subject)]);
  else if (held === undefined) report.notApplicable(subject, "the volts that it holds are not stated");
  else if (held.high < window.low - SLACK)
    report.fail(subject, "low", {
      ...said(held.high, window.low),
      margin: held.high / window.low - 1,
      severity: "should",
    });
  else
    report.pass(subject, {
      measured: volts.high,
      limit: window.high,
      unit: "V",
      margin: below(volts.high, window.high),
    });
}

/** Rounding of sums of volts, V. */
const SLACK = 1e-6;
