import { count, known, name, quantity, text, word, yesNo, type KeyRules } from "../../plan/index.ts";
import type { Contact, InternalElement } from "../element.ts";
import { defineKind, type PartAtHand, type Traits } from "../kind.ts";
import type { Fn, Port } from "../terminal.ts";
import type { Value } from "../value.ts";
import { CONTACT, insideResistance } from "./inside-resistance.ts";
import { reach } from "./reach.ts";
import { residualFacts, residualGuard } from "./residual.ts";

const inAndOut: readonly Port[] = [
  { name: "in", current: "either", shape: "line" },
  { name: "out", current: "either", shape: "line" },
];

type AnyPart = Pick<PartAtHand<KeyRules>, "part" | "t" | "current" | "cores">;

/** The functions that one pole of a part opens: its one pole, or the live cores. */
function cut(at: Pick<PartAtHand<KeyRules>, "current" | "cores">, poles: number): { switched: Fn[]; straight: Fn[] } {
  if (at.current === "DC") return { switched: ["pole"], straight: [] };
  const live = at.cores.filter((c) => c !== "PE");
  return { switched: live.slice(0, poles), straight: at.cores.filter((c) => c === "PE" || live.indexOf(c) >= poles) };
}

function contacts(
  at: AnyPart,
  from: string,
  to: string,
  poles: number,
  ohms: Value,
  closedIn?: readonly string[],
): InternalElement[] {
  const { switched, straight } = cut(at, poles);
  const { part, t } = at;
  const suffix = from === "in" && to === "out" ? "" : `:${from}`;
  return [
    ...switched.map((fn): Contact => ({
      is: "contact",
      id: `${part}${suffix}${fn === "pole" ? "" : `:${fn}`}`,
      part,
      a: t(from, fn),
      b: t(to, fn),
      ohms,
      ...(closedIn === undefined ? {} : { closedIn }),
    })),
    ...straight.map((fn): InternalElement => ({
      is: "join",
      id: `${part}${suffix}:${fn}`,
      part,
      a: t(from, fn),
      b: t(to, fn),
    })),
  ];
}

const rated = { value: quantity("current", { min: 0 }), doc: "Continuous rating." } as const;
const use = { value: word(["DC", "AC", "both"]), doc: "Current that its label says it is for." } as const;
const dcVolts = { value: quantity("voltage", { min: 0 }), doc: "Direct volts that it can open." } as const;
const polarised = {
  value: yesNo(),
  doc: "`yes`: it opens direct current that comes in at its marked side alone; `no`: from either side.",
} as const;
const acVolts = { value: quantity("voltage", { min: 0 }), doc: "Alternating volts that it can open." } as const;
const ratedFacts = {
  ...insideResistance,
  rated,
  intermittent: { value: quantity("current", { min: 0 }), doc: "Rating for a short time." },
} as const;

const onOff = (name_: string, symbol: string, also: readonly string[], says: string, traits: Traits) =>
  defineKind({
    name: name_,
    also,
    says,
    symbol: { usual: symbol },
    facts: {
      ...ratedFacts,
      for: use,
      "DC volts": dcVolts,
      "AC volts": acVolts,
      polarised,
      poles: { value: count(1, 4), doc: "How many poles it opens; else one." },
      coil: { value: quantity("current", { min: 0 }), doc: "Holding current of its coil.", idle: true },
      remote: { value: yesNo(), doc: "Whether it is worked from afar." },
      "held by": {
        value: word(["coil supply", "message"]),
        doc: "What its remote switch opens: the supply of its coil, or a line that only tells its electronics.",
      },
    },
    traits: () => traits,
    ports: () => inAndOut,
    positions: () => ["on", "off"],
    elements: (at) =>
      contacts(at, "in", "out", known(at.facts.poles) ?? 1, at.read.orElse(at.facts.resistance, CONTACT), ["on"]),
  });

export const switchKind = onOff(
  "switch",
  "main_switch",
  ["main switch", "battery switch", "isolator", "disconnect"],
  "a switch that opens one pole or more",
  { passes: true },
);
export const relay = onOff(
  "relay",
  "contactor",
  ["contactor", "solenoid", "remote switch"],
  "a switch worked by a coil",
  { passes: true, coil: true },
);

/** Two banks, one output. */
export const selectorSwitch = defineKind({
  name: "selector switch",
  also: ["battery selector"],
  says: "a switch that joins its output to one bank, the other, or both",
  symbol: { usual: "transfer_switch" },
  facts: ratedFacts,
  traits: () => ({ passes: true }),
  ports: () => [
    { name: "1", current: "DC", shape: "pole" },
    { name: "2", current: "DC", shape: "pole" },
    { name: "out", current: "DC", shape: "pole" },
  ],
  positions: () => ["1", "2", "both", "off"],
  elements: (at) => {
    const ohms = at.read.orElse(at.facts.resistance, CONTACT);
    return [...contacts(at, "1", "out", 1, ohms, ["1", "both"]), ...contacts(at, "2", "out", 1, ohms, ["2", "both"])];
  },
});

export const shunt = defineKind({
  name: "shunt",
  also: ["current sensor"],
  says: "a known resistance that measures current",
  symbol: { usual: "shunt" },
  facts: ratedFacts,
  traits: () => ({ passes: true, counts: true }),
  ports: () => inAndOut,
  elements: (at) =>
    contacts(
      at,
      "in",
      "out",
      1,
      at.read.orElse(at.facts.resistance, {
        id: "shunt-resistance",
        value: 0.0001,
        says: "a shunt 0.1 mΩ (50 mV at 500 A)",
        trust: "practice",
        pin: "resistance",
      }),
    ),
});

const guard = (name_: "fuse" | "breaker", also: readonly string[], says: string) =>
  defineKind({
    name: name_,
    also,
    says,
    symbol: { usual: name_ },
    facts: {
      ...insideResistance,
      rated: { value: quantity("current", { above: 0 }), doc: "Rating." },
      family: { value: text(), doc: "Family of devices it belongs to." },
      poles: { value: count(1, 4), doc: "How many poles it opens; else one." },
      for: use,
      "DC volts": dcVolts,
      "AC volts": acVolts,
      polarised,
      interrupt: {
        value: quantity("current", { min: 0 }),
        doc: "Greatest current that it can open at the volts of its place, as marked.",
      },
      "backed up by": {
        value: name("a device"),
        doc: "Device ahead of it with which its maker has tested it: that one breaks what it cannot.",
      },
      "made to": {
        value: word(["UL 489", "UL 1077", "UL 1500", "SAE J553", "IEC 60898", "IEC 60947-2"]),
        doc: "Standard that a breaker is made and marked to.",
      },
      ...reach,
      delay: { value: word(["fast", "medium", "slow"]), doc: "How quick it is.", idle: true },
      reset: { value: word(["manual", "automatic"]), doc: "How it is reset." },
      ...residualFacts,
    },
    traits: () => ({ passes: true, guards: name_ }),
    ports: () => inAndOut,
    positions: () => ["on", "off"],
    elements(at) {
      const ohms = at.read.orElse(at.facts.resistance, CONTACT);
      const poles = contacts(at, "in", "out", known(at.facts.poles) ?? 1, ohms, ["on"]);
      return [...poles, ...residualGuard(at.part, at.part, poles, at.facts)];
    },
  });

export const fusePart = guard("fuse", ["fuselink"], "a device that melts once on too much current");
export const breakerPart = guard(
  "breaker",
  ["circuit breaker", "GFCI", "ELCI", "RCBO"],
  "a device that opens on too much current, or on leakage too, and can be reset",
);

/** What opens on leakage alone guards no wire against too much current: to sizes and devices it is a switch. */
export const residualPart = defineKind({
  name: "RCD",
  also: ["RCCB", "residual device"],
  says: "a switch that opens on leakage alone, and never on too much current",
  symbol: { usual: "rcd" },
  facts: {
    ...insideResistance,
    rated,
    poles: { value: count(1, 4), doc: "How many poles it opens; else one." },
    "AC volts": acVolts,
    ...residualFacts,
  },
  traits: () => ({ passes: true }),
  ports: () => inAndOut,
  positions: () => ["on", "off"],
  elements(at) {
    const poles = contacts(at, "in", "out", known(at.facts.poles) ?? 1, at.read.orElse(at.facts.resistance, CONTACT), ["on"]); // prettier-ignore
    return [...poles, ...residualGuard(at.part, at.part, poles, at.facts)];
  },
});

export const busBar = defineKind({
  name: "bus bar",
  also: ["busbar", "bus", "terminal block", "link", "positive bus", "negative bus"],
  says: "a common metal bar with studs",
  symbol: { usual: "busbar" },
  facts: { rated },
  traits: () => ({ distributes: true }),
  ports: () => [{ name: "", current: "either", shape: "pole" }],
  elements: () => [],
});
