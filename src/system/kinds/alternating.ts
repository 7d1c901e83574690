import { cableLabel, count, known, listOf, name, quantity, quantityIn, word, yesNo } from "../../plan/index.ts";
import type { Contact, InternalElement } from "../element.ts";
import { defineKind } from "../kind.ts";
import { exactly } from "../value.ts";

/** Parts of the alternating-current side. They stand in the graph with their terminals and positions; no study works them out yet. */

const enters = { value: quantityIn(["current", "power", "apparent power"]), doc: "Rating." } as const;
const rated = { ...enters, idle: true } as const;

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
  },
  traits: () => ({ enters: true }),
  ports: () => [{ name: "", current: "AC", shape: "pair" }],
  elements: () => [],
});

export const adapter = defineKind({
  name: "adapter",
  also: ["supply lead", "shore cord"],
  says: "a lead or plug between a supply and an inlet",
  symbol: { usual: "plug" },
  facts: {
    rated,
    upstream: { value: quantity("current", { min: 0 }), doc: "Device on the supply's side of it.", idle: true },
    residual: { value: quantity("current", { min: 0 }), doc: "Residual current that it opens at.", idle: true },
  },
  traits: () => ({}),
  ports: () => [{ name: "", current: "AC", shape: "pair" }], // one piece of metal for each core, whichever end is meant
  elements: () => [],
});

/** When a source joins neutral and earth. */
const neutralEarth = {
  value: word(["always", "never"]),
  doc: "Whether it joins neutral and earth.",
  idle: true,
} as const;

export const generator = defineKind({
  name: "generator",
  also: ["genset"],
  says: "an engine-driven source of alternating current",
  symbol: { usual: "generator_set" },
  facts: {
    rated: enters,
    neutral: { value: word(["floating", "joined to earth"]), doc: "What its neutral does.", idle: true },
    "neutral–earth join": neutralEarth,
  },
  traits: () => ({ enters: true }),
  ports: () => [{ name: "", current: "AC", shape: "pair" }],
  elements: () => [],
});

/** Set into the protective conductor alone by `in PE`, or into a path with all its cores. */
export const galvanicIsolator = defineKind({
  name: "galvanic isolator",
  says: "a blocker of small direct currents in the shore earth",
  symbol: { usual: "galvanic_isolator" },
  facts: { rated, "fail-safe": { value: yesNo(), doc: "Whether it stays whole when it fails.", idle: true } },
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
  facts: { rated, "neutral–earth join": neutralEarth },
  traits: () => ({}),
  ports: () => [
    { name: "in", current: "AC", shape: "pair" },
    { name: "out", current: "AC", shape: "pair" },
  ],
  elements: () => [],
});

export const transferSwitch = defineKind({
  name: "transfer switch",
  also: ["changeover switch"],
  says: "a switch that chooses one source, break before make",
  symbol: { usual: "transfer_switch" },
  facts: {
    rated,
    poles: { value: count(1, 4), doc: "How many poles it moves; else two." },
    inputs: { value: listOf(name("an input")), doc: "Names of its inputs." },
    off: { value: yesNo(), doc: "Whether it has an off position." },
    automatic: { value: yesNo(), doc: "Whether it moves by itself.", idle: true },
  },
  traits: () => ({}),
  ports: ({ facts }) => [
    ...inputsOf(known(facts.inputs)).map((i) => ({ name: i, current: "AC" as const, shape: "pair" as const })),
    { name: "out", current: "AC", shape: "pair" },
  ],
  positions: ({ facts }) => [...(known(facts.off) === true ? ["off"] : []), ...inputsOf(known(facts.inputs))],
  elements({ part, facts, t, cores }) {
    const poles = known(facts.poles) ?? 2;
    const live = cores.filter((c) => c !== "PE");
    return inputsOf(known(facts.inputs)).flatMap((input) =>
      cores.map((fn): InternalElement => {
        const between = { part, a: t(input, fn), b: t("out", fn) };
        return fn !== "PE" && live.indexOf(fn) < poles
          ? ({
              is: "contact",
              id: `${part}:${input}:${fn}`,
              ...between,
              ohms: exactly(0, "derived"),
              closedIn: [input],
            } satisfies Contact)
          : { is: "join", id: `${part}:${input}:${fn}`, ...between };
      }),
    );
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
    "resistance to earth": { value: quantity("resistance", { min: 0 }), doc: "Resistance to earth.", idle: true },
  },
  traits: () => ({}),
  ports: () => [{ name: "", current: "either", shape: "pole" }],
  elements: () => [],
});
