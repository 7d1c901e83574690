import { cite } from "../../explain/index.ts";
import { airAt } from "../battery/air-at.ts";
import { banksOf, nameOf, type Bank } from "../battery/banks.ts";
import { chargersOf, chargersOfBank } from "../battery/chargers.ts";
import type { Build } from "../build.ts";
import { needed } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysWord, saysYes } from "../stated.ts";

/** Between these a lead battery is charged at one voltage, °C. */
const MILD = { low: 15, high: 30 } as const;

const charged = (sensor: string): string =>
  `parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah, ambient: 0…45 °C }\n  CHG: { kind: charger, output: 20 A${sensor} }\ncircuits:\n  W20: { path: CHG:out → BP, length: 1 m }`;
const regulated = (facts: string): string =>
  `rules: { DC: us-small-craft 2021 }\nparts:\n  ALT: { kind: alternator, rated: 60 A, limit: 40 A, clamp: yes, regulator: external${facts} }\ncircuits:\n  W20: { path: ALT → BP, length: 1 m }`;

export const missingTemperatureSensor = defineRule({
  id: "charging/missing-temperature-sensor",
  title: "Missing temperature sensor",
  severity: "should",
  danger: "lead in a hot locker takes more and more current until it boils: thermal runaway",
  why: `What charges a lead bank that gets colder than 15 °C or warmer than 30 °C reads the bank's temperature. An alternator with an external regulator
    that charges lithium reads its own: a must under us-small-craft.`,
  silent: ["lead in mild air", "chargers of which the plan does not say, where it is only advised"],
  sources: [
    { cite: cite("abyc-e-13", "alternator regulation", "memory"), sets: ["us-small-craft"] },
    { cite: cite("data-sheets", "temperature compensation of lead", "article") },
  ],
  messages: {
    lead: "{place} charges {bank} without a temperature sensor, and its air ranges over {range}",
    regulator: "{place} is held at its output by its regulator, which does not read its temperature",
  },
  cures: ["temperature-sensor"],
  examples: {
    good: [
      { says: "a sensor on the battery", plan: charged(", temperature sensor: yes") },
      { says: "a sensor in the alternator", plan: regulated(", temperature sensor: yes") },
    ],
    bad: [
      {
        says: "none, in air from frost to heat",
        plan: charged(", temperature sensor: no"),
        fails: "lead",
        about: "parts.CHG",
      },
      {
        says: "a regulator without one",
        plan: regulated(", temperature sensor: no"),
        fails: "regulator",
        about: "parts.ALT",
      },
      { says: "the plan does not say of a regulator", plan: regulated(""), fails: "cannot tell", about: "parts.ALT" },
    ],
  },
  judge(build, report) {
    const banks = banksOf(build).list;
    for (const charger of chargersOf(build)) {
      const { view } = charger;
      const { subject } = view;
      const facts = factsOf(view);
      const sensor = saysYes(facts, "temperature sensor");
      const regulator = saysWord(facts, "regulator", ["internal", "external", "engine computer"]);
      const own = banks.filter((b) => chargersOfBank(build, b).includes(charger));
      const lead = own.find((b) => curveOf(b) === "lead" && !isMild(build, b));
      const isRegulated =
        charger.runsWith === "engine" && regulator === "external" && own.some((b) => curveOf(b) === "LFP");
      const severity = isRegulated && subject.set === "us-small-craft" ? ("must" as const) : ("should" as const);
      if (lead === undefined && !isRegulated)
        report.notApplicable(subject, "it charges no lead in cold or heat, and is no regulated alternator on lithium");
      else if (sensor === true) report.pass(subject);
      else if (sensor === "unknown" || (sensor === undefined && severity === "must"))
        report.cannotTell(subject, [needed("whether it reads a temperature", subject)], { severity });
      else if (sensor === undefined) report.notApplicable(subject, "the plan does not say, and it is only advised");
      else if (isRegulated) report.fail(subject, "regulator", { severity });
      else if (lead !== undefined) {
        const { lowest, highest } = airAt(build, lead.first);
        const range = typeof lowest === "number" ? `${lowest}…${highest} °C` : `up to ${highest} °C`;
        report.fail(subject, "lead", { words: { bank: nameOf(lead), range } });
      }
    }
  },
});

const curveOf = ({ first }: Bank): string | undefined => first.elements.find((e) => e.is === "store")?.curve;

/** Whether the air around a bank is known to stay mild; where nobody says how cold it gets, its warmth decides. */
function isMild(build: Build, { first }: Bank): boolean {
  const { lowest, highest } = airAt(build, first);
  return highest <= MILD.high && (typeof lowest !== "number" || lowest >= MILD.low);
}
