/**
 * Numbers that know their unit. Inside the house every physical number is SI, except areas (mm²) and temperatures (°C).
 *
 * A `Quantity` is a plain number at run time: it costs nothing, adds, compares and survives `JSON.stringify`. Arithmetic
 * drops the brand; putting it back (`return volts(a * b)`) is where author and reader check the dimension.
 */

declare const unit: unique symbol;

/** A number in the unit `U`. The symbol is private, so that only the functions of this file can make one. */
export type Quantity<U extends string> = number & { readonly [unit]: U };

export type Volts = Quantity<"V">;
export type Amps = Quantity<"A">;
export type Ohms = Quantity<"Ω">;
export type Siemens = Quantity<"S">;
export type Watts = Quantity<"W">;
export type VoltAmperes = Quantity<"VA">;
export type Joules = Quantity<"J">;
export type Coulombs = Quantity<"C">;
export type Metres = Quantity<"m">;
export type Seconds = Quantity<"s">;
export type Hertz = Quantity<"Hz">;
export type SquareMillimetres = Quantity<"mm²">;
/** A temperature on the Celsius scale; differences are `Kelvins`. */
export type Celsius = Quantity<"°C">;
/** A temperature difference. */
export type Kelvins = Quantity<"K">;
export type OhmsPerMetre = Quantity<"Ω/m">;
/** Resistivity as the trade writes it, Ω of one metre of one square millimetre: copper about 0.0172. */
export type OhmSquareMillimetresPerMetre = Quantity<"Ω·mm²/m">;
/** Part of one: 40 % is 0.4. */
export type Ratio = Quantity<"1">;
/** Whole number of things. */
export type Count = Quantity<"things">;
/** Relative change for each kelvin: −0.28 %/K is −0.0028. */
export type PerKelvin = Quantity<"1/K">;
export type VoltsPerKelvin = Quantity<"V/K">;
export type NewtonMetres = Quantity<"N·m">;
export type Newtons = Quantity<"N">;
export type Kilograms = Quantity<"kg">;
export type Henries = Quantity<"H">;
export type Farads = Quantity<"F">;
/** What a device lets through or a conductor withstands, ∫i²dt. */
export type AmpSquaredSeconds = Quantity<"A²s">;

/** Says that a number is in the unit `U`: the one place where a brand is put on. */
const inUnit =
  <U extends string>(): ((x: number) => Quantity<U>) =>
  (x) =>
    x as Quantity<U>; // a brand exists for the compiler only, so nothing but an assertion can add it

/** Volts. */
export const volts = inUnit<"V">();
/** Amperes. */
export const amps = inUnit<"A">();
/** Ohms. */
export const ohms = inUnit<"Ω">();
/** Siemens, conductance. */
export const siemens = inUnit<"S">();
/** Watts. */
export const watts = inUnit<"W">();
/** Volt-amperes, apparent power. */
export const voltAmperes = inUnit<"VA">();
/** Joules. */
export const joules = inUnit<"J">();
/** Coulombs. */
export const coulombs = inUnit<"C">();
/** Metres. */
export const metres = inUnit<"m">();
/** Seconds. */
export const seconds = inUnit<"s">();
/** Hertz. */
export const hertz = inUnit<"Hz">();
/** Square millimetres: areas are not in SI, because the trade's sizes are not. */
export const squareMillimetres = inUnit<"mm²">();
/** Degrees Celsius on the scale. */
export const celsius = inUnit<"°C">();
/** Kelvins of difference. */
export const kelvins = inUnit<"K">();
/** Ohms for each metre. */
export const ohmsPerMetre = inUnit<"Ω/m">();
/** Ohms of one metre of one square millimetre. */
export const ohmSquareMillimetresPerMetre = inUnit<"Ω·mm²/m">();
/** Part of one. */
export const ratio = inUnit<"1">();
/** Whole number of things. */
export const count = inUnit<"things">();
/** Relative change for each kelvin. */
export const perKelvin = inUnit<"1/K">();
/** Volts for each kelvin. */
export const voltsPerKelvin = inUnit<"V/K">();
/** Newton metres. */
export const newtonMetres = inUnit<"N·m">();
/** Newtons. */
export const newtons = inUnit<"N">();
/** Kilograms. */
export const kilograms = inUnit<"kg">();
/** Henries. */
export const henries = inUnit<"H">();
/** Farads. */
export const farads = inUnit<"F">();
/** Ampere-squared seconds. */
export const ampSquaredSeconds = inUnit<"A²s">();
