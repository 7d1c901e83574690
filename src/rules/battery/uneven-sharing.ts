import { cite } from "../../explain/index.ts";
import type { Build } from "../build.ts";
import { below } from "../report.ts";
import { defineRule } from "../rule.ts";
import { bankFlowsOf, type BankFlow } from "./bank-flows.ts";
import { banksOf, nameOf, type Bank } from "./banks.ts";
import { leadDoubt } from "./lead-doubt.ts";
import { leadsAt, leastOhms, openLengths } from "./lead-ohms.ts";
import { standsAlone } from "./stands-alone.ts";
import { limitsOf, weighUnits } from "./unit-limits.ts";

/** Times its even share that a unit may carry, and from where on it is worth knowing: custom of the trade. */
const MOST = 1.1;
const WORTH_KNOWING = 1.05;

const unit = "kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, resistance: 2 mΩ";
const second = (limits: string, from: string, link: string, back: string): string =>
  `parts:\n  B1: { ${unit}${limits} }\n  B2: { ${unit}${limits} }\n  lamp: { kind: light, running: 100 A }\ncircuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 50 mm², fuse: none }\n  W03: { path: B1:− → BN, length: 0.8 m, wire: 50 mm² }\n  W20: { path: B2 → ${from}, length: ${link}, wire: 50 mm², fuse: none }\n  W21: { path: B2:− → ${back}, length: ${link}, wire: 50 mm² }`;

export const unevenSharing = defineRule({
  id: "battery/uneven-sharing",
  title: "Uneven sharing",
  severity: "should",
  danger: "one unit ages or trips first, and the others follow",
  why: `At the greatest current of a bank no unit may carry more than 1.10 times its even share of it; from 1.05 times on it is worth knowing. The
    currents are solved with every lead, link, joint and device. If a unit then passes the limit of its management, it is a must.`,
  silent: ["banks with nothing abreast", "units that stand behind one pair of terminals", "units that are not alike"],
  sources: [{ cite: cite("trade-practice", "no unit more than a tenth above its share", "practice") }],
  messages: {
    uneven:
      "{unit} carries {measured} of the current of {place} ({state}); an even share is {even}, and {limit} the most",
    beyond:
      "{unit} carries {measured} of the current of {place} ({state}), {amps}, beyond its limit; an even share is {even}",
    slight: "{unit} carries {measured} of the current of {place} ({state}), a little above its even share of {even}",
  },
  cures: ["equal-leads", "matched-unit"],
  examples: {
    good: [
      { says: "one battery", plan: "" },
      { says: "two on bars, with equal leads", plan: second("", "SW1", "0.8 m", "BN") },
    ],
    bad: [
      {
        says: "two, both poles taken from the first",
        plan: second("", "B1", "0.6 m", "B1:−"),
        fails: "uneven",
        about: "parts.B1",
      },
      {
        says: "so uneven that one passes its limit",
        plan: second(", management: { continuous: 55 A, peak: 100 A }", "B1", "0.6 m", "B1:−"),
        fails: "beyond",
        about: "parts.B1",
      },
      {
        says: "a little uneven",
        plan: second("", "SW1", "1.2 m", "BN"),
        fails: "slight",
        about: "parts.B1",
      },
      {
        says: "nobody knows one lead",
        plan: `parts:\n  B1: { ${unit} }\n  B2: { ${unit} }\ncircuits:\n  W20: { path: B2 → SW1, length: unknown, wire: 50 mm², fuse: none, as found: yes }\n  W21: { path: B2:− → BN, length: 0.6 m, wire: 50 mm² }`,
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
      const alone = standsAlone(bank, own);
      if (alone !== null) {
        report.notApplicable(subject, alone);
        continue;
      }
      if (own.some((s) => s.curve !== own[0]?.curve || s.nominalVolts !== own[0].nominalVolts)) {
        report.notApplicable(subject, "its units are not alike");
        continue;
      }
      const doubt = leadDoubt(build, bank);
      const at = greatest(build, bank);
      if (doubt.length > 0) report.cannotTell(subject, doubt);
      else if (at === null) report.notApplicable(subject, "nothing draws on it or charges it");
      else {
        const ways = [at.amps, ...shortened(build, bank, at)].map((amps) => mostOf(bank, amps));
        const worst = ways.reduce((a, b) => (b.over > a.over ? b : a));
        const least = Math.min(...ways.map((w) => w.over));
        const said = {
          measured: worst.share,
          limit: (worst.share * MOST) / worst.over,
          unit: "share",
          margin: below(worst.over, MOST),
          state: at.state,
          // A resistance that nobody stated is no measured one.
          trust: own.some((s) => s.ohms.origin === "default") ? "memory" : null,
        } as const;
        const words = {
          place: nameOf(bank),
          unit: bank.parts[worst.unit]?.id ?? "",
          even: { value: worst.share / worst.over, unit: "share" },
        } as const;
        if (worst.over > MOST && least <= MOST) report.cannotTell(subject, openLengths(build, bank), said);
        else if (worst.over > MOST) {
          const amps = beyondItsLimit(build, bank);
          if (amps === null) report.fail(subject, "uneven", { ...said, words });
          else
            report.fail(subject, "beyond", {
              ...said,
              severity: "must",
              words: { ...words, amps: { value: amps, unit: "A" } },
            });
        } else if (least > WORTH_KNOWING) report.fail(subject, "slight", { ...said, severity: "note", words });
        else report.pass(subject, said);
      }
    }
  },
});

/** The condition in which most is drawn from a bank whose units rest at one voltage, else in which most charges it; null: nothing does. */
function greatest(build: Build, bank: Bank): BankFlow | null {
  const total = (flow: BankFlow): number => bank.top.reduce((sum, i) => sum + (flow.amps[i] ?? 0), 0);
  const isLevel = ({ restVolts }: BankFlow): boolean =>
    bank.units.every((i) => restVolts[i] === restVolts[bank.units[0] ?? 0]);
  const level = bankFlowsOf(build).steady.filter((f) => isLevel(f) && Math.abs(total(f)) > 1e-3);
  return level.reduce<BankFlow | null>((most, f) => (most === null || total(f) > total(most) ? f : most), null);
}

interface Most {
  /** Place in the bank. */
  readonly unit: number;
  readonly share: number;
  /** Times its even share. */
  readonly over: number;
}

function mostOf(bank: Bank, amps: Float64Array): Most {
  const total = bank.top.reduce((sum, i) => sum + (amps[i] ?? 0), 0);
  return bank.units.reduce<Most>(
    (most, i, unit) => {
      const share = (amps[i] ?? 0) / total;
      const over = share * (bank.abreast[unit] ?? 1);
      return over > most.over ? { unit, share, over } : most;
    },
    { unit: 0, share: 0, over: 0 },
  );
}

/** The same condition with the leads of each unit in turn as short as they can be, where any length is a range. */
function shortened(build: Build, bank: Bank, flow: BankFlow): readonly Float64Array[] {
  if (openLengths(build, bank).length === 0) return [];
  const { ohms, again } = bankFlowsOf(build);
  return bank.units.map((unit) => {
    const shorter = ohms.slice();
    for (const { model } of leadsAt(build, unit)) for (const e of model?.edges ?? []) shorter[e] = leastOhms(build, e);
    return again(flow, shorter);
  });
}

/** Amps of a unit beyond what it may carry for long; null: none is. */
function beyondItsLimit(build: Build, bank: Bank): number | null {
  const { worst } = weighUnits(build, bank, bankFlowsOf(build).steady, (store, { charging }) => {
    const { out, into } = limitsOf(store);
    return { limit: charging ? into : out, fact: "" };
  });
  return worst !== null && worst.amps > worst.limit.high ? worst.amps : null;
}
