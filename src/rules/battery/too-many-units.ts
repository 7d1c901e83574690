import { cite } from "../../explain/index.ts";
import { below, needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysCount, type Stated } from "../stated.ts";
import { bankVolts } from "./bank-volts.ts";
import { banksOf, nameOf } from "./banks.ts";

const rack = (more: string): string =>
  `systems:\n  DC: { kind: DC, nominal: 48 V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 100 Ah, short-circuit: 3 kA, in series: 4${more} }\n  lamp: { kind: light, running: 2 A }\n  fridge: { kind: load, running: 1 A }`;

export const tooManyUnits = defineRule({
  id: "battery/too-many-units",
  title: "Too many units",
  severity: "must",
  danger: "the switch inside a unit is made for so many volts: beyond that it fails closed when it has to open",
  why: `No more units of a bank stand in series, or in parallel, than their maker allows. Lithium units in series have switches inside that have to open
    the volts of the whole string, so what is not stated there has to be asked.`,
  silent: [
    "single units",
    "units in parallel, and lead in series, of which the plan does not say what their maker allows",
  ],
  sources: [{ cite: cite("trade-practice", "limits of the makers of batteries", "practice") }],
  messages: {
    series: "{place} has {measured} units in series; its maker allows {limit}",
    parallel: "{place} has {measured} units in parallel; its maker allows {limit}",
  },
  cures: [],
  examples: {
    good: [
      { says: "one unit", plan: "" },
      { says: "four in series, as its maker allows", plan: rack(", most in series: 4") },
    ],
    bad: [
      {
        says: "four in series where two are allowed",
        plan: rack(", most in series: 2"),
        fails: "series",
        about: "parts.B1",
      },
      {
        says: "three in parallel where two are allowed",
        plan: rack(", most in series: 4, count: 3, most in parallel: 2"),
        fails: "parallel",
        about: "parts.B1",
      },
      { says: "the plan does not say", plan: rack(""), fails: "cannot tell", about: "parts.B1" },
    ],
  },
  judge(build, report) {
    for (const bank of banksOf(build).list) {
      const { subject } = bank.first;
      const store = bank.first.elements.find((e) => e.is === "store");
      if (store === undefined) continue;
      const facts = factsOf(bank.first);
      const inside = saysCount(facts, "in series");
      const inSeries =
        Math.max(1, Math.round(bankVolts(build, bank) / store.nominalVolts)) *
        (typeof inside === "number" ? inside : 1);
      const inParallel = Math.max(...bank.abreast) * store.strings;
      const series = saysCount(facts, "most in series");
      const parallel = saysCount(facts, "most in parallel");
      const isOver = (n: number, most: Stated<number>): most is number => typeof most === "number" && n > most;
      const isOpen = (n: number, most: Stated<number>): boolean => n > 1 && most === "unknown";
      const words = { words: { place: nameOf(bank) } };
      const said = (n: number, most: number) => ({ measured: n, limit: most, margin: below(n, most) });
      if (isOver(inSeries, series)) report.fail(subject, "series", { ...said(inSeries, series), ...words });
      else if (isOver(inParallel, parallel))
        report.fail(subject, "parallel", { ...said(inParallel, parallel), ...words });
      else if (inSeries === 1 && inParallel === 1) report.notApplicable(subject, "it is one unit");
      else if (isOpen(inSeries, series) || (inSeries > 1 && series === undefined && store.curve === "LFP"))
        report.cannotTell(subject, [needed("how many its maker allows in series", subject)]);
      else if (isOpen(inParallel, parallel))
        report.cannotTell(subject, [needed("how many its maker allows in parallel", subject)]);
      else if (series === undefined && parallel === undefined)
        report.notApplicable(subject, "what its maker allows is not stated");
      else report.pass(subject, typeof parallel === "number" ? said(inParallel, parallel) : {});
    }
  },
});
