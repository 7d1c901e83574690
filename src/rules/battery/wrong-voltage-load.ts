import { cite } from "../../explain/index.ts";
import type { InternalElement, Supply } from "../../system/index.ts";
import type { Subject } from "../build.ts";
import { above, below, needed, type Report } from "../report.ts";
import { defineRule } from "../rule.ts";
import { factsOf, saysFigure } from "../stated.ts";
import { bankVolts } from "./bank-volts.ts";
import { banksOf, nameOf } from "./banks.ts";

/** A label of one of these means a system of that name, not a limit. */
const NAMES = [6, 12, 24, 36, 48];
/** What gear for a nominal voltage bears, and what a bank may have, for every volt of it: custom of the trade. */
const BEARS = 15 / 12;
/** Networks hold their nominal volts within a tenth, and gear for a nominal voltage is made for that. */
const NETWORK = 0.1;
const BANK = { low: 0.9, high: 1.2 } as const;

const lamp = (key: "volts" | "rated at", volts: string): string =>
  `parts:\n  lamp: { kind: light, running: 2 A, ${key}: ${volts} }`;

const kettle = (system: string, volts: string): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }\nsystems:\n  AC: { kind: AC, nominal: ${system}, cores: [L, N, PE] }\nparts:\n  INV: { kind: inverter, rated: 3 kVA, neutral–earth join: always }\n  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2 }, ways: { 1: breaker 16 A 2-pole } }\n  kettle: { kind: load, running: 5 A, volts: ${volts} }\ncircuits:\n  W30: { path: BP → INV:in, length: 1 m }\n  W31: { path: INV:out → CU:in, length: 1 m }\n  W32: { path: CU:1 → kettle, length: 3 m }`;

export const wrongVoltageLoad = defineRule({
  id: "battery/wrong-voltage-load",
  title: "Wrong-voltage load",
  severity: "must",
  danger: "gear dies on more volts than it is made for, and on fewer it does not run, or burns its motor",
  dangers: {
    above: "gear for 12 V dies at once on 24 V, and slowly on a bar that is charged to 15 V",
    low: "gear that gets half of its volts does not start, or stalls and heats, and its owner looks for the fault elsewhere",
    high: "on twice its volts a heater gives four times its heat and sets fire to what is near, and electronics burst",
    weak: "on half of its volts a heater gives a quarter of its heat, and a motor that cannot turn burns its winding",
    battery:
      "what hangs on the bus, and the chargers set for it, meet volts that they are not made for: they die, or the battery is overcharged",
  },
  why: `A load whose plan states the volts that it is made for bears the highest charging volts of its system, and runs at its nominal. A range is taken
    as it stands; a label of 12 V, 24 V, 36 V or 48 V means gear for such a system, up to 15 V for every 12 V; any other figure is the most that it
    bears. On alternating current the nominal volts lie within a tenth of those that it is made for, which is what networks are allowed. Where only the volts \`rated at\` which its current is taken are stated, it is
    made for those. A bank has the volts of its system: 0.9 to 1.2 times the nominal.`,
  silent: ["loads of which the plan does not state the volts"],
  sources: [{ cite: cite("trade-practice", "gear is made for the volts of its system", "practice") }],
  messages: {
    above: "{place} hangs on a system that reaches {measured} while it charges; it bears {limit}",
    low: "{place} hangs on a system of {measured}; it wants {limit} at least",
    high: "{place} is made for {stated} and hangs on {measured} of alternating current; it bears {limit}",
    weak: "{place} is made for {stated} and hangs on {measured} of alternating current; it wants {limit} at least",
    battery: "{place} has {measured}, and its system is one of {limit}",
  },
  cures: ["as-its-system"],
  examples: {
    good: [
      { says: "gear for 12 V", plan: lamp("volts", "12 V") },
      { says: "gear for a wide range", plan: lamp("volts", "10…32 V") },
      { says: "a kettle for 230 V", plan: kettle("230 V", "230 V") },
      { says: "an older label on 230 V", plan: kettle("230 V", "220…240 V") },
      { says: "a lamp for two systems, with its amps at 24 V", plan: lamp("rated at", "24 V") },
      {
        says: "a wide input whose current is that at 120 V",
        plan: kettle("230 V", "100…240 V").replace("running:", "rated at: 120 V, running:"),
      },
      { says: "a charger's wide input", plan: kettle("120 V", "100…240 V") },
    ],
    bad: [
      { says: "gear that bears 14 V", plan: lamp("volts", "10…14 V"), fails: "above", about: "parts.lamp" },
      { says: "gear for 24 V", plan: lamp("volts", "20…32 V"), fails: "low", about: "parts.lamp" },
      { says: "a kettle for 120 V on 230 V", plan: kettle("230 V", "120 V"), fails: "high", about: "parts.kettle" },
      { says: "a kettle for 230 V on 120 V", plan: kettle("120 V", "230 V"), fails: "weak", about: "parts.kettle" },
      {
        says: "a kettle whose watts are those at 120 V, on 230 V",
        plan: kettle("230 V", "120 V").replace("volts:", "rated at:"),
        fails: "high",
        about: "parts.kettle",
      },
      {
        says: "nobody knows what a kettle is for",
        plan: kettle("230 V", "unknown"),
        fails: "cannot tell",
        about: "parts.kettle",
      },
      { says: "nobody knows", plan: lamp("volts", "unknown"), fails: "cannot tell", about: "parts.lamp" },
      {
        says: "a battery of 24 V in a system of 12 V",
        plan: "parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 200 Ah, short-circuit: 3 kA }",
        fails: "battery",
        about: "parts.B1",
      },
    ],
  },
  judge(build, report) {
    for (const view of build.parts) {
      const { subject, part, plan, supply, elements } = view;
      if (part.traits.load !== true) continue;
      // Gear of direct current often takes two voltages, and its amps are told at the one.
      const ratedAt = part.current === "AC" ? saysFigure(factsOf(view), "rated at") : undefined;
      const fact = plan?.facts.volts ?? (ratedAt === undefined ? undefined : { value: ratedAt });
      if (fact?.value === "unknown") report.cannotTell(subject, [needed("the volts that it is made for", subject)]);
      else if (fact === undefined || supply === undefined)
        report.notApplicable(subject, "the volts that it is made for are not stated");
      else if (part.current === "AC") judgeAlternating(subject, fact.value, voltsHere(elements, supply), report);
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

/** Volts between the conductors of a load of alternating current; one on two lines with neutral may have gear for either. */
function voltsHere(elements: readonly InternalElement[], { nominal, cores, phases }: Supply): readonly number[] {
  const draw = elements.find((e) => e.is === "draw");
  if (draw?.is !== "draw") return [nominal];
  const { lines, neutral } = draw.alternating ?? { lines: [] };
  const line = phases === "three" ? nominal / Math.sqrt(3) : cores.includes("L2") ? nominal / 2 : nominal;
  if (neutral === undefined) return [nominal];
  return lines.length > 1 ? [nominal, line] : [line];
}

function judgeAlternating(
  subject: Subject,
  { low, high }: { readonly low: number; readonly high: number },
  volts: readonly number[],
  report: Report<"high" | "weak">,
): void {
  const most = (1 + NETWORK) * high;
  const least = (1 - NETWORK) * low;
  const fits = volts.find((v) => v <= most && v >= least);
  const at = fits ?? volts[0] ?? 0;
  const stated = low === high ? `${low} V` : `${low}…${high} V`;
  const said = { measured: at, unit: "V", words: { stated } } as const;
  if (at > most) report.fail(subject, "high", { ...said, limit: most, margin: below(at, most) });
  else if (at < least) report.fail(subject, "weak", { ...said, limit: least, margin: above(at, least) });
  else report.pass(subject, { measured: at, limit: most, unit: "V", margin: below(at, most) });
}
