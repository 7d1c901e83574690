import { wireSize } from "./labels.ts";
import { position } from "./position.ts";
import type { KeyRules } from "./rule.ts";
import { anything, either, figure, listOf, mapOf, name, quantity, text, word, yesNo } from "./values.ts";

/** One supply under `systems:`. */
export const systemKeys = {
  kind: { value: word(["DC", "AC"]), doc: "Direct or alternating current." },
  nominal: { value: quantity("voltage", { above: 0 }), doc: "Nominal volts: the base of every drop in percent." },
  frequency: {
    value: quantity("frequency", { min: 0 }),
    doc: "Frequency of an AC supply; 60 Hz where it says none, at which reactance is the greater.",
  },
  phases: {
    value: word(["single", "split", "three"], { "1": "single", "3": "three", "split phase": "split" }),
    doc: "Phases of an AC supply. Split and three: `nominal` is the volts between two lines.",
  },
  poles: { value: listOf(text()), doc: "Names of the two poles of a DC supply.", idle: true },
  cores: {
    value: listOf(word(["L", "L1", "L2", "L3", "N", "PE"])),
    doc: "Conductors of each circuit of an AC supply.",
  },
  return: { value: name("a part"), doc: "Where a return goes when a circuit says nothing." },
  "earthed at": {
    value: name("a part, or `none`"),
    doc: "Where its return is joined to earth, hull or chassis; `none`: no pole is.",
  },
  "highest charging": {
    value: quantity("voltage", { above: 0 }),
    doc: "Greatest charging volts; else 14.6 V per 12 V.",
  },
} as const satisfies KeyRules;

export const stockKeys = {
  sizes: {
    value: word(["mm²", "AWG", "SAE"], { mm2: "mm²", "AWG and kcmil": "AWG" }),
    doc: "The size system that is bought.",
  },
  "sizes kept": { value: listOf(wireSize()), doc: "The sizes on the shelf; else those usually stocked." },
  "least size": { value: wireSize(), doc: "Nothing thinner is bought." },
  metal: {
    value: word(["tinned copper", "copper", "aluminium"], { "plain copper": "copper", "bare copper": "copper" }),
    doc: "Metal and plating.",
  },
  strands: {
    value: word(["class 1", "class 2", "class 5", "class 6", "type 2", "type 3"], {
      solid: "class 1",
      fine: "class 5",
    }),
    doc: "Stranding.",
  },
  insulation: { value: quantity("temperature"), doc: "Temperature rating of the insulation." },
  choose: {
    value: word(["least copper", "fewest sizes", "least cost"]),
    doc: "What the choice of sizes aims at; else least copper. Fewest sizes may cost more copper, see `copper to spare`; least cost needs `price per metre`.",
  },
  "copper to spare": {
    value: quantity("ratio", { min: 0 }),
    doc: "How much more copper than the least `choose: fewest sizes` may take, in percent; else 10 %.",
  },
  "price per metre": {
    value: mapOf("size", figure()),
    doc: "What a metre of one conductor costs, by size, in one currency: `{ 2.5 mm²: 1.10, 4 mm²: 1.70 }`. Needed for every size on the shelf by `choose: least cost`.",
  },
  devices: { value: listOf(text()), doc: "Device families that are kept.", idle: true },
  spools: { value: anything("a list of spools"), doc: "Reels on the shelf.", idle: true },
  "pack sizes": { value: anything("pack sizes"), doc: "In which numbers things are sold.", idle: true },
  alternates: { value: anything("alternates"), doc: "What may stand in for what.", idle: true },
  prices: { value: anything("file names"), doc: "Price lists.", idle: true },
  currency: { value: text(), doc: "Currency of the price lists.", idle: true },
} as const satisfies KeyRules;

export const climateKeys = {
  ambient: {
    value: quantity("temperature"),
    doc: "Air temperature where no zone says otherwise; a range is taken at its hottest.",
  },
  lowest: { value: quantity("temperature"), doc: "Record low." },
  highest: { value: quantity("temperature"), doc: "Record high.", idle: true },
} as const satisfies KeyRules;

const ZONE_WORDS = [
  "dry",
  "engine",
  "petrol vapour",
  "gas vapour",
  "wet",
  "bilge",
  "outside",
  "sun",
  "on roof",
  "buried",
  "insulated",
  "moving",
  "inaccessible",
  "bath",
  "galley",
  "laundry",
] as const;

export const zoneKeys = {
  kind: {
    value: listOf(
      word(ZONE_WORDS, {
        "engine space": "engine",
        "LPG vapour": "gas vapour",
        damp: "wet",
        head: "bath",
        kitchen: "galley",
        deck: "outside",
        rooftop: "on roof",
      }),
    ),
    doc: "What it is like there. `on roof`: in the sun and less than 19 mm above a roof, where the air is hotter.",
  },
  ambient: { value: quantity("temperature"), doc: "Air temperature there." },
  fuel: { value: word(["diesel", "petrol", "gas", "electric"]), doc: "Fuel of the engine there." },
  name: { value: text(), doc: "What people call it." },
} as const satisfies KeyRules;

export const placeKeys = {
  at: { value: position(), doc: "Where it is." },
  name: { value: text(), doc: "What people call it." },
  zone: { value: listOf(name("a zone")), doc: "The zones that it lies in." },
} as const satisfies KeyRules;

export const wayKeys = {
  from: { value: name("a place"), doc: "One end.", idle: true },
  to: { value: name("a place"), doc: "The other end.", idle: true },
  via: { value: anything("points"), doc: "Points on the way.", idle: true },
  length: { value: quantity("length", { min: 0 }), doc: "Metres along it.", idle: true },
  zone: { value: listOf(name("a zone")), doc: "The zones that it crosses.", idle: true },
  kind: { value: word(["loom", "conduit", "raceway", "open"]), doc: "What holds the wires." },
  metal: {
    value: word(["steel", "aluminium", "none"], { iron: "steel", plastic: "none" }),
    doc: "Metal of the conduit or raceway; steel is magnetic.",
  },
  divided: { value: yesNo(), doc: "`yes`: a wall keeps direct and alternating current apart in it." },
  size: { value: text(), doc: "Size of the conduit or raceway.", idle: true },
  supports: { value: quantity("length", { min: 0 }), doc: "Distance from one support to the next.", idle: true },
  bulkheads: { value: listOf(text()), doc: "Bulkheads that it goes through, and how.", idle: true },
  holds: { value: anything("what it holds already"), doc: "Wires and looms that lie in it already.", idle: true },
} as const satisfies KeyRules;

/** The words of a state that are not names of parts. */
export const stateKeys = {
  like: { value: name("a state"), doc: "Starts from another state; what is written here replaces it." },
  engine: { value: word(["running", "off"], { on: "running", stopped: "off" }), doc: "Whether the engine runs." },
  shore: { value: word(["in", "out"]), doc: "Whether the shore plug is in." },
  sun: { value: yesNo(), doc: "Whether solar modules deliver." },
  charge: {
    value: either(quantity("ratio", { min: 0, max: 1 }), mapOf("battery", quantity("ratio", { min: 0, max: 1 }))),
    doc: "How full the batteries are: one figure, or one for each by name.",
  },
  on: { value: listOf(name("a load")), doc: "Which loads run, beside those always on." },
  ambient: { value: quantity("temperature"), doc: "Air temperature in this state.", idle: true },
} as const satisfies KeyRules;

export const waiverKeys = {
  reason: { value: text(), doc: "Why it is left as it is." },
  until: { value: text(), doc: "End date." },
  date: { value: text(), doc: "When it was decided." },
  by: { value: text(), doc: "The person's role." },
  evidence: { value: text(), doc: "What shows it." },
} as const satisfies KeyRules;

export const measuredKeys = {
  value: { value: text(), doc: "What was read." },
  instrument: { value: text(), doc: "With what." },
  date: { value: text(), doc: "When." },
  state: { value: text(), doc: "In which state." },
} as const satisfies KeyRules;
