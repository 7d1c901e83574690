import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import type { Needed } from "../finding.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { bankFlowsOf } from "./bank-flows.ts";
import { banksOf, type Bank } from "./banks.ts";
import { tellLoads } from "./tell-loads.ts";
import { limitsOf, many, type LimitFor } from "./unit-limits.ts";

const limited = (peak: string): string =>
  `chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, management: { continuous: 200 A, ${peak} }`;
const inverter = (surge: string): string => `  INV: { kind: inverter, rated: 1 kVA, efficiency: 90 %, ${surge} }`;
const lead = "circuits:\n  W20: { path: BP → INV:in, length: 1 m }";

export const surgeAboveManagementLimit = defineRule({
  id: "battery/surge-above-management-limit",
  title: "Surge above the limit of the management",
  severity: "must",
  danger: "the bank switches itself off at the moment the kettle or the pump is switched on",
  why: `Each inverter at its surge, which takes its VA ÷ (efficiency × the volts it has left), and beside it the load whose start adds most. The volts left are those
    at its terminals while it surges: banks at their lowest charge, less what batteries, conductors, devices and contacts lose to that very current; with one
    unit off they are lower still. The message says what they come to. What each unit gives then, as its bank divides it, may not exceed the peak that its management lets through for that long; beyond the time of the peak,
    what it lets through for long. With one unit of several switched off the others should bear it.`,
  silent: [
    "batteries without a management, whose maker states no limits",
    "banks on which no inverter hangs and nothing starts",
  ],
  sources: [{ cite: cite("trade-practice", "limits of the makers of batteries, for each unit", "practice") }],
  messages: {
    surge: "{place} gives {measured} ({state}{left}); its management lets {limit} through for so long",
    lost: "{place} gives {measured} ({state}{left}) with {off} switched off; its management lets {limit} through for so long",
  },
  cures: ["another-unit", "stagger"],
  examples: {
    good: [
      { says: "a small start", plan: "" },
      {
        says: "within the peak",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: 300 A, peak time: 5 s")} }\n${inverter("surge: 2.5 kVA, surge time: 2 s")}\n${lead}`,
      },
      {
        says: "within what it lets through for long, whatever the peak",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: unknown")} }\n${inverter("surge: 1.5 kVA")}\n${lead}`,
      },
    ],
    bad: [
      {
        says: "above the peak",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: 300 A, peak time: 5 s")} }\n${inverter("surge: 4 kVA, surge time: 2 s")}\n${lead}`,
        fails: "surge",
        about: "parts.B1",
      },
      {
        says: "for longer than the peak",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: 300 A, peak time: 1 s")} }\n${inverter("surge: 2.5 kVA, surge time: 2 s")}\n${lead}`,
        fails: "surge",
        about: "parts.B1",
      },
      {
        says: "two units that can share what one alone cannot bear",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: 300 A")} }\n  B2: { kind: battery, ${limited("peak: 300 A")} }\n${inverter("surge: 4 kVA")}\n${lead}\n  W21: { path: B2 → SW1, length: 0.8 m }\n  W22: { path: B2:− → BN, length: 0.6 m }`,
        fails: "lost",
        about: "parts.B1",
      },
      {
        says: "nobody knows the peak",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: unknown")} }\n${inverter("surge: 4 kVA")}\n${lead}`,
        fails: "cannot tell",
        about: "parts.B1",
      },
      {
        says: "nobody knows the surge",
        plan: `parts:\n  B1: { kind: battery, ${limited("peak: 300 A")} }\n${inverter("surge: unknown")}\n${lead}`,
        fails: "cannot tell",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    const { stores } = build.settled.model.grid;
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const own = bank.units.flatMap((i) => stores[i]?.element ?? []);
      if (own.every((s) => limitsOf(s).out === undefined && s.unit.peakAmps === undefined)) {
        report.notApplicable(subject, "its maker states no limits");
        continue;
      }
      const flows = bankFlowsOf(build);
      const all = flows.surge();
      if (all.length === 0) {
        report.notApplicable(subject, "no inverter hangs on it, and nothing starts");
        continue;
      }
      const open = unknownSurges(build, bank);
      tellLoads(build, report, bank, {
        flows: all,
        without: flows.surge,
        limitFor: peakLimit,
        limit: "the peak",
        beyond: () => "surge",
        lost: "lost",
        // Beyond a surge that nobody knows, a peak that nobody knows counts as well.
        first: open.length > 0 ? [...open, ...unknownPeaks(bank)] : [],
        last: [],
      });
    }
  },
});

/** What it lets through for as long as a surge lasts: no less than for long, whatever the peak. */
const peakLimit: LimitFor = (store, { amps, charging, flow }) => {
  const { out } = limitsOf(store);
  const { peakAmps, peakSeconds } = store.unit;
  const peak = peakAmps === undefined && out !== undefined ? "unknown" : many(peakAmps, store.strings);
  if (charging) return { limit: undefined, fact: "" };
  const steady = out === undefined || out === "unknown" ? null : out;
  if (steady !== null && amps <= steady.low)
    return { limit: peak === undefined || peak === "unknown" ? steady : peak, fact: "" };
  if (peakSeconds === "unknown")
    return { limit: "unknown", fact: `how long the management of ${store.part} bears its peak` };
  if (peakSeconds !== undefined && (flow.seconds ?? 0) > peakSeconds.high)
    return { limit: out, fact: `what the management of ${store.part} lets through for long` };
  return { limit: peak, fact: `the peak of the management of ${store.part}` };
};

/** Inverters on a bank of which nobody says what they can surge to. */
function unknownSurges(build: Build, bank: Bank): readonly Needed[] {
  return build.settled.model.grid.draws.flatMap(({ inverter, plus, minus }) => {
    if (inverter === null || (inverter.surgeWatts !== undefined && inverter.surgeWatts !== "unknown")) return [];
    if (bank.pieces[plus] !== bank.plus || bank.pieces[minus] !== bank.minus) return [];
    return [needed(`the surge of ${inverter.part}`, build.part(inverter.part)?.subject ?? `parts.${inverter.part}`)];
  });
}

const unknownPeaks = (bank: Bank): readonly Needed[] =>
  bank.parts.flatMap(({ id, subject, elements }) => {
    const store = elements.find((e) => e.is === "store");
    const peak = store?.unit.peakAmps;
    return peak === undefined || peak === "unknown" ? [needed(`the peak of the management of ${id}`, subject)] : [];
  });
