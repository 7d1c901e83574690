import { circuitKeys } from "../src/plan/grammar/circuit-keys.ts";
import { interlockKeys } from "../src/plan/grammar/interlock-keys.ts";
import type { KeyRules } from "../src/plan/grammar/rule.ts";
import {
  climateKeys,
  measuredKeys,
  placeKeys,
  stateKeys,
  stockKeys,
  systemKeys,
  waiverKeys,
  wayKeys,
  zoneKeys,
} from "../src/plan/grammar/section-keys.ts";

/** What the reference page and the JSON Schema say of one section of a plan. */
export interface SectionDoc {
  readonly name: string;
  /** One line for the overview. */
  readonly holds: string;
  /**
   * line: one text · words: a name and a text each · record: fixed keys · map: named things, each with the keys below · parts: their keys
   * hang on their kind · states: fixed keys beside names of parts · anything: not looked into
   */
  readonly shape: "line" | "words" | "record" | "map" | "parts" | "states" | "anything";
  readonly keys?: KeyRules;
  /** Further words, a paragraph each. */
  readonly more?: readonly string[];
  /** Read by the tests without a message. */
  readonly example?: string;
  /** No study uses the section yet. */
  readonly idle?: true;
}

/** In the order in which the reader knows them. A section that is missing here is still listed, without words. */
export const sectionDocs: readonly SectionDoc[] = [
  {
    name: "wireworthy",
    holds: "version of the language: `1`",
    shape: "line",
    example: "wireworthy: 1",
  },
  { name: "name", holds: "what the build is called", shape: "line", example: "name: Coastal sloop" },
  {
    name: "revision",
    holds: "letter, number or date of this version of the plan",
    shape: "line",
    example: "revision: B",
  },
  { name: "country", holds: "where it is used", shape: "line", example: "country: NL" },
  { name: "for", holds: "whom it is made for", shape: "line" },
  {
    name: "axes",
    holds: "what x, y and z mean, in words",
    shape: "anything",
    example: "axes: { x: aft from the stem, y: to starboard, z: up from the waterline }",
  },
  { name: "note", holds: "anything worth writing down", shape: "line" },
  {
    name: "rules",
    holds: "rule set and edition of each system",
    shape: "words",
    more: [
      "Each key is a name out of `systems`. Without an edition the set's usual one stands in and is listed as assumed.",
    ],
    example: "rules: { DC: iso-small-craft 2020+A1:2022 }",
  },
  {
    name: "systems",
    holds: "each supply: its current, its nominal volts, where its return goes",
    shape: "map",
    keys: systemKeys,
    more: ["The key is the name of the supply. A drop in percent is always one of its `nominal` volts."],
    example: `systems:
  DC: { kind: DC, nominal: 12 V, return: BN, earthed at: BN }
  AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] }
parts:
  BN: { kind: bus bar }`,
  },
  {
    name: "stock",
    holds: "what is bought: size system, metal, strands, insulation",
    shape: "record",
    keys: stockKeys,
    example:
      "stock: { sizes: mm², sizes kept: [1.5 mm², 2.5 mm², 6 mm², 16 mm²], metal: tinned copper, insulation: 90 °C }",
  },
  { name: "drop classes", holds: "drop classes of your own", shape: "anything", idle: true },
  { name: "colours", holds: "colour scheme of the insulation", shape: "anything", idle: true },
  { name: "languages", holds: "languages of the labels", shape: "anything", idle: true },
  {
    name: "climate",
    holds: "air temperature where no zone says otherwise",
    shape: "record",
    keys: climateKeys,
    example: "climate: { ambient: 15…35 °C, lowest: -10 °C }",
  },
  {
    name: "zones",
    holds: "what it is like along the runs",
    shape: "map",
    keys: zoneKeys,
    more: [
      "The key is a name of your own; circuits name it under `zone` or `zones`. A zone of kind `engine` counts as engine space under every rule set.",
    ],
    example: `zones:
  engine space: { kind: engine, ambient: 60 °C }
  deck: { kind: [outside, sun] }`,
  },
  {
    name: "places",
    holds: "names for positions",
    shape: "map",
    keys: placeKeys,
    example: "places: { chart table: { at: [6.3 m, 1.1 m, 0.9 m] } }",
  },
  { name: "ways", holds: "stretches along which wire can run", shape: "map", keys: wayKeys },
  {
    name: "parts",
    holds: "everything with terminals",
    shape: "parts",
    more: [
      "The key is the designation that stands on the drawing; `name` is what people say. `kind` decides which further keys a part has: see _Kinds of parts_.",
      "`like: B1` copies the facts of another part except where it sits, its name and what was measured on it; what is written beside it wins.",
    ],
    example: `parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, at: [5.5 m, 1.1 m, 0.1 m] }
  B2: { like: B1, at: [5.9 m, 1.1 m, 0.1 m] }
  AIS: { kind: electronics, running: 0.2 A, always on: yes }`,
  },
  {
    name: "circuits",
    holds: "the conductors, by wire number",
    shape: "map",
    keys: circuitKeys,
    more: [
      "The key is the number on the sleeve. A `path` leads from the supply side to the load side; a direct-current path is its plus conductor, and the return follows from the two ends (`docs/method.md`, section 1).",
      "What is written is pinned: it is judged and never changed. What is left out is chosen: `wire`, `fuse` and `breaker`.",
    ],
    example: `parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah }
  SW1: { kind: switch }
  BN: { kind: bus bar }
  fridge: { kind: load, running: 4.3 A }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
circuits:
  W1: { path: B1 → SW1, length: 0.9 m, fuse: 30 A 0.12 m from B1 }
  W2: { path: SW1 → fridge, length: 5.2 m, wire: 2.5 mm² }
  W3: { path: "B1:− → BN", length: 0.6 m }`,
  },
  {
    name: "interlocks",
    holds: "what keeps switches, plugs and sources from standing in positions that must not meet",
    shape: "map",
    keys: interlockKeys,
    more: [
      "A position is the name of what moves and where it stands: `GEN running`, `INL in`, `TS shore`. A device in the way of a board is named by board and way, `LC:2 on`; its main device `LC:main on`. Whatever is not forbidden here counts as possible.",
    ],
    example: `parts:
  GEN: { kind: generator, rated: 3 kVA, neutral: floating }
  INL: { kind: shore inlet, rated: 16 A }
  LC: { kind: panel, ways: { 1: breaker 16 A 2-pole, 2: breaker 16 A 2-pole, 3: breaker 10 A } }
  heater: { kind: load, running: 4 A }
systems: { AC: { kind: AC, nominal: 230 V } }
circuits:
  W1: { path: INL → LC:1, length: 2 m }
  W2: { path: GEN → LC:2, length: 8 m }
  W3: { path: LC:3 → heater, length: 4 m }
interlocks:
  slide: { never: [LC:1 on, LC:2 on], kind: slide between two breakers }`,
  },
  {
    name: "states",
    holds: "moments: what runs, which sources feed, how full the batteries are",
    shape: "states",
    keys: stateKeys,
    more: [
      "The key is a name of your own. Beside the keys below, a state may give the position of any part by its name: `SW1: off`, `TS: shore`, `fridge: on`.",
      "`never together: [windlass, bow thruster]` under `states` says which loads exclude each other; a list of such lists says it of several groups.",
      "Without `states` there is one, with every load on and the batteries at their lowest. Whatever is written, each load is also judged running alone and starting alone.",
    ],
    example: `parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah }
  SW1: { kind: switch }
  BN: { kind: bus bar }
  fridge: { kind: load, running: 4.3 A }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
circuits:
  W1: { path: B1 → SW1, length: 0.9 m }
  W2: { path: SW1 → fridge, length: 5.2 m }
  W3: { path: "B1:− → BN", length: 0.6 m }
states:
  at anchor: { on: [fridge], charge: 40 % }
  left alone: { like: at anchor, SW1: off, charge: { B1: 80 % } }`,
  },
  { name: "modes", holds: "names of days of different habit", shape: "anything", idle: true },
  { name: "use", holds: "hours or energy a day, by mode", shape: "anything", idle: true },
  { name: "site", holds: "where and in which months", shape: "anything", idle: true },
  { name: "family", holds: "parameters and options of a series of builds", shape: "anything", idle: true },
  {
    name: "waivers",
    holds: "findings that stay, with reason and date",
    shape: "map",
    keys: waiverKeys,
  },
  {
    name: "measured",
    holds: "what was measured, with what, when",
    shape: "map",
    keys: measuredKeys,
    idle: true,
  },
  { name: "photos", holds: "photos by file name", shape: "anything", idle: true },
];
