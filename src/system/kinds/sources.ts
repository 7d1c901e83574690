import { known, quantity, word, yesNo } from "../../plan/index.ts";
import type { Default } from "../fact-reader.ts";
import { defineKind } from "../kind.ts";
import { exactly, type Value } from "../value.ts";
import { chargerFacts, chargingVolts, outputAmps, selfLimitedOf, treatment } from "./charging.ts";

export const alternator = defineKind({
  name: "alternator",
  says: "an engine-driven source of direct current",
  symbol: { usual: "alternator" },
  facts: {
    rated: { value: quantity("current", { min: 0 }), doc: "Rated output, cold." },
    hot: { value: quantity("current", { min: 0 }), doc: "Output when hot; else 75 % of its rating." },
    limit: { value: quantity("current", { min: 0 }), doc: "Greatest current that its regulator lets it give." },
    "charging volts": chargerFacts["charging volts"],
    "self-limited": { value: yesNo(), doc: "Whether its greatest fault output is its rating, by its maker's word." },
    regulator: { value: word(["internal", "external", "engine computer"]), doc: "What sets its voltage." },
    "stop line": { value: yesNo(), doc: "`yes`: the management of the bank stops it before it switches off." },
    clamp: { value: yesNo(), doc: "`yes`: a clamp at its terminals takes the surge when its battery is lost." },
    ...treatment,
  },
  traits: () => ({ charges: true }),
  ports: () => [{ name: "", current: "DC", shape: "pair" }],
  elements: ({ part, facts, read, t, nominal }) => [
    {
      is: "feed",
      id: part,
      part,
      plus: t("", "+"),
      minus: t("", "−"),
      volts: read.orElse(facts["charging volts"], chargingVolts(nominal)),
      amps: atMost(read.needed(facts.rated, "rated", 0), read.stated(facts.limit, "limit")),
      runsWith: "engine",
      selfLimited: facts["self-limited"] === undefined ? "unknown" : facts["self-limited"].value,
    },
  ],
});

/** A rating that a regulator holds to less. */
const atMost = (rated: Value, limit: Value | undefined): Value =>
  limit === undefined || rated.origin === "unknown"
    ? rated
    : { low: Math.min(rated.low, limit.low), high: Math.min(rated.high, limit.high), origin: rated.origin };

export const charger = defineKind({
  name: "charger",
  also: ["shore charger", "battery charger"],
  says: "a source of charging current fed from alternating current",
  symbol: { usual: "charger" },
  facts: {
    ...chargerFacts,
    ...treatment,
    input: { value: quantity("current", { min: 0 }), doc: "Current that it takes from the AC supply." },
    efficiency: { value: quantity("ratio", { above: 0, max: 1 }), doc: "Output power over input power.", idle: true },
  },
  traits: () => ({ charges: true }),
  ports: () => [
    { name: "in", current: "AC", shape: "pair" },
    { name: "out", current: "DC", shape: "pair" },
  ],
  elements({ part, facts, read, t, nominal, cores }) {
    const volts = read.orElse(facts["charging volts"], chargingVolts(nominal));
    const input = read.stated(facts.input, "input");
    return [
      {
        is: "converter",
        id: part,
        part,
        inPlus: t("in", cores[0] ?? "L"),
        inMinus: t("in", cores[1] ?? "N"),
        outPlus: t("out", "+"),
        outMinus: t("out", "−"),
        inCurrent: "AC",
        outCurrent: "DC",
        volts,
        amps: outputAmps(read, facts.output, volts),
        ...(input === undefined ? {} : { inputAmps: input }),
        efficiency: exactly(1, "derived"),
        idleWatts: exactly(0, "derived"),
        input: "as needed",
        runsWith: "shore",
        selfLimited: selfLimitedOf(read, facts["self-limited"]),
        bothWays: false,
        ...(cores.includes("PE") ? { earth: t("in", "PE") } : {}),
      },
    ];
  },
});

const DC_DC_EFFICIENCY: Default = {
  id: "dc-dc-efficiency",
  value: 0.9,
  says: "DC-DC chargers and converters turn 90 % of their input into output",
  trust: "practice",
  pin: "efficiency",
  bounds: [0.8, 0.98],
};

const dcDcFacts = {
  ...chargerFacts,
  ...treatment,
  "stops below": { value: quantity("voltage", { min: 0 }), doc: "Volts at its input below which it stops." },
  "starts above": { value: quantity("voltage", { min: 0 }), doc: "Volts at its input above which it starts again." },
  "ignition line": { value: yesNo(), doc: "`yes`: it runs only while the engine does, by a line from the ignition." },
  nominal: { value: quantity("voltage", { above: 0 }), doc: "Nominal volts of the output." },
  input: { value: quantity("current", { min: 0 }), doc: "Greatest current that it takes." },
  efficiency: { value: quantity("ratio", { above: 0, max: 1 }), doc: "Output power over input power; else 90 %." },
  "both ways": { value: yesNo(), doc: "`yes`: it can also push back into its input." },
  isolated: { value: yesNo(), doc: "`yes`: no metal link between input and output; else they share their minus." },
} as const;

const dcDc = (name: string, also: readonly string[], says: string, runsWith: "engine" | "load") =>
  defineKind({
    name,
    also,
    says,
    symbol: { usual: "dcdc" },
    facts: dcDcFacts,
    // What feeds loads is judged at the loads.
    traits: () => (runsWith === "engine" ? { charges: true } : {}),
    ports: () => [
      { name: "in", current: "DC", shape: "pair" },
      { name: "out", current: "DC", shape: "pair" },
    ],
    elements({ part, facts, read, t, nominal }) {
      const outNominal = known(facts.nominal)?.low ?? nominal;
      const volts =
        runsWith === "load"
          ? read.orElse(facts["charging volts"], {
              id: `converter-volts-${outNominal}`,
              value: outNominal,
              says: `DC-DC converters hold the nominal volts of what they feed: ${outNominal} V`,
              trust: "practice",
              pin: "charging volts",
            })
          : read.orElse(facts["charging volts"], chargingVolts(outNominal));
      const input = read.stated(facts.input, "input");
      const isolated = read.flag(facts.isolated, "isolated", {
        id: "dc-dc-not-isolated",
        value: false,
        says: "DC-DC chargers and converters share their minus between input and output",
        trust: "practice",
        pin: "isolated",
      });
      return [
        {
          is: "converter",
          id: part,
          part,
          inPlus: t("in", "+"),
          inMinus: t("in", "−"),
          outPlus: t("out", "+"),
          outMinus: t("out", "−"),
          inCurrent: "DC",
          outCurrent: "DC",
          volts,
          amps: outputAmps(read, facts.output, volts),
          ...(input === undefined ? {} : { inputAmps: input }),
          efficiency: read.orElse(facts.efficiency, DC_DC_EFFICIENCY),
          idleWatts: exactly(0, "derived"),
          input: "as needed",
          runsWith,
          selfLimited: selfLimitedOf(read, facts["self-limited"]),
          bothWays:
            read.flag(facts["both ways"], "both ways", {
              id: "dc-dc-one-way",
              value: false,
              says: "DC-DC chargers and converters push nothing back into their input",
              trust: "practice",
              pin: "both ways",
            }) !== false,
        },
        ...(isolated === true
          ? []
          : [{ is: "join" as const, id: `${part}:minus`, part, a: t("in", "−"), b: t("out", "−") }]),
      ];
    },
  });

export const dcDcCharger = dcDc(
  "DC-DC charger",
  ["battery-to-battery charger", "B2B"],
  "a charger of one bank from another, or from an alternator",
  "engine",
);

export const dcDcConverter = dcDc(
  "DC-DC converter",
  ["converter"],
  "a converter from one direct voltage to another",
  "load",
);
