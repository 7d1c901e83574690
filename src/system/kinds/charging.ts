import { quantity, quantityIn, yesNo, type Fact } from "../../plan/index.ts";
import type { Default, FactReader } from "../fact-reader.ts";
import { exactly, type Value } from "../value.ts";

/** Charging volts assumed where none are stated. */
export function chargingVolts(nominal: number): Default {
  return {
    id: `charging-volts-${nominal}`,
    value: (14.4 * nominal) / 12,
    says: `charging sources hold ${Number(((14.4 * nominal) / 12).toFixed(1))} V on a ${nominal} V system`,
    trust: "practice",
    pin: "charging volts",
  };
}

/** Keys of whatever charges. */
export const chargerFacts = {
  output: { value: quantityIn(["current", "power"]), doc: "Rated charging output." },
  "charging volts": { value: quantity("voltage", { above: 0 }), doc: "Volts that it holds; else 14.4 V per 12 V." },
  "self-limited": { value: yesNo(), doc: "`no`: it can push more than its rating into a fault." },
} as const;

/** What a charging source of any kind may say of how it treats its battery. */
export const treatment = {
  "temperature sensor": { value: yesNo(), doc: "`yes`: it reads the temperature of what it charges, or its own." },
  "temperature compensation": { value: yesNo(), doc: "`yes`: it holds fewer volts in heat and more in cold." },
  "equalising volts": {
    value: quantity("voltage", { above: 0 }),
    doc: "Volts to which it equalises; leave out: it does not.",
  },
} as const;

/** Chargers, DC-DC converters and controllers hold their own limit; alternators are asked. */
const SELF_LIMITED = {
  id: "charger-self-limited",
  value: true,
  says: "chargers, DC-DC converters and solar controllers push no more than their rating, also into a fault",
  trust: "practice",
  pin: "self-limited",
} as const;

/** Whether it limits itself, as the plan says or as such things do. */
export const selfLimitedOf = (read: FactReader, fact: Fact<boolean> | undefined): boolean | "unknown" =>
  read.flag(fact, "self-limited", SELF_LIMITED);

/** Output amps, whether written in amps or in watts. */
export function outputAmps(
  read: FactReader,
  fact: Fact<{ readonly low: number; readonly high: number; readonly dimension: string }> | undefined,
  volts: Value,
): Value {
  if (fact === undefined || fact.value === "unknown") {
    read.miss(fact, "output");
    return exactly(0, "unknown");
  }
  const { low, high, dimension } = fact.value;
  return dimension === "power"
    ? { low: low / volts.high, high: high / volts.low, origin: "derived" }
    : { low, high, origin: "given" };
}
