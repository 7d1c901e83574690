import { cite, formula } from "../../explain/index.ts";
import {
  amps,
  ampSquaredSeconds,
  celsius,
  seconds,
  squareMillimetres,
  type Amps,
  type AmpSquaredSeconds,
  type Celsius,
  type Seconds,
  type SquareMillimetres,
} from "../../quantity/index.ts";
import type { Metal } from "../../wire/index.ts";

/**
 * Constants of heating without loss: K in A·√s/mm², β in °C, below which the metal's resistance would vanish.
 *
 * @source IEC 60949 and IEC 60364-5-54 annex A, as reprinted; β of copper 234.5, of aluminium 228
 */
export const ADIABATIC: Readonly<Record<Metal, { readonly k: number; readonly beta: number }>> = {
  copper: { k: 226, beta: 234.5 },
  aluminium: { k: 148, beta: 228 },
};

const source = cite("iec-60364-5-54", "annex A, heating without loss of heat; also IEC 60949", "read");
const metalSymbol = { unit: "", meaning: "metal; gives K and β" } as const;

/**
 * What a square millimetre of a conductor withstands between two temperatures when no heat is lost: I·√t = k·S.
 *
 * Holds from 0.1 s, below which the current is no steady one and what the device lets through counts, to 5 s, beyond which the loss of heat makes it safe.
 *
 * @param initialC before the fault: what the load left, °C
 * @param finalC that the insulation stands for seconds, °C
 * @returns A·√s/mm²; 0 where the one is no lower than the other
 * @accuracy within 1 % of the k of BS 7671 tables 43.1 and 54.2 to 54.6
 * @source k = K·√ln((θf + β) / (θi + β))
 * @example PVC of 70 °C: every table prints 115
 * adiabaticK({ metal: "copper", initialC: celsius(70), finalC: celsius(160) }) //=> 115.0
 */
export const adiabaticK = formula(
  {
    id: "adiabatic-k",
    equation: "k = K·√ln((θf + β) / (θi + β))",
    source,
    symbols: {
      metal: metalSymbol,
      initialC: { symbol: "θi", unit: "°C", meaning: "temperature before the fault" },
      finalC: { symbol: "θf", unit: "°C", meaning: "temperature that the insulation stands for seconds" },
    },
    unit: "A·√s/mm²",
  },
  ({ metal, initialC, finalC }: { readonly metal: Metal; readonly initialC: Celsius; readonly finalC: Celsius }) => {
    const { k, beta } = ADIABATIC[metal];
    return finalC <= initialC ? 0 : k * Math.sqrt(Math.log((finalC + beta) / (initialC + beta)));
  },
);

/**
 * What a conductor withstands: to be no less than what its device lets through.
 *
 * @param k A·√s/mm²
 * @param area of one conductor; of several in parallel each has its share of the current
 * @returns A²s
 * @source IEC 60364-4-43 434.5.2: I²t ≤ k²·S²
 * @example
 * withstandI2t({ k: 115, area: squareMillimetres(2.5) }) //=> 82656.25
 */
export const withstandI2t = formula(
  {
    id: "withstand-i2t",
    equation: "I²t = k²·S²",
    source: cite("iec-60364-4-43", "434.5.2", "memory"),
    symbols: {
      k: { unit: "A·√s/mm²", meaning: "withstand of a square millimetre" },
      area: { symbol: "S", unit: "mm²", meaning: "area of the conductor" },
    },
    unit: "A²s",
  },
  ({ k, area }: { readonly k: number; readonly area: SquareMillimetres }): AmpSquaredSeconds =>
    ampSquaredSeconds((k * area) ** 2),
);

/**
 * Least area for a fault.
 *
 * @param i2t what the device lets through, A²s; I²·t of a steady fault
 * @param k A·√s/mm²
 * @source S = √(I²t) / k
 * @example BS 7671 543.1.3 with 500 A for 0.1 s and k = 115: take 1.5 mm²
 * leastFaultArea({ i2t: 500 ** 2 * 0.1, k: 115 }) //=> 1.375
 */
export const leastFaultArea = formula(
  {
    id: "least-fault-area",
    equation: "S = √(I²t) / k",
    source: cite("bs-7671-2018", "543.1.3", "read"),
    symbols: {
      i2t: { symbol: "I²t", unit: "A²s", meaning: "what the device lets through" },
      k: { unit: "A·√s/mm²", meaning: "withstand of a square millimetre" },
    },
    unit: "mm²",
  },
  ({ i2t, k }: { readonly i2t: number; readonly k: number }): SquareMillimetres =>
    squareMillimetres(Math.sqrt(i2t) / k),
);

/** A conductor in a fault. */
export interface FaultedConductor {
  readonly metal: Metal;
  /** Of one conductor. */
  readonly area: SquareMillimetres;
  /** Before the fault. */
  readonly initialC: Celsius;
}

const faultSymbols = {
  metal: metalSymbol,
  area: { symbol: "S", unit: "mm²", meaning: "area of the conductor" },
  initialC: { symbol: "θi", unit: "°C", meaning: "temperature before the fault" },
} as const;

/**
 * Temperature of a conductor after a fault, when no heat is lost.
 *
 * @param i2t A²s; ≥ 0
 * @returns °C; beyond 1000 °C the metal is gone and the number means nothing more
 * @source θf = (β + θi)·exp(I²t / (K·S)²) − β
 * @example 82 656 A²s brings 2.5 mm² from 70 °C to 160 °C
 * adiabaticTemperature({ metal: "copper", area: squareMillimetres(2.5), initialC: celsius(70), i2t: 82656.25 }) //=> 160.0
 */
export const adiabaticTemperature = formula(
  {
    id: "adiabatic-temperature",
    equation: "θf = (β + θi)·exp(I²t / (K·S)²) − β",
    source,
    symbols: {
      ...faultSymbols,
      i2t: { symbol: "I²t", unit: "A²s", meaning: "what flows through it, squared and summed" },
    },
    unit: "°C",
  },
  ({ metal, area, initialC, i2t }: FaultedConductor & { readonly i2t: number }): Celsius => {
    const { k, beta } = ADIABATIC[metal];
    return celsius((beta + initialC) * Math.exp(i2t / (k * area) ** 2) - beta);
  },
);

/**
 * Time in which a steady fault current brings a conductor to a temperature, when no heat is lost.
 *
 * @param current A; > 0
 * @param limitC °C
 * @returns s; 0 where it is that hot already; a device has to open before
 * @accuracy up to 5 s as the k; later the true time is longer: see `timeToReach`
 * @source t = k²·S² / I²
 * @example 1 kA through 2.5 mm² of PVC wire at 70 °C
 * adiabaticTime({ metal: "copper", area: squareMillimetres(2.5), initialC: celsius(70), limitC: celsius(160), current: amps(1000) }) //=> 0.0827
 */
export const adiabaticTime = formula(
  {
    id: "adiabatic-time",
    equation: "t = k²·S² / I²",
    source,
    symbols: {
      ...faultSymbols,
      limitC: { symbol: "θf", unit: "°C", meaning: "temperature that it may reach" },
      current: { symbol: "I", unit: "A", meaning: "fault current" },
    },
    unit: "s",
  },
  (given: FaultedConductor & { readonly limitC: Celsius; readonly current: Amps }): Seconds =>
    seconds(
      ((adiabaticK({ metal: given.metal, initialC: given.initialC, finalC: given.limitC }) * given.area) /
        given.current) **
        2,
    ),
);

/**
 * The same law as American cable makers print it, as a cross-check: the current that brings a conductor from one temperature to another.
 *
 * @param circularMils area of the conductor; 1 mm² is 1973.5
 * @param seconds of the fault
 * @returns A
 * @accuracy 0.8 % below the form with K = 226
 * @source ICEA P-32-382: (I/A)²·t = 0.0297·log10((T2 + 234) / (T1 + 234)); aluminium 0.0125 and 228 (memory)
 * @example 1/0 AWG from 75 to 150 °C in a second
 * iceaFaultCurrent({ metal: "copper", circularMils: 105600, initialC: celsius(75), finalC: celsius(150), seconds: seconds(1) }) //=> 5590.7
 */
export const iceaFaultCurrent = formula(
  {
    id: "icea-fault-current",
    equation: "I = A·√(c·log10((T2 + b) / (T1 + b)) / t)",
    source: cite("icea-p-32-382", "short-circuit currents of insulated conductors", "article"),
    symbols: {
      metal: { unit: "", meaning: "metal; gives c and b" },
      circularMils: { symbol: "A", unit: "circular mil", meaning: "area of the conductor" },
      initialC: { symbol: "T1", unit: "°C", meaning: "temperature before the fault" },
      finalC: { symbol: "T2", unit: "°C", meaning: "temperature that it may reach" },
      seconds: { symbol: "t", unit: "s", meaning: "time of the fault" },
    },
    unit: "A",
  },
  (given: {
    readonly metal: Metal;
    readonly circularMils: number;
    readonly initialC: Celsius;
    readonly finalC: Celsius;
    readonly seconds: Seconds;
  }): Amps => {
    const { c, b } = given.metal === "copper" ? { c: 0.0297, b: 234 } : { c: 0.0125, b: 228 };
    const { circularMils, initialC, finalC } = given;
    return amps(circularMils * Math.sqrt((c * Math.log10((finalC + b) / (initialC + b))) / given.seconds));
  },
);
