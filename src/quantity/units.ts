/**
 * The one list of units. No conversion factor stands anywhere else in the project.
 *
 * Each dimension holds its units by the one spelling that is printed. `si` is the size of one unit, as a fraction so that
 * decimal units stay exact (`25 mm` is 0.025, no dust): inside = (number − zero) · si[0] / si[1]. `read` holds the other
 * spellings that are understood. A spelling is written here once: `(s)` stands for the word with and without it, and
 * `spellings.ts` adds what keyboards make of it (`mm2` and `mm^2` for `mm²`, `ohm` for `Ω`, `Nm` for `N·m`, …).
 * Letters may be typed in either case where no other unit is meant by it.
 *
 * A spelling may stand in several dimensions: `m` is a metre where a length is expected and a minute where a time is.
 *
 * Factors without a remark are decimal by definition of the SI prefixes. The others are exact too, unless said:
 * - foot 0.3048 m, inch 0.0254 m, yard 0.9144 m, mile 1609.344 m: international yard and pound agreement of 1959, as in
 *   NIST SP 811:2008, app. B.6 (values in bold there are exact)
 * - pound 0.453 592 37 kg, ounce a sixteenth of it: the same
 * - pound-force 4.448 221 615 260 5 N = pound × 9.806 65 m/s²: the same
 * - circular mil: the area of a circle of 0.001 in, π/4 · 0.0254² mm²; carries π, so rounded to a double
 * - horsepower 550 lbf·ft/s: the same
 * - degree Fahrenheit: t/°C = (t/°F − 32)/1.8, NIST SP 811:2008, app. B.8; kelvin: t/°C = T/K − 273.15, SI Brochure 9, 2.3.1
 */

/** One unit as the list holds it. */
export interface UnitRow {
  /** Size of one unit in the unit inside, numerator and denominator. */
  readonly si: readonly [number, number];
  /** Number on this unit's own scale that is zero inside; only temperatures have one. */
  readonly zero?: number;
  /** Other spellings, with `|` between them. */
  readonly read?: string;
  /** The smaller unit that may follow, with how many of it make one: 16 ft 4 in. */
  readonly then?: readonly [unit: string, parts: number];
}

const LB = [45_359_237, 1e8] as const;
const LBF = [44_482_216_152_605, 1e13] as const;
const HOUR = 3600;
const DAY = 24 * HOUR;
const CIRCULAR_MIL = (Math.PI / 4) * 0.0254 ** 2;

export const units = {
  length: {
    m: { si: [1, 1], read: "metre(s)|meter(s)|mtr(s)", then: ["cm", 100] },
    mm: { si: [1, 1000], read: "millimetre(s)|millimeter(s)" },
    cm: { si: [1, 100], read: "centimetre(s)|centimeter(s)" },
    km: { si: [1000, 1], read: "kilometre(s)|kilometer(s)" },
    ft: { si: [3048, 10_000], read: "'|foot|feet|ft.", then: ["in", 12] },
    in: { si: [254, 10_000], read: `"|''|inch|inches|in.` },
    yd: { si: [9144, 10_000], read: "yard(s)" },
    mi: { si: [1_609_344, 1000], read: "mile(s)" },
    mil: { si: [254, 1e7], read: "mils|thou" },
  },
  area: {
    "mm²": {
      si: [1, 1],
      read: "sq mm|sqmm|sq. mm|sq.mm|mm sq|qmm|mmq|SQ|square|кв.мм|square mm|square millimetre(s)|square millimeter(s)",
    },
    "cm²": { si: [100, 1], read: "sq cm|sqcm|square cm" },
    "m²": { si: [1e6, 1], read: "sq m|sqm|square metre(s)|square meter(s)" },
    "in²": { si: [64_516, 100], read: "sq in|sqin|sq. in|sq. in.|square inch|square inches" },
    "ft²": { si: [9_290_304, 100], read: "sq ft|sqft|square foot|square feet" },
    kcmil: { si: [CIRCULAR_MIL * 1000, 1], read: "MCM" },
    cmil: { si: [CIRCULAR_MIL, 1], read: "cmils|CM|circular mil(s)" },
  },
  current: {
    A: { si: [1, 1], read: "amp(s)|ampere(s)" },
    mA: { si: [1, 1000], read: "milliamp(s)|milliampere(s)" },
    µA: { si: [1, 1e6], read: "microamp(s)" },
    kA: { si: [1000, 1], read: "kiloamp(s)" },
  },
  voltage: {
    V: { si: [1, 1], read: "volt(s)|VDC|VAC|V DC|V AC" },
    mV: { si: [1, 1000], read: "millivolt(s)" },
    µV: { si: [1, 1e6], read: "microvolt(s)" },
    kV: { si: [1000, 1], read: "kilovolt(s)" },
  },
  power: {
    W: { si: [1, 1], read: "watt(s)" },
    mW: { si: [1, 1000], read: "milliwatt(s)" },
    kW: { si: [1000, 1], read: "kilowatt(s)" },
    MW: { si: [1e6, 1], read: "megawatt(s)" },
    hp: { si: [550 * LBF[0] * 3048, LBF[1] * 10_000], read: "horsepower" },
  },
  "apparent power": {
    VA: { si: [1, 1], read: "volt-amp(s)|volt-ampere(s)" },
    kVA: { si: [1000, 1] },
  },
  energy: {
    Wh: { si: [HOUR, 1], read: "W·h|watt-hour(s)|watt hour(s)" },
    kWh: { si: [1000 * HOUR, 1], read: "kW·h|kilowatt-hour(s)|kilowatt hour(s)" },
    MWh: { si: [1e6 * HOUR, 1] },
    J: { si: [1, 1], read: "joule(s)" },
    kJ: { si: [1000, 1] },
    MJ: { si: [1e6, 1] },
  },
  "daily energy": {
    "Wh/day": { si: [HOUR, 1], read: "Wh/d|watt-hours/day" },
    "kWh/day": { si: [1000 * HOUR, 1], read: "kWh/d" },
    "J/day": { si: [1, 1], read: "J/d" },
    Wh: { si: [HOUR, 1], read: "watt-hour(s)|watt hour(s)" },
    kWh: { si: [1000 * HOUR, 1] },
  },
  charge: {
    Ah: { si: [HOUR, 1], read: "A·h|amp-hour(s)|amp hour(s)|ampere-hour(s)" },
    mAh: { si: [HOUR, 1000] },
    kAh: { si: [1000 * HOUR, 1] },
    C: { si: [1, 1], read: "coulomb(s)" },
  },
  resistance: {
    Ω: { si: [1, 1], read: "R" },
    mΩ: { si: [1, 1000], read: "milliohm(s)" },
    µΩ: { si: [1, 1e6], read: "microhm(s)|microohm(s)" },
    kΩ: { si: [1000, 1], read: "kilohm(s)|kiloohm(s)" },
    MΩ: { si: [1e6, 1], read: "megohm(s)|megaohm(s)" },
  },
  "resistance per length": {
    "Ω/m": { si: [1, 1] },
    "mΩ/m": { si: [1, 1000] },
    "Ω/km": { si: [1, 1000] },
    "Ω/ft": { si: [10_000, 3048] },
    "mΩ/ft": { si: [10, 3048] },
    "Ω/kft": { si: [10, 3048], read: "Ω/1000 ft|Ω/1000ft|Ω/1000'" },
  },
  resistivity: {
    "Ω·mm²/m": { si: [1, 1] },
    "Ω·m": { si: [1e6, 1] },
    "Ω·cmil/ft": { si: [CIRCULAR_MIL * 10_000, 3048] },
  },
  capacitance: {
    F: { si: [1, 1], read: "farad(s)" },
    mF: { si: [1, 1000], read: "millifarad(s)" },
    µF: { si: [1, 1e6], read: "microfarad(s)" },
    nF: { si: [1, 1e9], read: "nanofarad(s)" },
    pF: { si: [1, 1e12], read: "picofarad(s)" },
  },
  inductance: {
    H: { si: [1, 1], read: "henry|henries|henrys" },
    mH: { si: [1, 1000], read: "millihenry|millihenries" },
    µH: { si: [1, 1e6], read: "microhenry|microhenries" },
    nH: { si: [1, 1e9] },
  },
  temperature: {
    "°C": { si: [1, 1], read: "C|℃|Celsius|degrees C|degrees Celsius|degree(s) centigrade" },
    "°F": { si: [5, 9], zero: 32, read: "F|℉|Fahrenheit|degrees F|degrees Fahrenheit" },
    K: { si: [1, 1], zero: 273.15, read: "kelvin(s)" },
  },
  "temperature difference": {
    K: { si: [1, 1], read: "kelvin(s)" },
    "°C": { si: [1, 1], read: "C|℃|degrees C" },
    "°F": { si: [5, 9], read: "F|℉|degrees F" },
  },
  "per kelvin": {
    "%/K": { si: [1, 100], read: "%|%/°C|%/C|percent/K|percent/°C" },
    "1/K": { si: [1, 1], read: "1/°C|/K|/°C|K⁻¹" },
    "ppm/K": { si: [1, 1e6], read: "ppm/°C" },
  },
  "voltage per kelvin": {
    "V/K": { si: [1, 1], read: "V/°C|V/C" },
    "mV/K": { si: [1, 1000], read: "mV/°C|mV/C" },
  },
  time: {
    s: { si: [1, 1], read: "sec(s)|second(s)", then: ["ms", 1000] },
    ms: { si: [1, 1000], read: "millisecond(s)|msec" },
    µs: { si: [1, 1e6], read: "microsecond(s)" },
    min: { si: [60, 1], read: "m|mins|minute(s)", then: ["s", 60] },
    h: { si: [HOUR, 1], read: "hr(s)|hour(s)", then: ["min", 60] },
    d: { si: [DAY, 1], read: "day(s)", then: ["h", 24] },
  },
  "daily time": {
    "h/day": { si: [HOUR, 1], read: "h/d|hr(s)/day|hour(s)/day" },
    "min/day": { si: [60, 1], read: "min/d|mins/day|minute(s)/day" },
    "s/day": { si: [1, 1], read: "s/d|second(s)/day" },
    h: { si: [HOUR, 1], read: "hr(s)|hour(s)", then: ["min", 60] },
    min: { si: [60, 1], read: "m|mins|minute(s)", then: ["s", 60] },
    s: { si: [1, 1], read: "sec(s)|second(s)" },
  },
  "sun-hours": {
    "sun-hours": {
      si: [HOUR, 1],
      read: "sun-hour|sun hour(s)|sunhour(s)|peak sun hour(s)|peak sun-hour(s)|PSH|sun-hours/day",
    },
    "kWh/m²": { si: [HOUR, 1], read: "kWh/m²/day|kWh/m²/d|kWh/(m²·day)|kWh/(m²·d)" },
    "sun-seconds": { si: [1, 1] },
  },
  frequency: {
    Hz: { si: [1, 1], read: "hertz|cps" },
    kHz: { si: [1000, 1] },
    MHz: { si: [1e6, 1] },
  },
  torque: {
    "N·m": { si: [1, 1], read: "newton metre(s)|newton meter(s)" },
    "lbf·in": { si: [LBF[0] * 254, LBF[1] * 10_000], read: "lb·in|lbs·in|in·lb(s)|in·lbf|inch-pound(s)|inch pound(s)" },
    "lbf·ft": {
      si: [LBF[0] * 3048, LBF[1] * 10_000],
      read: "lb·ft|lbs·ft|ft·lb(s)|ft·lbf|foot-pound(s)|foot pound(s)",
    },
  },
  force: {
    N: { si: [1, 1], read: "newton(s)" },
    kN: { si: [1000, 1] },
    lbf: { si: LBF, read: "lb|lbs|pound(s)|pound(s)-force" },
  },
  mass: {
    kg: { si: [1, 1], read: "kgs|kilo(s)|kilogram(s)" },
    g: { si: [1, 1000], read: "gram(s)" },
    t: { si: [1000, 1], read: "tonne(s)" },
    lb: { si: LB, read: "lbs|pound(s)", then: ["oz", 16] },
    oz: { si: [LB[0], LB[1] * 16], read: "ounce(s)" },
  },
  "let-through": {
    "A²s": { si: [1, 1], read: "A²·s" },
  },
  ratio: {
    "%": { si: [1, 100], read: "percent|per cent|pct" },
    "": { si: [1, 1] },
  },
  count: {
    "": { si: [1, 1] },
  },
} as const satisfies Record<string, Record<string, UnitRow>>;

type Units = typeof units;
/** The printed spellings of the units of a dimension: `UnitOf<"mass">` is `"kg" | "g" | "t" | "lb" | "oz"`. */
export type UnitOf<D extends keyof Units> = D extends keyof Units ? keyof Units[D] & string : never;
