import type { Dimension } from "../src/quantity/index.ts";
import { deviceOnLine } from "../src/plan/grammar/device-on-line.ts";
import { path } from "../src/plan/grammar/path.ts";
import { position } from "../src/plan/grammar/position.ts";
import type { ValueRule } from "../src/plan/grammar/rule.ts";
import { count, listOf, mapOf, name, quantity, text, word, yesNo } from "../src/plan/grammar/values.ts";
import { colour } from "../src/plan/grammar/colour.ts";
import { cableLabel, wireLabel, wireSize } from "../src/plan/grammar/labels.ts";

/** One way in which a value is written. The tests read every example by the rule beside it. */
export interface ValueForm {
  readonly form: string;
  readonly means: string;
  readonly examples: readonly string[];
  readonly rule: ValueRule<unknown>;
}

export const valueForms: readonly ValueForm[] = [
  {
    form: "quantity",
    means: "a number and its unit; a number alone is refused where a unit matters",
    examples: ["5.2 m", "5.2m", "17 ft", "16 ft 4 in", "16' 4\""],
    rule: quantity("length"),
  },
  {
    form: "range",
    means: "somewhere between two ends; each study takes the end that hurts",
    examples: ["2.4…3.1 m", "2.4..3.1 m", "2.4 to 3.1 m", "2.4 m - 3.1 m"],
    rule: quantity("length"),
  },
  {
    form: "tolerance",
    means: "a middle, and how far off it may be",
    examples: ["3 m ± 0.2 m", "3 m +/- 0.2 m", "3 m ± 5 %"],
    rule: quantity("length"),
  },
  { form: "about", means: "10 % more or less", examples: ["about 3 m", "~3 m"], rule: quantity("length") },
  {
    form: "unknown",
    means: "nobody knows: no default takes its place, and what hangs on it is said. It may stand for any value",
    examples: ["unknown", "?"],
    rule: quantity("length"),
  },
  {
    form: "wire size",
    means: "in the size system of the wire; areas are compared, labels are printed",
    examples: ["2.5 mm²", "10 AWG", "2/0", "250 kcmil", "8 SAE"],
    rule: wireSize(),
  },
  {
    form: "wire label",
    means:
      "a size with whatever else is printed on the wire: metal, strands, °C, colour; what can mean two things is asked back",
    examples: ["2.5 mm²", "10 AWG tinned type 3 105 °C red", "65/0.30", "14 SWG"],
    rule: wireLabel(),
  },
  {
    form: "cable label",
    means: "conductors, their size and the kind of cable, which decides what the figures count",
    examples: ["3G2.5 H07RN-F", "12/2 boat duplex", "12/2 w/G NM-B", "2.5 T&E"],
    rule: cableLabel(),
  },
  {
    form: "colour",
    means: "a name, or letters that mean one thing everywhere; a stroke before a tracer",
    examples: ["red", "yellow/red", "GNYE", "dark grey"],
    rule: colour(),
  },
  { form: "yes or no", means: "", examples: ["yes", "no", "true", "false"], rule: yesNo() },
  {
    form: "word",
    means: "one of those listed at its key, in any case",
    examples: ["LFP", "lfp"],
    rule: word(["LFP", "AGM"]),
  },
  { form: "whole number", means: "digits without a unit", examples: ["12"], rule: count() },
  {
    form: "name",
    means: "as it is written where the thing is defined; case and extra blanks do not matter",
    examples: ["fridge", "Masthead light"],
    rule: name("a part"),
  },
  {
    form: "list",
    means: "of values of one form; one alone needs no brackets",
    examples: ["[fridge, VHF]", "fridge"],
    rule: listOf(name("a load")),
  },
  {
    form: "map",
    means: "a value for each name",
    examples: ["{ B1: 40 %, B2: 55 % }"],
    rule: mapOf("battery", quantity("ratio")),
  },
  {
    form: "path",
    means:
      "points from the supply side to the load side: `part`, or `part:terminal`; a part with a way through it stands in series, `A + B` is a joint",
    examples: ["B1 → SW1 → BP", "PNL:3 -> fridge", "B3:− → BN"],
    rule: path(),
  },
  {
    form: "device in a line",
    means:
      "rating, perhaps family and poles; `at` a part: right at that end, a length `from` a part: so far along the conductor; `none`: there is none; or the name of a part that says more",
    examples: ["10 A at BP", "30 A class T fuse 0.12 m from B1", "15 A 2-pole at PNL", "none", "unknown", "F18"],
    rule: deviceOnLine(),
  },
  {
    form: "position",
    means: "x, y and z along the axes of the plan; put a blank after each comma",
    examples: ["[5.5 m, 1.1 m, 0.1 m]", "unknown"],
    rule: position(),
  },
  {
    form: "text",
    means: "anything; quote it when it holds `: ` or ` #`, or starts with a sign",
    examples: ["behind the aft bulkhead", '"port side: see photo"'],
    rule: text(),
  },
];

/** A value of each dimension as people write it. The tests read each. */
export const quantityExamples: Partial<Record<Dimension, readonly string[]>> = {
  length: ["5.2 m", "310 mm", "17 ft", "16 ft 4 in"],
  current: ["4.3 A", "200 mA", "3 kA"],
  voltage: ["12.8 V", "230 V"],
  power: ["45 W", "1.2 kW"],
  "apparent power": ["1200 VA", "3 kVA"],
  charge: ["150 Ah"],
  resistance: ["2 mΩ", "0.1 ohm"],
  temperature: ["60 °C", "-10 C", "140 °F"],
  ratio: ["40 %", "40%"],
  time: ["0.5 s", "200 ms", "1 h 30 min"],
  frequency: ["50 Hz"],
  torque: ["12 N·m", "9 lbf·ft"],
  mass: ["23 kg", "50 lb"],
  "per kelvin": ["-0.28 %/K", "-0.28 %"],
};

/** Spellings that read alike, because keyboards and habits differ. The first is the one that is printed. */
export const spellings: readonly {
  readonly what: string;
  readonly alike: readonly string[];
  readonly rule: ValueRule<unknown>;
}[] = [
  { what: "arrow", alike: ["B1 → BP", "B1 -> BP", "B1 => BP"], rule: path() },
  { what: "minus", alike: ["B3:− → BN", "B3:- → BN", "B3:– → BN"], rule: path() },
  { what: "square", alike: ["35 mm²", "35 mm2", "35 mm^2", "35 sq mm", "35mm²"], rule: wireSize() },
  { what: "noughts", alike: ["2/0 AWG", "2/0", "00"], rule: wireSize() },
  { what: "degree", alike: ["60 °C", "60 C", "60 deg C", "140 °F"], rule: quantity("temperature") },
  { what: "ohm", alike: ["2 mΩ", "2 mohm", "2 milliohms"], rule: quantity("resistance") },
  { what: "micro", alike: ["300 µA", "300 uA"], rule: quantity("current") },
  { what: "decimal sign", alike: ["3.4 m", "3,4 m"], rule: quantity("length") },
  { what: "blank before the unit", alike: ["3.4 m", "3.4m"], rule: quantity("length") },
  { what: "feet and inches", alike: ["16 ft 4 in", "16' 4\"", "16'-4\""], rule: quantity("length") },
  { what: "range", alike: ["2.4…3.1 m", "2.4..3.1 m", "2.4-3.1 m", "2.4 to 3.1 m"], rule: quantity("length") },
  { what: "tolerance", alike: ["3 m ± 0.2 m", "3 m +/- 0.2 m"], rule: quantity("length") },
  { what: "about", alike: ["about 3 m", "~3 m", "ca. 3 m", "approx. 3 m"], rule: quantity("length") },
  { what: "unknown", alike: ["unknown", "?", "Unknown"], rule: quantity("length") },
  { what: "yes and no", alike: ["yes", "true", "on", "Yes"], rule: yesNo() },
];

/** A part of each kind, as it may stand under `parts:`. A kind without one is shown by its name alone. */
export const kindExamples: Readonly<Record<string, string>> = {
  battery: "{ kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 150 Ah, short-circuit: 3.0 kA }",
  alternator: "{ kind: alternator, rated: 80 A, self-limited: unknown }",
  charger: "{ kind: charger, output: 30 A, input: 3 A }",
  "DC-DC charger": "{ kind: DC-DC charger, output: 30 A, input: 36 A, both ways: no }",
  "DC-DC converter": "{ kind: DC-DC converter, nominal: 12 V, output: 20 A }",
  "solar module": "{ kind: solar module, rated: 175 W, Voc: 24.4 V, Vmp: 20.2 V, Isc: 9.2 A }",
  "solar controller": "{ kind: solar controller, output: 30 A }",
  inverter: "{ kind: inverter, rated: 1200 VA, efficiency: 88 %, idle: 8 W }",
  "inverter-charger": "{ kind: inverter-charger, rated: 3000 VA, charging: 70 A }",
  switch: "{ kind: switch, name: main switch, rated: 300 A }",
  relay: "{ kind: relay, rated: 200 A }",
  "selector switch": "{ kind: selector switch, rated: 250 A }",
  shunt: "{ kind: shunt, rated: 500 A }",
  fuse: "{ kind: fuse, rated: 200 A, family: class T }",
  breaker: "{ kind: breaker, rated: 100 A, poles: 1 }",
  "bus bar": "{ kind: bus bar, rated: 250 A }",
  combiner: "{ kind: combiner }",
  structure: "{ kind: structure, name: chassis, joints: [front, rear] }",
  panel: "{ kind: panel, ways: 6, device: breaker, negative bar: yes }",
  "fuse block": "{ kind: fuse block, ways: { 1: 10 A, 2: 5 A }, negative bar: yes }",
  load: "{ kind: load, running: 4.3 A, starting: 8 A, starts above: 11.5 V }",
  light: "{ kind: light, count: 5, looped: yes, running: 0.12 A }",
  outlet: "{ kind: outlet, running: 5 A }",
  electronics: "{ kind: electronics, running: 0.4 A, transmitting: 5.5 A }",
  "navigation light": "{ kind: navigation light, running: 0.3 A }",
  "bilge pump": "{ kind: bilge pump, running: 4.5 A, always on: yes, critical: yes }",
  "bilge blower": "{ kind: bilge blower, motor: DC, running: 4 A }",
  starter: "{ kind: starter, running: 0 A, starting: 400 A, start time: 2 s }",
  "shore inlet": "{ kind: shore inlet, rated: 16 A }",
  adapter: "{ kind: adapter, rated: 16 A }",
  generator: "{ kind: generator, rated: 4 kW, neutral: floating }",
  "galvanic isolator": "{ kind: galvanic isolator, rated: 16 A }",
  "isolation transformer": "{ kind: isolation transformer, rated: 16 A }",
  "transfer switch": "{ kind: transfer switch, inputs: [shore, inverter], off: yes }",
  "earth electrode": "{ kind: earth electrode }",
};
