import type * as q from "./quantity.ts";
import type { UnitOf } from "./units.ts";

/**
 * What can be asked of a text, and the branded number that answers. Some share a unit inside and differ in what people
 * may write: `daily time` reads `10 h` and `10 h/day`, `time` only the first.
 */
export interface SiTable {
  readonly length: q.Metres;
  readonly area: q.SquareMillimetres;
  readonly current: q.Amps;
  readonly voltage: q.Volts;
  readonly power: q.Watts;
  readonly "apparent power": q.VoltAmperes;
  readonly energy: q.Joules;
  /** Of one day. */
  readonly "daily energy": q.Joules;
  readonly charge: q.Coulombs;
  readonly resistance: q.Ohms;
  readonly "resistance per length": q.OhmsPerMetre;
  readonly resistivity: q.OhmSquareMillimetresPerMetre;
  readonly capacitance: q.Farads;
  readonly inductance: q.Henries;
  readonly temperature: q.Celsius;
  readonly "temperature difference": q.Kelvins;
  readonly "per kelvin": q.PerKelvin;
  readonly "voltage per kelvin": q.VoltsPerKelvin;
  readonly time: q.Seconds;
  /** Of one day. */
  readonly "daily time": q.Seconds;
  /** Of one day, at 1000 W/m². */
  readonly "sun-hours": q.Seconds;
  readonly frequency: q.Hertz;
  readonly torque: q.NewtonMetres;
  readonly force: q.Newtons;
  readonly mass: q.Kilograms;
  readonly "let-through": q.AmpSquaredSeconds;
  readonly ratio: q.Ratio;
  readonly count: q.Count;
}

export type Dimension = keyof SiTable;
/** The branded number of a dimension: `Si<"length">` is `Metres`. */
export type Si<D extends Dimension> = SiTable[D];

/** Units for print, small first, each with the least value, in itself, from which it is used. */
type Ladder<D extends Dimension> = { readonly [U in UnitOf<D>]?: number };

interface DimensionFacts<D extends Dimension> {
  /** As it stands in a message, with its article. */
  readonly called: string;
  /** The unit of the number inside, which a bare number takes where one is allowed. */
  readonly inside: UnitOf<D>;
  /** The unit for zero and for examples in messages: metric, then US. */
  readonly usual: readonly [metric: UnitOf<D>, us: UnitOf<D>];
  readonly metric: Ladder<D>;
  /** Where the US trade prints other units than the metric one. */
  readonly US?: Ladder<D>;
  /** Ends that nature sets, in the unit inside. */
  readonly least?: number;
  readonly most?: number;
  /** Only whole numbers. */
  readonly whole?: true;
}

const DAY = 86_400;

/** Everything about a dimension but its units: the words, the units in print, the ends that nature sets. */
export const dimensions: { readonly [D in Dimension]: DimensionFacts<D> } = {
  length: {
    called: "a length",
    inside: "m",
    usual: ["m", "ft"],
    metric: { mm: 0, m: 1, km: 10 },
    US: { in: 0, ft: 1, mi: 2 },
  },
  area: {
    called: "an area",
    inside: "mm²",
    usual: ["mm²", "kcmil"],
    metric: { "mm²": 0 },
    US: { cmil: 0, kcmil: 250 },
    least: 0,
  },
  current: {
    called: "a current",
    inside: "A",
    usual: ["A", "A"],
    metric: { µA: 0, mA: 0.1, A: 0.1, kA: 1 },
  },
  voltage: {
    called: "a voltage",
    inside: "V",
    usual: ["V", "V"],
    metric: { µV: 0, mV: 0.1, V: 0.1, kV: 1 },
  },
  power: {
    called: "a power",
    inside: "W",
    usual: ["W", "W"],
    metric: { mW: 0, W: 0.1, kW: 1, MW: 1 },
  },
  "apparent power": {
    called: "an apparent power",
    inside: "VA",
    usual: ["VA", "VA"],
    metric: { VA: 0, kVA: 1 },
  },
  energy: {
    called: "an energy",
    inside: "J",
    usual: ["Wh", "Wh"],
    metric: { J: 0, Wh: 0.1, kWh: 1, MWh: 1 },
  },
  "daily energy": {
    called: "an energy a day",
    inside: "J/day",
    usual: ["Wh/day", "Wh/day"],
    metric: { "Wh/day": 0, "kWh/day": 1 },
  },
  charge: {
    called: "a charge",
    inside: "C",
    usual: ["Ah", "Ah"],
    metric: { mAh: 0, Ah: 0.1, kAh: 10 },
  },
  resistance: {
    called: "a resistance",
    inside: "Ω",
    usual: ["mΩ", "mΩ"],
    metric: { µΩ: 0, mΩ: 0.1, Ω: 1, kΩ: 1, MΩ: 1 },
  },
  "resistance per length": {
    called: "a resistance per length",
    inside: "Ω/m",
    usual: ["Ω/km", "Ω/kft"],
    metric: { "Ω/km": 0 },
    US: { "Ω/kft": 0 },
  },
  resistivity: {
    called: "a resistivity",
    inside: "Ω·mm²/m",
    usual: ["Ω·mm²/m", "Ω·cmil/ft"],
    metric: { "Ω·mm²/m": 0 },
    US: { "Ω·cmil/ft": 0 },
  },
  capacitance: {
    called: "a capacitance",
    inside: "F",
    usual: ["µF", "µF"],
    metric: { pF: 0, nF: 1, µF: 1, mF: 1, F: 1 },
  },
  inductance: {
    called: "an inductance",
    inside: "H",
    usual: ["µH", "µH"],
    metric: { nH: 0, µH: 1, mH: 1, H: 1 },
  },
  temperature: {
    called: "a temperature",
    inside: "°C",
    usual: ["°C", "°F"],
    metric: { "°C": 0 },
    US: { "°F": 0 },
    least: -273.15,
  },
  "temperature difference": {
    called: "a temperature difference",
    inside: "K",
    usual: ["K", "°F"],
    metric: { K: 0 },
    US: { "°F": 0 },
  },
  "per kelvin": {
    called: "a change per kelvin",
    inside: "1/K",
    usual: ["%/K", "%/K"],
    metric: { "%/K": 0 },
  },
  "voltage per kelvin": {
    called: "a voltage per kelvin",
    inside: "V/K",
    usual: ["mV/K", "mV/K"],
    metric: { "mV/K": 0, "V/K": 1 },
  },
  time: {
    called: "a time",
    inside: "s",
    usual: ["s", "s"],
    metric: { µs: 0, ms: 0.1, s: 0.1, min: 2, h: 2, d: 2 },
  },
  "daily time": {
    called: "a time a day",
    inside: "s/day",
    usual: ["h/day", "h/day"],
    metric: { "h/day": 0 },
    least: 0,
    most: DAY,
  },
  "sun-hours": {
    called: "a number of sun-hours",
    inside: "sun-seconds",
    usual: ["sun-hours", "sun-hours"],
    metric: { "sun-hours": 0 },
    least: 0,
    most: DAY,
  },
  frequency: {
    called: "a frequency",
    inside: "Hz",
    usual: ["Hz", "Hz"],
    metric: { Hz: 0, kHz: 1, MHz: 1 },
    least: 0,
  },
  torque: {
    called: "a torque",
    inside: "N·m",
    usual: ["N·m", "lbf·in"],
    metric: { "N·m": 0 },
    US: { "lbf·in": 0, "lbf·ft": 10 },
  },
  force: {
    called: "a force",
    inside: "N",
    usual: ["N", "lbf"],
    metric: { N: 0, kN: 1 },
    US: { lbf: 0 },
  },
  mass: {
    called: "a mass",
    inside: "kg",
    usual: ["kg", "lb"],
    metric: { g: 0, kg: 1 },
    US: { oz: 0, lb: 1 },
    least: 0,
  },
  "let-through": {
    called: "a let-through",
    inside: "A²s",
    usual: ["A²s", "A²s"],
    metric: { "A²s": 0 },
    least: 0,
  },
  ratio: {
    called: "a percentage",
    inside: "",
    usual: ["%", "%"],
    metric: { "%": 0 },
  },
  count: {
    called: "a whole number",
    inside: "",
    usual: ["", ""],
    metric: { "": 0 },
    whole: true,
  },
};
