import {
  count,
  deviceOnLine,
  either,
  known,
  listOf,
  mapOf,
  name,
  quantity,
  recordOf,
  word,
  yesNo,
  type Fact,
  type FactsOf,
} from "../../plan/index.ts";
import type { InternalElement } from "../element.ts";
import type { FactReader } from "../fact-reader.ts";
import { defineKind, type Traits } from "../kind.ts";
import type { Fn, Port } from "../terminal.ts";
import { exactly } from "../value.ts";
import { alternatingBoard } from "./alternating-board.ts";
import { arrayIsolator } from "./array-isolator.ts";
import { reach } from "./reach.ts";
import { residualFacts } from "./residual.ts";

const rated = { value: quantity("current", { min: 0 }), doc: "Continuous rating." } as const;

/** Both poles, or all cores, each on a bar of its own. */
export const combiner = defineKind({
  name: "combiner",
  also: ["junction box", "solar combiner", "string box"],
  says: "a box in which both poles, or all cores, are joined",
  symbol: { usual: "busbar" },
  facts: {
    rated,
    sections: {
      value: listOf(name("a section")),
      doc: "Pairs of bars that are kept apart; a path names one as `combiner.section`.",
    },
    "surge arrester": { value: yesNo(), doc: "Whether it holds one." },
    isolator: arrayIsolator,
    "ground-fault guard": {
      value: yesNo(),
      doc: "Whether it detects a fault of solar modules to earth and isolates them.",
    },
  },
  traits: () => ({ distributes: true }),
  ports: ({ facts }) => {
    const sections = sectionsOf(facts);
    return (sections.length === 0 ? [""] : sections).map((s) => ({ name: s, current: "either", shape: "pair" }));
  },
  elements: () => [],
});

const panelDevice = recordOf(
  {
    ...residualFacts,
    poles: { value: count(1, 4), doc: "Poles that it opens." },
    rated: { value: quantity("current", { min: 0 }), doc: "Rating." },
    kind: { value: word(["breaker", "switch", "fuse"]), doc: "What it is; else a breaker." },
    interrupt: { value: quantity("current", { min: 0 }), doc: "Greatest current that it can open, as marked." },
  },
  "a main device",
);

const panelFacts = {
  ways: {
    value: either(count(1, 200), mapOf("way", deviceOnLine())),
    doc: "How many ways it has, or a map from way to its device: `{ 1: breaker 16 A 2-pole }`.",
  },
  device: { value: word(["breaker", "fuse"]), doc: "What stands in each way." },
  "negative bar": {
    value: yesNo(),
    doc: "`yes`: its branches return to a bar of its own and its feeder carries both poles.",
  },
  main: {
    value: either(panelDevice, deviceOnLine()),
    doc: "Its main device, between its feed and its bar; of a panel with `sections`, in the feed `in`.",
  },
  sections: {
    value: listOf(name("a section")),
    doc: "Bars that are fed apart; a path names one as `panel.section`.",
  },
  rated,
  interrupt: {
    value: quantity("current", { min: 0 }),
    doc: "Greatest current that each device in its ways can open at the volts of the panel, as marked.",
  },
  ...reach,
  "neutral–earth join": { value: word(["always", "never"]), doc: "Whether it joins neutral and earth." },
  "back-fed held": {
    value: yesNo(),
    doc: "`yes`: a fastener holds each plug-on breaker through which it is fed.",
  },
  "fed from both ends": {
    value: yesNo(),
    doc: "`yes`: its main and the breaker of an inverter sit at opposite ends of its bar, marked not to be moved.",
  },
  "polarity indicator": {
    value: yesNo(),
    doc: "`yes`: it shows when line and neutral are exchanged in what feeds it.",
  },
} as const;

type PanelFacts = FactsOf<typeof panelFacts>;

function assumeBreakers(
  { read, facts }: { readonly read: FactReader; readonly facts: PanelFacts },
  inWays: Traits["inWays"],
): void {
  if (
    waysOf(facts).length === 0 ||
    facts.device !== undefined ||
    inWays !== undefined ||
    Array.isArray(facts.ways?.value)
  )
    return;
  read.assume({
    id: "breakers-in-ways",
    value: 0,
    says: "the ways of a panel hold breakers",
    trust: "practice",
    pin: "device",
  });
}

const board = (
  name_: string,
  also: readonly string[],
  says: string,
  inWays: NonNullable<Traits["inWays"]> | undefined,
) =>
  defineKind({
    name: name_,
    also,
    says,
    symbol: { usual: "busbar" },
    facts: panelFacts,
    traits: () => ({ distributes: true, dropUse: "panel feeder", ...(inWays === undefined ? {} : { inWays }) }),
    ports({ facts }) {
      const shape = facts["negative bar"]?.value === true ? "pair" : "line";
      return [
        { name: "in", current: "either", shape },
        ...sectionsOf(facts).map((s): Port => ({ name: s, current: "either", shape })),
        ...waysOf(facts).map((w): Port => ({ name: w, current: "either", shape })),
      ];
    },
    elements(at) {
      const { part, facts, t, current } = at;
      const hasBar = facts["negative bar"]?.value === true;
      if (current === "AC") return alternatingBoard(at, sectionsOf(facts), waysOf(facts));
      const live: Fn[] = [hasBar ? "+" : "pole"];
      const straight: Fn[] = hasBar ? ["−"] : [];
      const elements: InternalElement[] = [];
      const ways = waysOf(facts);
      assumeBreakers(at, inWays);
      for (const way of ways) {
        const dot = way.indexOf(".");
        const bar = dot > 0 ? way.slice(0, dot) : "in";
        for (const fn of live) {
          elements.push({
            is: "contact",
            id: `${part}:${way}`,
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

export const panel = board(
  "panel",
  ["distribution panel", "consumer unit", "load centre", "switch panel", "distribution board"],
  "a board of protective devices",
  undefined,
);
export const fuseBlock = board("fuse block", ["fuse box", "fuse panel"], "a board of fuses", "fuse");

const sectionsOf = (facts: { sections?: Fact<readonly Fact<string>[]> }): string[] =>
  (known(facts.sections) ?? []).map((s) => s.value).filter((s) => s !== "unknown");

function waysOf(facts: { ways?: Fact<number | readonly { readonly name: string }[]> }): string[] {
  const ways = known(facts.ways);
  if (ways === undefined) return [];
  if (typeof ways === "number") return Array.from({ length: ways }, (_, i) => String(i + 1));
  return ways.map((w) => w.name);
}
