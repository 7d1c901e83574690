import { count, known, quantity, recordOf, word, yesNo, type Fact, type Measure } from "../../plan/index.ts";
import type { StoreUnit } from "../element.ts";
import { defineKind } from "../kind.ts";
import { givenOrUnknown, present, type Value } from "../value.ts";
import { batteryFitting } from "./battery-fitting.ts";
import { insideResistance } from "./inside-resistance.ts";

const PER_12_V = 12.8;

const management = recordOf(
  {
    continuous: { value: quantity("current", { min: 0 }), doc: "Amps it lets through all the time." },
    peak: { value: quantity("current", { min: 0 }), doc: "Amps it lets through for a short time." },
    "peak time": { value: quantity("time", { min: 0 }), doc: "How long the peak may last." },
    "charging above": { value: quantity("temperature"), doc: "It charges only above this." },
    "charging below": { value: quantity("temperature"), doc: "It charges only below this." },
    warns: { value: yesNo(), doc: "`yes`: people see or hear it before it switches off." },
    "discharging above": { value: quantity("temperature"), doc: "It discharges only above this.", idle: true },
  },
  "limits of the management",
);

export const battery = defineKind({
  name: "battery",
  also: ["accumulator", "house battery", "start battery", "leisure battery"],
  says: "a unit that stores charge, with two terminals",
  symbol: { usual: "battery", several: "battery_bank" },
  facts: {
    chemistry: {
      value: word(["LFP", "AGM", "gel", "flooded"], {
        LiFePO4: "LFP",
        lithium: "LFP",
        "lead-acid": "flooded",
        wet: "flooded",
      }),
      doc: "What it is made of.",
    },
    nominal: { value: quantity("voltage", { above: 0 }), doc: "Nominal volts; else those of its system." },
    count: {
      value: count(1, 500),
      doc: "That many alike in parallel behind one pair of terminals; every figure is that of one.",
    },
    "in series": {
      value: count(1, 40),
      doc: "That many alike in series behind one pair of terminals; every figure is that of one.",
    },
    capacity: { value: quantity("charge", { above: 0 }), doc: "Rated capacity." },
    "short-circuit": {
      value: quantity("current", { above: 0 }),
      doc: "Short-circuit current that the maker declares.",
    },
    cranking: { value: quantity("current", { above: 0 }), doc: "Cold cranking amps." },
    "lowest charge": {
      value: quantity("ratio", { min: 0, max: 1 }),
      doc: "Charge at which it is judged in the worst moment; else 20 %.",
    },
    management: { value: management, doc: "Limits of its battery management system." },
    "charge limit": { value: quantity("current", { min: 0 }), doc: "Greatest charging current." },
    made: { value: count(1950, 2100), doc: "Year it was made; units of one bank should be of one age." },
    "sense wires": { value: word(["yes", "no"]), doc: "Whether it has sense wires.", idle: true },
    // Of a battery without any, a dead short would carry more than any number.
    resistance: { ...insideResistance.resistance, value: quantity("resistance", { above: 0 }) },
    heater: { value: quantity("power", { min: 0 }), doc: "Power of its heater.", idle: true },
    ...batteryFitting,
  },
  traits: () => ({ store: true }),
  ports: () => [{ name: "", current: "DC", shape: "pair" }],
  elements({ part, facts, read, t, nominal }) {
    const chemistry = known(facts.chemistry);
    const curve = chemistry === "LFP" ? "LFP" : "lead";
    if (chemistry === undefined) read.miss(facts.chemistry, "chemistry");
    const series = known(facts["in series"]) ?? 1;
    const strings = known(facts.count) ?? 1;
    if (facts["in series"]?.value === "unknown") read.miss(facts["in series"], "in series");
    if (facts.count?.value === "unknown") read.miss(facts.count, "count");
    const usual = Number(((curve === "LFP" ? lfpNominal(nominal) : nominal) / series).toFixed(2));
    const volts = read.orElse(facts.nominal, {
      id: `battery-nominal-${usual}`,
      value: usual,
      says:
        curve === "LFP"
          ? `an LFP battery that states no nominal volts has 12.8 V for every 12 V of its system: ${usual} V`
          : `a battery that states no nominal volts has those of its system: ${usual} V`,
      trust: "practice",
      pin: "nominal",
    }).low;
    const blocks = volts / (curve === "LFP" ? PER_12_V : 12);
    const ampHours = known(facts.capacity);
    const declared = read.stated(facts["short-circuit"], "short-circuit");
    const cranking = read.stated(facts.cranking, "cranking");

    let ohms: Value;
    let shortCircuitAmps: Value;
    if (facts.resistance !== undefined && facts.resistance.value !== "unknown") {
      ohms = { low: facts.resistance.value.low, high: facts.resistance.value.high, origin: "given" };
      shortCircuitAmps = declared ?? { low: volts / ohms.high, high: volts / ohms.low, origin: "derived" };
    } else if (declared !== undefined) {
      ohms = { low: volts / declared.high, high: volts / declared.low, origin: "derived" };
      shortCircuitAmps = declared;
    } else if (cranking !== undefined) {
      // 7.2 V left after 30 s at this current, from 12.6 V: the definition of the figure.
      ohms = { low: (5.4 * blocks) / cranking.high, high: (5.4 * blocks) / cranking.low, origin: "derived" };
      read.assume({
        id: "fault-by-cranking",
        value: 2.73,
        says: "a battery that declares none gives 2.73 × its cold cranking amps into a short circuit",
        trust: "memory",
        pin: "short-circuit",
      });
      shortCircuitAmps = { low: cranking.low, high: 2.73 * cranking.high, origin: "derived" };
    } else {
      const coulombs =
        ampHours ?? (read.needed(facts.capacity, "capacity", 100 * 3600), { low: 360_000, high: 360_000 });
      const size = 360_000 / coulombs.low;
      const milli = curve === "LFP" ? 3 : 8;
      ohms = read.assume({
        id: `resistance-${curve}-battery`,
        value: (milli / 1000) * size * blocks,
        says: `resistance of ${curve === "LFP" ? "an LFP" : "a lead"} battery ${milli} mΩ × 100 Ah ÷ capacity, for 12 V`,
        trust: "memory",
        pin: "resistance",
      });
      read.assume({
        id: "fault-by-capacity",
        value: 20,
        says: "a battery that declares none gives 20 A for each Ah into a short circuit",
        trust: "memory",
        pin: "short-circuit",
      });
      shortCircuitAmps = { low: 0, high: (20 * coulombs.high) / 3600, origin: "default" };
    }
    const lowest = read.orElse(facts["lowest charge"], {
      id: "lowest-charge",
      value: 0.2,
      says: "batteries judged at their lowest: 20 % charge",
      trust: "practice",
      pin: "lowest charge",
      bounds: [0, 1],
    });
    return [
      {
        is: "store",
        id: part,
        part,
        plus: t("", "+"),
        minus: t("", "−"),
        curve,
        nominalVolts: volts * series,
        ohms: times(ohms, series / strings),
        lowestCharge: lowest,
        shortCircuitAmps: times(shortCircuitAmps, strings),
        strings,
        unit: unitOf(facts),
      },
    ];
  },
});

interface UnitFacts {
  readonly chemistry?: Fact<string>;
  readonly capacity?: Fact<Measure>;
  readonly cranking?: Fact<Measure>;
  readonly made?: Fact<number>;
  readonly "charge limit"?: Fact<Measure>;
  readonly management?: Fact<Readonly<Partial<Record<"continuous" | "peak" | "peak time", Fact<Measure>>>>>;
}

function unitOf(facts: UnitFacts): StoreUnit {
  // Of a management that nobody knows, no limit is known.
  const hidden = facts.management?.value === "unknown";
  const limits = known(facts.management);
  const limit = (key: "continuous" | "peak" | "peak time"): Value | "unknown" | undefined =>
    hidden && key !== "peak time" ? "unknown" : givenOrUnknown(limits?.[key]);
  return present<StoreUnit>({
    chemistry: facts.chemistry?.value,
    capacityCoulombs: givenOrUnknown(facts.capacity),
    crankingAmps: givenOrUnknown(facts.cranking),
    made: facts.made?.value,
    continuousAmps: limit("continuous"),
    peakAmps: limit("peak"),
    peakSeconds: limit("peak time"),
    chargingAmps: givenOrUnknown(facts["charge limit"]),
  });
}

/** Units in series add their resistance, strings in parallel share it. */
const times = (value: Value, factor: number): Value => ({
  low: value.low * factor,
  high: value.high * factor,
  origin: value.origin,
});

/** 12 → 12.8, 24 → 25.6, 48 → 51.2: four cells of 3.2 V for every 12 V. */
const lfpNominal = (system: number): number => Math.round(system / 12) * PER_12_V;
