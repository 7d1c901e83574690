import {
  cableLabel,
  count,
  deviceOnLine,
  known,
  listOf,
  name,
  quantity,
  quantityIn,
  word,
  yesNo,
  type Fact,
  type Measure,
} from "../../plan/index.ts";
import type { Contact, InternalElement, Join, Source } from "../element.ts";
import type { FactReader } from "../fact-reader.ts";
import { defineKind } from "../kind.ts";
import type { Fn } from "../terminal.ts";
import { exactly, given as asValue, givenOrUnknown, present } from "../value.ts";
import { CONTACT, insideResistance } from "./inside-resistance.ts";
import { lineVolts, linesOf, livesOf, mover, terminalsOf } from "./alternating-poles.ts";

/** Parts of the alternating-current side, with what they join, open and give. */

const enters = { value: quantityIn(["current", "power", "apparent power"]), doc: "Rating." } as const;
const rated = { ...enters, idle: true } as const;

/** What can be known of a supply where it arrives. */
const supplyFacts = {
  "loop impedance": {
    value: quantity("resistance", { min: 0 }),
    doc: "Impedance of the supply where it arrives, from line to earth, its lead included.",
  },
  "prospective current": {
    value: quantity("current", { min: 0 }),
    doc: "Greatest current that the supply drives into a short where it arrives, behind its lead.",
  },
} as const;

interface SupplyFacts {
  readonly "loop impedance"?: Fact<Measure>;
  readonly "prospective current"?: Fact<Measure>;
  readonly rated?: Fact<Measure & { readonly dimension: string }>;
}

const givenOf = (facts: SupplyFacts): Partial<Source> =>
  present<Pick<Source, "gives" | "loopOhms" | "prospectiveAmps">>({
    gives: givenOutput(facts.rated),
    loopOhms: givenOrUnknown(facts["loop impedance"]),
    prospectiveAmps: givenOrUnknown(facts["prospective current"]),
  });

/** A rating in amps, or in watts or volt-amperes, which a rating does not tell apart. */
function givenOutput(fact: SupplyFacts["rated"]): Source["gives"] {
  if (fact === undefined) return undefined;
  if (fact.value === "unknown") return "unknown";
  return { value: asValue(fact.value), unit: fact.value.dimension === "current" ? "A" : "VA" };
}

/** What a source gives is asked in every state: that nobody states it is listed with the facts that are missing. */
function noteRating({ rated }: SupplyFacts, read: FactReader): void {
  if (known(rated) === undefined) read.miss(rated, "rated");
}

export const shoreInlet = defineKind({
  name: "shore inlet",
  also: ["inlet", "appliance inlet"],
  says: "the fixed connector where the supply lead enters",
  symbol: { usual: "shore_inlet" },
  facts: {
    rated: enters,
    lead: { value: quantity("length", { min: 0 }), doc: "Length of the supply lead." },
    "lead cable": { value: cableLabel(), doc: "Cable of the supply lead, by its label." },
    "lead layers": {
      value: count(0, 10),
      doc: "Layers of the supply lead that lie on its drum, or coiled, while it is in use; 0: all of it is drawn off.",
    },
    ...supplyFacts,
    earthing: {
      value: word(["TN", "TT", "IT"]),
      doc: "How the supply ashore is earthed: TN: neutral is joined to the earth that comes with it; TT: its neutral and the earth have electrodes of their own; IT: neutral is not earthed. Else TN.",
    },
    "smallest supply": {
      value: quantity("current", { above: 0 }),
      doc: "The smallest supply that it is meant to be plugged into.",
    },
    breaker: { value: deviceOnLine(), doc: "The breaker that is built into it." },
    "polarity indicator": {
      value: yesNo(),
      doc: "`yes`: something shows aboard when line and neutral are exchanged ashore.",
    },
    "tested first": {
      value: yesNo(),
      doc: "`yes`: volts, polarity and earth of a supply are measured before it is let in, by a person or by a device that keeps it out.",
    },
  },
  traits: () => ({ enters: true, inlet: true }),
  ports: () => [{ name: "", current: "AC", shape: "pair" }],
  elements({ part, facts, read, t, cores, nominal, ahead }) {
    if (ahead === "feed") return plugOf(part, cores, t);
    const port = ahead === "lead" ? "in" : "";
    const earthing = facts.earthing;
    noteRating(facts, read);
    if (earthing === undefined) {
      read.assume({
        id: "shore-earthing",
        value: 0,
        says: "the supply ashore joins its neutral to the earth that it brings (TN)",
        trust: "practice",
        pin: "earthing",
      });
    }
    return [
      {
        is: "source",
        id: part,
        part,
        from: "shore",
        terminals: terminalsOf(port, cores, t),
        volts: lineVolts(nominal, cores),
        givesIn: ["in"],
        mover: part,
        joined: earthing?.value === "unknown" ? "unknown" : earthing?.value !== "IT",
        earthedApart: earthing?.value === "unknown" ? "unknown" : earthing?.value === "TT",
        ...givenOf(facts),
      },
      mover(part, part, ["out", "in"], "outside"),
      ...(ahead === null ? [] : cores.map((fn): InternalElement => joinThrough(part, fn, t))),
    ];
  },
});

const joinThrough = (part: string, fn: Fn, t: (port: string, fn: Fn) => string): Join => ({
  is: "join",
  id: `${part}:${fn}`,
  part,
  a: t("in", fn),
  b: t("out", fn),
});

/** A plug opens all that is live; what it does to earth comes with what it plugs in. */
const plugOf = (part: string, cores: readonly Fn[], t: (port: string, fn: Fn) => string): InternalElement[] => [
  ...cores.map((fn): InternalElement => {
    const through = joinThrough(part, fn, t);
    return fn === "PE" ? through : { ...through, is: "contact", ohms: exactly(0, "derived"), closedIn: ["in"] };
  }),
  { ...mover(part, part, ["out", "in"], "outside"), breaksFirst: true },
];

export const adapter = defineKind({
  name: "adapter",
  also: ["supply lead", "shore cord"],
  says: "a lead or plug between a supply and an inlet",
  symbol: { usual: "plug" },
  facts: {
    rated,
    upstream: { value: quantity("current", { min: 0 }), doc: "Rating of the device on the supply's side of it." },
    residual: { value: quantity("current", { min: 0 }), doc: "Residual current that it opens at." },
  },
  traits: () => ({ lead: true }),
  ports: () => [{ name: "", current: "AC", shape: "pair" }], // one piece of metal for each core, whichever end is meant
  elements: () => [],
});

/** When a source joins neutral and earth. */
const neutralEarth = {
  value: word(["always", "never"]),
  doc: "Whether it joins neutral and earth.",
} as const;

export const generator = defineKind({
  name: "generator",
  also: ["genset"],
  says: "an engine-driven source of alternating current",
  symbol: { usual: "generator_set" },
  facts: {
    rated: enters,
    neutral: { value: word(["floating", "joined to earth"]), doc: "What its neutral does." },
    "neutral–earth join": neutralEarth,
    "prospective current": supplyFacts["prospective current"],
  },
  traits: () => ({ enters: true }),
  ports: () => [{ name: "", current: "AC", shape: "pair" }],
  elements({ part, facts, read, t, cores, nominal }) {
    noteRating(facts, read);
    return [
      {
        is: "source",
        id: part,
        part,
        from: "generator",
        terminals: terminalsOf("", cores, t),
        volts: lineVolts(nominal, cores),
        givesIn: ["running"],
        mover: part,
        joined: joinedBy(facts["neutral–earth join"]) ?? joinedBy(facts.neutral) ?? "unknown",
        ...givenOf(facts),
      },
      mover(part, part, ["off", "running"], "hand"),
    ];
  },
});

/** Whether a source joins its neutral to earth by itself; undefined: nothing is written. */
const joinedBy = (
  fact: Fact<"always" | "never" | "floating" | "joined to earth"> | undefined,
): Source["joined"] | undefined =>
  fact === undefined
    ? undefined
    : fact.value === "unknown"
      ? "unknown"
      : fact.value === "always" || fact.value === "joined to earth";

/** Set into the protective conductor alone by `in PE`, or into a path with all its cores. */
export const galvanicIsolator = defineKind({
  name: "galvanic isolator",
  says: "a blocker of small direct currents in the shore earth",
  symbol: { usual: "galvanic_isolator" },
  facts: {
    rated,
    "fail-safe": { value: yesNo(), doc: "Whether it stays whole when it fails." },
    monitored: { value: yesNo(), doc: "`yes`: something shows aboard when it has failed." },
  },
  traits: () => ({ passes: true }),
  ports: () => [
    { name: "in", current: "AC", shape: "pair" },
    { name: "out", current: "AC", shape: "pair" },
  ],
  elements: ({ part, t, cores }) =>
    cores.map((fn): InternalElement => {
      const between = { part, a: t("in", fn), b: t("out", fn) };
      return fn === "PE"
        ? { is: "contact", id: part, ...between, ohms: exactly(0, "derived") }
        : { is: "join", id: `${part}:${fn}`, ...between };
    }),
});

export const isolationTransformer = defineKind({
  name: "isolation transformer",
  says: "a shore supply without a metal link",
  symbol: { usual: "isolation_transformer" },
  facts: {
    rated: enters,
    "neutral–earth join": neutralEarth,
    "earth through": {
      value: yesNo(),
      doc: "`yes`: the earth of the shore goes through to its far side; else it ends at the screen of the transformer.",
    },
    "loop impedance": {
      value: quantity("resistance", { min: 0 }),
      doc: "Impedance of what it gives, from line to earth at its output, that of its supply with it.",
    },
    "prospective current": {
      value: quantity("current", { min: 0 }),
      doc: "Current that it drives into a short at its output, its supply counted: one figure is the greatest, a range bounds the least as well.",
    },
    "short-circuit voltage": {
      value: quantity("ratio", { above: 0, max: 1 }),
      doc: "Share of its volts that drives its rated current through a shorted output, as its plate has it. The greatest current into a short follows from it and from `rated`.",
    },
  },
  traits: () => ({}),
  ports: () => [
    { name: "in", current: "AC", shape: "pair" },
    { name: "out", current: "AC", shape: "pair" },
  ],
  elements({ part, facts, t, cores, nominal }) {
    const through: InternalElement[] =
      facts["earth through"]?.value === true && cores.includes("PE")
        ? [{ is: "join", id: `${part}:PE`, part, a: t("in", "PE"), b: t("out", "PE") }]
        : [];
    return [
      {
        is: "source",
        id: part,
        part,
        from: "transformer",
        terminals: terminalsOf("out", cores, t),
        volts: lineVolts(nominal, cores),
        fedBy: linesOf(cores).map((fn) => t("in", fn)),
        joined: joinedBy(facts["neutral–earth join"]) ?? "unknown",
        ...shortedOutput(facts, cores, nominal),
        ...givenOf(facts),
      },
      ...through,
    ];
  },
});

/** What a transformer of one winding drives into a short at most: its rated current over its short-circuit voltage, as if its supply were stiff. */
function shortedOutput(
  facts: SupplyFacts & { readonly "short-circuit voltage"?: Fact<Measure> },
  cores: Parameters<typeof linesOf>[0],
  nominal: number,
): Pick<Source, "prospectiveAmps"> {
  const share = known(facts["short-circuit voltage"]);
  const rating = known(facts.rated);
  if (share === undefined || rating === undefined || linesOf(cores).length !== 1) return {};
  const amps = rating.dimension === "current" ? rating.high : rating.high / lineVolts(nominal, cores);
  return { prospectiveAmps: { ...asValue(share), low: 0, high: amps / share.low } };
}

export const transferSwitch = defineKind({
  name: "transfer switch",
  also: ["changeover switch"],
  says: "a switch that chooses one source, break before make",
  symbol: { usual: "transfer_switch" },
  facts: {
    rated,
    ...insideResistance,
    poles: { value: count(1, 4), doc: "How many poles it moves; else two." },
    inputs: { value: listOf(name("an input")), doc: "Names of its inputs." },
    off: { value: yesNo(), doc: "Whether it has an off position." },
    automatic: {
      value: yesNo(),
      doc: "`yes`: it moves by itself to the first of its inputs that is live, in the order of `inputs`.",
    },
    "transfer time": { value: quantity("time", { min: 0 }), doc: "How long it takes to move." },
    "break before make": {
      value: yesNo(),
      doc: "`no`: for a moment it joins what it leaves and what it goes to. Else it opens the one before it closes the other.",
    },
  },
  traits: () => ({}),
  ports: ({ facts }) => [
    ...inputsOf(known(facts.inputs)).map((i) => ({ name: i, current: "AC" as const, shape: "pair" as const })),
    { name: "out", current: "AC", shape: "pair" },
  ],
  positions: ({ facts }) => [...(known(facts.off) === true ? ["off"] : []), ...inputsOf(known(facts.inputs))],
  elements({ part, facts, read, t, cores }) {
    const ohms = read.orElse(facts.resistance, CONTACT);
    const poles = known(facts.poles) ?? 2;
    const live = livesOf(cores);
    const inputs = inputsOf(known(facts.inputs));
    const moves: InternalElement = {
      is: "mover",
      id: part,
      part,
      positions: [...(known(facts.off) === true ? ["off"] : []), ...inputs],
      by: facts.automatic?.value === true ? "itself" : "hand",
      breaksFirst: facts["break before make"]?.value ?? true,
      ...(facts.automatic?.value === "unknown" ? { unclear: "automatic" } : {}),
      ...(facts.automatic?.value === true
        ? { rules: [...inputs.map((to) => ({ to, live: [t(to, live[0] ?? "L")] })), { to: inputs[0] ?? "" }] }
        : {}),
    };
    return [
      moves,
      ...inputs.flatMap((input) =>
        cores.map((fn): InternalElement => {
          const between = { part, a: t(input, fn), b: t("out", fn) };
          return fn !== "PE" && live.indexOf(fn) < poles
            ? ({
                is: "contact",
                id: `${part}:${input}:${fn}`,
                ...between,
                ohms,
                closedIn: [input],
              } satisfies Contact)
            : { is: "join", id: `${part}:${input}:${fn}`, ...between };
        }),
      ),
    ];
  },
});

const inputsOf = (inputs: readonly { value: string }[] | undefined): string[] =>
  inputs === undefined ? ["1", "2"] : inputs.map((i) => i.value).filter((i) => i !== "unknown");

export const earthElectrode = defineKind({
  name: "earth electrode",
  also: ["ground rod", "earth rod", "hull anode"],
  says: "metal in the soil or the water",
  symbol: { usual: "earth" },
  facts: {
    is: { value: word(["rod", "plate", "foundation", "anode"]), doc: "What it is; an anode is in the water." },
    "resistance to earth": { value: quantity("resistance", { min: 0 }), doc: "Resistance to earth." },
  },
  traits: ({ facts }) => {
    const is = known(facts.is);
    return { electrode: true, ...(is === undefined ? {} : { electrodeIs: is }) };
  },
  ports: () => [{ name: "", current: "either", shape: "pole" }],
  elements: () => [],
});
