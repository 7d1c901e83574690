import {
  count,
  deviceOnLine,
  either,
  known,
  type Fact,
  type KeyRules,
  listOf,
  mapOf,
  name,
  quantity,
  recordOf,
  text,
  word,
  yesNo,
} from "../../plan/index.ts";
import type { Contact, InternalElement } from "../element.ts";
import type { Default } from "../fact-reader.ts";
import { defineKind, type PartAtHand } from "../kind.ts";
import type { Fn, Port } from "../terminal.ts";
import { exactly, type Value } from "../value.ts";

const CONTACT: Default = {
  id: "contact-resistance",
  value: 0.0002,
  says: "each closed switch contact 0.2 mΩ",
  trust: "practice",
  pin: "resistance",
};

const inAndOut: readonly Port[] = [
  { name: "in", current: "either", shape: "line" },
  { name: "out", current: "either", shape: "line" },
];

type AnyPart = Pick<PartAtHand<KeyRules>, "part" | "t" | "current" | "cores">;

/** The functions that one pole of a part opens: its one pole, or the live cores. */
function cut(
  at: Pick<PartAtHand<KeyRules>, "current" | "cores">,
  poles: number,
): { switched: Fn[]; straight: Fn[] } {
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

const ratedFacts = {
  rated: { value: quantity("current", { min: 0 }), doc: "Continuous rating.", idle: true },
  intermittent: { value: quantity("current", { min: 0 }), doc: "Rating for a short time.", idle: true },
} as const;

const onOff = (name_: string, also: readonly string[], says: string) =>
  defineKind({
    name: name_,
    also,
    says,
    facts: {
      ...ratedFacts,
      poles: { value: count(1, 4), doc: "How many poles it opens; else one." },
      coil: { value: quantity("current", { min: 0 }), doc: "Holding current of its coil.", idle: true },
      remote: { value: yesNo(), doc: "Whether it is worked from afar.", idle: true },
    },
    traits: () => ({ passes: true }),
    ports: () => inAndOut,
    positions: () => ["on", "off"],
    elements: (at) =>
      contacts(at, "in", "out", known(at.facts.poles) ?? 1, at.read.orElse(at.facts.resistance, CONTACT), ["on"]),
  });

export const switchKind = onOff(
  "switch",
  ["main switch", "battery switch", "isolator", "disconnect"],
  "a switch that opens one pole or more",
);
export const relay = onOff("relay", ["contactor", "solenoid", "remote switch"], "a switch worked by a coil");

/** Two banks, one output. */
export const selectorSwitch = defineKind({
  name: "selector switch",
  also: ["battery selector"],
  says: "a switch that joins its output to one bank, the other, or both",
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
  facts: ratedFacts,
  traits: () => ({ passes: true }),
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
    facts: {
      rated: { value: quantity("current", { min: 0 }), doc: "Rating." },
      family: { value: text(), doc: "Family of devices it belongs to." },
      poles: { value: count(1, 4), doc: "How many poles it opens; else one." },
      "DC volts": { value: quantity("voltage", { min: 0 }), doc: "Direct volts that it can open.", idle: true },
      "AC volts": { value: quantity("voltage", { min: 0 }), doc: "Alternating volts that it can open.", idle: true },
      interrupt: { value: quantity("current", { min: 0 }), doc: "Greatest current that it can open.", idle: true },
      delay: { value: word(["fast", "medium", "slow"]), doc: "How quick it is.", idle: true },
      reset: { value: word(["manual", "automatic"]), doc: "How it is reset.", idle: true },
      "residual device": {
        value: quantity("current", { min: 0 }),
        doc: "Residual current that it opens at.",
        idle: true,
      },
    },
    traits: () => ({ passes: true, guards: name_ }),
    ports: () => inAndOut,
    positions: () => ["on", "off"],
    elements: (at) =>
      contacts(at, "in", "out", known(at.facts.poles) ?? 1, at.read.orElse(at.facts.resistance, CONTACT), ["on"]),
  });

export const fusePart = guard("fuse", ["fuselink"], "a device that melts once on too much current");
export const breakerPart = guard(
  "breaker",
  ["circuit breaker", "residual device", "RCD", "GFCI", "ELCI", "RCBO"],
  "a device that opens on too much current, or on leakage, and can be reset",
);

export const busBar = defineKind({
  name: "bus bar",
  also: ["busbar", "bus", "terminal block", "link", "combiner", "positive bus", "negative bus"],
  says: "a common metal bar with studs",
  facts: { rated: ratedFacts.rated },
  traits: () => ({ distributes: true }),
  ports: () => [{ name: "", current: "either", shape: "pole" }],
  elements: () => [],
});

export const structure = defineKind({
  name: "structure",
  also: ["chassis", "hull", "frame", "bonding"],
  says: "chassis or structure that carries current from joint to joint",
  facts: {
    joints: { value: listOf(name("a joint")), doc: "Where conductors land on it; a path names one as `chassis:rear`." },
    "joint resistance": { value: quantity("resistance", { min: 0 }), doc: "From each joint to the body of it." },
  },
  traits: () => ({ distributes: true }),
  ports: ({ facts }) => [
    { name: "", current: "either", shape: "pole" },
    ...(known(facts.joints) ?? []).flatMap((j): Port[] =>
      j.value === "unknown" ? [] : [{ name: j.value, current: "either", shape: "pole" }],
    ),
  ],
  elements(at) {
    const joints = (known(at.facts.joints) ?? []).flatMap((j) => (j.value === "unknown" ? [] : [j.value]));
    if (joints.length === 0) return [];
    const ohms = at.read.orElse(at.facts["joint resistance"], {
      id: "structure-joint",
      value: 0.001,
      says: "each joint on chassis or structure 1 mΩ",
      trust: "practice",
      pin: "joint resistance",
      bounds: [0, 1],
    });
    return joints.map((j): Contact => ({
      is: "contact",
      id: `${at.part}:${j}`,
      part: at.part,
      a: at.t(j, "pole"),
      b: at.t("", "pole"),
      ohms,
    }));
  },
});

const panelDevice = recordOf(
  {
    "residual device": {
      value: quantity("current", { min: 0 }),
      doc: "Residual current that it opens at.",
      idle: true,
    },
    poles: { value: count(1, 4), doc: "Poles that it opens.", idle: true },
    rated: { value: quantity("current", { min: 0 }), doc: "Rating.", idle: true },
  },
  "a main device",
);

export const panel = defineKind({
  name: "panel",
  also: ["distribution panel", "consumer unit", "load centre", "fuse block", "switch panel", "distribution board"],
  says: "a board of protective devices",
  facts: {
    ways: {
      value: either(count(1, 200), mapOf("way", deviceOnLine())),
      doc: "How many ways it has, or a map from way to its device: `{ 1: breaker 16 A 2-pole }`.",
    },
    device: { value: word(["breaker", "fuse"]), doc: "What stands in each way." },
    "negative bar": {
      value: yesNo(),
      doc: "`yes`: its branches return to a bar of its own and its feeder carries both poles.",
    },
    main: { value: panelDevice, doc: "Its main device." },
    sections: {
      value: listOf(name("a section")),
      doc: "Bars that are fed apart; a path names one as `panel.section`.",
    },
    rated: ratedFacts.rated,
    "neutral–earth join": { value: word(["always", "never"]), doc: "Whether it joins neutral and earth.", idle: true },
    "neutral-earth join": { value: word(["always", "never"]), doc: "Whether it joins neutral and earth.", idle: true },
  },
  traits: () => ({ distributes: true, dropUse: "panel feeder" }),
  ports({ facts }) {
    const shape = facts["negative bar"]?.value === true ? "pair" : "line";
    return [
      { name: "in", current: "either", shape },
      ...sectionsOf(facts).map((s): Port => ({ name: s, current: "either", shape })),
      ...waysOf(facts).map((w): Port => ({ name: w, current: "either", shape })),
    ];
  },
  elements(at) {
    const { part, facts, t, current, cores } = at;
    const hasBar = facts["negative bar"]?.value === true;
    const live: Fn[] = current === "AC" ? cores.filter((c) => c !== "PE" && c !== "N") : [hasBar ? "+" : "pole"];
    const straight: Fn[] = current === "AC" ? cores.filter((c) => c === "PE" || c === "N") : hasBar ? ["−"] : [];
    const elements: InternalElement[] = [];
    for (const way of waysOf(facts)) {
      const dot = way.indexOf(".");
      const bar = dot > 0 ? way.slice(0, dot) : "in";
      for (const fn of live) {
        elements.push({
          is: "contact",
          id: live.length === 1 ? `${part}:${way}` : `${part}:${way}:${fn}`,
          part,
          a: t(bar, fn),
          b: t(way, fn),
          ohms: exactly(0, "derived"),
          way,
        });
      }
      for (const fn of straight) {
        elements.push({ is: "join", id: `${part}:${way}:${fn}`, part, a: t(bar, fn), b: t(way, fn) });
      }
    }
    return elements;
  },
});

type Named = readonly { readonly name: string }[];

const sectionsOf = (facts: { sections?: Fact<readonly Fact<string>[]> }): string[] =>
  (known(facts.sections) ?? []).map((s) => s.value).filter((s) => s !== "unknown");

function waysOf(facts: { ways?: Fact<number | Named> }): string[] {
  const ways = known(facts.ways);
  if (ways === undefined) return [];
  if (typeof ways === "number") return Array.from({ length: ways }, (_, i) => String(i + 1));
  return ways.map((w) => w.name);
}
