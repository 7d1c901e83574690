import { count, known, quantity, quantityIn, word, yesNo, type Fact, type Measure } from "../../plan/index.ts";
import type { Default } from "../fact-reader.ts";
import { defineKind } from "../kind.ts";
import type { Fn } from "../terminal.ts";
import type { Converter, EarthJoin, InternalElement } from "../element.ts";
import { exactly, givenOrUnknown, present, type Value } from "../value.ts";
import { livesOf, mover } from "./alternating-poles.ts";
import { CONTACT, insideResistance } from "./inside-resistance.ts";
import { chargerFacts, chargingVolts, treatment } from "./charging.ts";

const INVERTER_IDLE: Default = {
  id: "inverter-idle",
  value: 0,
  says: "an inverter that states no idle power takes none",
  trust: "practice",
  pin: "idle",
  bounds: [0, 100],
};

const INVERTER_EFFICIENCY: Default = {
  id: "inverter-efficiency",
  value: 0.88,
  says: "inverters turn 88 % of their direct-current input into output",
  trust: "practice",
  pin: "efficiency",
  bounds: [0.8, 0.96],
};

/** The lines of a split-phase or three-phase output. */
function outLines(cores: readonly Fn[], t: (port: string, fn: Fn) => string): { outLines?: readonly string[] } {
  const lines = cores.filter((c) => c !== "N" && c !== "PE");
  return lines.length > 1 ? { outLines: lines.map((fn) => t("out", fn)) } : {};
}

const surgeOf = (facts: { readonly surge?: Fact<Measure>; readonly "surge time"?: Fact<Measure> }) =>
  present<Pick<Converter, "surgeWatts" | "surgeSeconds">>({
    surgeWatts: givenOrUnknown(facts.surge),
    surgeSeconds: givenOrUnknown(facts["surge time"]),
  });

/** Its metal case, where its supply has a protective conductor. */
const caseOf = (cores: readonly Fn[], t: (port: string, fn: Fn) => string): { earth?: string } =>
  cores.includes("PE") ? { earth: t("out", "PE") } : {};

const phaseOf = (
  fact: Fact<"opposite" | "in phase"> | undefined,
): { linesInPhase?: NonNullable<Converter["linesInPhase"]> } =>
  fact === undefined ? {} : { linesInPhase: fact.value === "unknown" ? "unknown" : fact.value === "in phase" };

/** Where it joins neutral and earth; nobody says when: told as unknown, never taken for open or closed. */
function earthJoin(
  part: string,
  cores: readonly Fn[],
  t: (port: string, fn: Fn) => string,
  fact: Fact<"closed when inverting" | "always" | "never"> | undefined,
  inverting: { readonly mover: string; readonly closedIn: readonly string[] },
): EarthJoin[] {
  if (fact?.value === "never" || !cores.includes("N") || !cores.includes("PE")) return [];
  const join = {
    is: "earth join",
    id: `${part}:N–PE`,
    part,
    neutral: t("out", "N"),
    earth: t("out", "PE"),
  } as const;
  if (fact === undefined || fact.value === "unknown") return [{ ...join, closedIn: "unknown" }];
  return [fact.value === "always" ? join : { ...join, ...inverting }];
}

/** The relay that leads a supply on while there is one: it rests while its part is switched off. */
const transferRelay = (
  id: string,
  part: string,
  fed: readonly string[],
  battery: readonly string[],
): InternalElement => ({
  is: "mover",
  id,
  part,
  positions: ["resting", "inverting", "passing"],
  by: "itself",
  breaksFirst: true,
  rules: [
    { to: "passing", live: fed, when: [{ mover: part, in: ["on", "charger only"] }] },
    { to: "inverting", live: battery, when: [{ mover: part, in: ["on"] }] },
    { to: "resting" },
  ],
});

function transferContacts(
  relay: string,
  part: string,
  cores: readonly Fn[],
  t: (port: string, fn: Fn) => string,
  { poles, ohms }: { readonly poles: number; readonly ohms: Value },
): InternalElement[] {
  const opened = livesOf(cores).slice(0, poles);
  return cores.map((fn): InternalElement => {
    const between = { id: `${part}:through:${fn}`, part, a: t("in", fn), b: t("out", fn) };
    return opened.includes(fn)
      ? { is: "contact", ...between, ohms, closedIn: ["passing"], mover: relay }
      : { is: "join", ...between };
  });
}

const inverterFacts = {
  rated: { value: quantityIn(["apparent power", "power"]), doc: "Continuous output." },
  surge: { value: quantityIn(["apparent power", "power"]), doc: "Output for a short time." },
  "surge time": { value: quantity("time", { min: 0 }), doc: "How long the surge lasts." },
  efficiency: { value: quantity("ratio", { above: 0, max: 1 }), doc: "Output power over input power; else 88 %." },
  idle: { value: quantity("power", { min: 0 }), doc: "Power that it takes with nothing connected." },
  "pre-charge": { value: yesNo(), doc: "`yes`: its input is filled through a resistor before it is switched on." },
  "neutral–earth join": {
    value: word(["closed when inverting", "always", "never"]),
    doc: "When it joins neutral and earth at its output.",
  },
  lines: {
    value: word(["opposite", "in phase"]),
    doc: "Of an output with two lines: whether they swing against each other, as 120/240 V does, or together, as one 120 V output on both does.",
  },
} as const;

export const inverter = defineKind({
  name: "inverter",
  says: "a maker of alternating current from direct current",
  symbol: { usual: "inverter" },
  facts: inverterFacts,
  traits: () => ({}),
  ports: () => [
    { name: "in", current: "DC", shape: "pair" },
    { name: "out", current: "AC", shape: "pair" },
  ],
  elements({ part, facts, read, t, nominal, cores }) {
    const efficiency = read.orElse(facts.efficiency, INVERTER_EFFICIENCY);
    const rated = read.needed(facts.rated, "rated", 0);
    return [
      {
        is: "converter",
        id: part,
        part,
        inPlus: t("in", "+"),
        inMinus: t("in", "−"),
        outPlus: t("out", cores[0] ?? "L"),
        outMinus: t("out", cores[1] ?? "N"),
        ...outLines(cores, t),
        inCurrent: "DC",
        outCurrent: "AC",
        volts: exactly(nominal, "derived"),
        // Amps on the direct-current side at nominal volts: what its rating asks of the bank.
        amps: { low: rated.low / nominal, high: rated.high / nominal, origin: rated.origin },
        efficiency,
        idleWatts: read.orElse(facts.idle, INVERTER_IDLE),
        ...surgeOf(facts),
        input: "as needed",
        runsWith: "load",
        selfLimited: true,
        bothWays: false,
        worksIn: ["on"],
        mover: part,
        ...caseOf(cores, t),
        ...phaseOf(facts.lines),
      },
      mover(part, part, ["off", "on"], "hand"),
      ...earthJoin(part, cores, t, facts["neutral–earth join"], { mover: part, closedIn: ["on"] }),
    ];
  },
});

export const inverterCharger = defineKind({
  name: "inverter-charger",
  also: ["inverter/charger", "combi"],
  says: "an inverter that charges its bank when it is fed from outside",
  symbol: { usual: "inverter_charger" },
  facts: {
    ...inverterFacts,
    charging: { value: quantity("current", { min: 0 }), doc: "Rated charging current." },
    "charging volts": chargerFacts["charging volts"],
    ...treatment,
    transfer: { value: quantity("current", { min: 0 }), doc: "Current that its transfer relay carries." },
    "transfer poles": {
      value: count(1, 4),
      doc: "How many live poles its transfer relay opens; else all, neutral too.",
    },
    ...insideResistance,
    "transfer time": { value: quantity("time", { min: 0 }), doc: "How long its relay takes to move." },
    "adds to shore": {
      value: yesNo(),
      doc: "`yes`: it makes current beside the supply that it passes on, where that is not enough.",
    },
    "charger input": { value: quantity("current", { min: 0 }), doc: "AC current that its charger takes." },
  },
  traits: () => ({ charges: true }),
  ports: () => [
    { name: "battery", current: "DC", shape: "pair" },
    { name: "in", current: "AC", shape: "pair" },
    { name: "out", current: "AC", shape: "pair" },
  ],
  elements({ part, facts, read, t, nominal, cores }) {
    const rated = read.needed(facts.rated, "rated", 0);
    const charging = read.stated(facts.charging, "charging");
    const chargerInput = read.stated(facts["charger input"], "charger input");
    const volts = read.orElse(facts["charging volts"], chargingVolts(nominal));
    const relay = `${part}:relay`;
    const adds = facts["adds to shore"];
    if (facts["transfer poles"] === undefined) {
      read.assume({
        id: "transfer-relay-poles",
        value: 0,
        says: "the transfer relay of an inverter-charger opens every live pole, neutral too",
        trust: "practice",
        pin: "transfer poles",
      });
    }
    return [
      {
        is: "converter",
        id: `${part}:inverting`,
        part,
        inPlus: t("battery", "+"),
        inMinus: t("battery", "−"),
        outPlus: t("out", cores[0] ?? "L"),
        outMinus: t("out", cores[1] ?? "N"),
        ...outLines(cores, t),
        passesFrom: t("in", cores[0] ?? "L"),
        inCurrent: "DC",
        outCurrent: "AC",
        volts: exactly(nominal, "derived"),
        amps: { low: rated.low / nominal, high: rated.high / nominal, origin: rated.origin },
        efficiency: read.orElse(facts.efficiency, INVERTER_EFFICIENCY),
        idleWatts: read.orElse(facts.idle, INVERTER_IDLE),
        ...surgeOf(facts),
        input: "as needed",
        runsWith: "load",
        selfLimited: true,
        bothWays: false,
        worksIn: ["inverting"],
        mover: relay,
        ...caseOf(cores, t),
        ...phaseOf(facts.lines),
        ...(adds === undefined || adds.value === false ? {} : { addsToSupply: adds.value }),
      },
      mover(part, part, ["off", "on", "charger only"], "hand"),
      transferRelay(relay, part, [t("in", cores[0] ?? "L")], [t("battery", "+")]),
      ...transferContacts(relay, part, cores, t, {
        poles: known(facts["transfer poles"]) ?? livesOf(cores).length,
        ohms: read.orElse(facts.resistance, CONTACT),
      }),
      ...earthJoin(part, cores, t, facts["neutral–earth join"], { mover: relay, closedIn: ["inverting"] }),
      ...(charging === undefined
        ? []
        : [
            {
              is: "converter" as const,
              id: `${part}:charging`,
              part,
              inPlus: t("in", cores[0] ?? "L"),
              inMinus: t("in", cores[1] ?? "N"),
              outPlus: t("battery", "+"),
              outMinus: t("battery", "−"),
              inCurrent: "AC" as const,
              outCurrent: "DC" as const,
              volts,
              amps: charging,
              ...(chargerInput === undefined ? {} : { inputAmps: chargerInput }),
              efficiency: exactly(1, "derived"),
              idleWatts: exactly(0, "derived"),
              input: "as needed" as const,
              runsWith: "shore" as const,
              selfLimited: true,
              bothWays: false,
              worksIn: ["passing"],
              mover: relay,
            },
          ]),
    ];
  },
});
