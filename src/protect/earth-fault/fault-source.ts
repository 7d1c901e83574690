import { lookUp, type Citation, type Trust } from "../../explain/index.ts";
import { sourceFaultCurrent } from "../../reference/source-fault-current.ts";
import { supplyLoop } from "../../reference/supply-loop.ts";
import { magnitude, NO_IMPEDANCE, type Impedance } from "./impedance.ts";

/** At least and at most. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
}

/** What drives an earth fault. */
export interface FaultSource {
  /** Line to earth. */
  readonly volts: number;
  /** In series with everything, at its least and at its greatest; a null greatest: nobody says it. */
  readonly inside: { readonly least: Impedance; readonly greatest: Impedance | null };
  /** Of a source that gives no more than its limit, whatever stands against it; null: it is stiff. */
  readonly limit: SourceLimit | null;
}

export interface SourceLimit {
  readonly by: "inverter" | "generator";
  /** Into a fault, A. */
  readonly amps: Bounds;
  /** How long it holds that; null: nobody says it. */
  readonly seconds: number | null;
  readonly trust: Trust;
  readonly source: Citation | null;
}

/**
 * A supply from a network, from what its site declares.
 *
 * A prospective current of nothing is no figure: it bounds nothing.
 *
 * The declared impedance of the loop wins over the prospective current, from which the greatest impedance follows as U0 / Ipf. What nobody declares is not
 * bounded above: it may be a long cable.
 *
 * @param loopOhms declared or measured, from line to earth, Ω; null: not known
 * @param prospectiveAmps declared at the place, line to earth or neutral, A; null: not known
 * @example
 * networkSource(230, { low: 0.35, high: 0.35 }, null).inside.greatest //=> { r: 0.35, x: 0 }
 * networkSource(230, null, { low: 1000, high: 6000 }).inside.greatest //=> { r: 0.23, x: 0 }
 * networkSource(230, null, null).inside.greatest //=> null
 */
export function networkSource(volts: number, loopOhms: Bounds | null, prospectiveAmps: Bounds | null): FaultSource {
  const ofAmps = (amps: number): Impedance => ({ r: volts / amps, x: 0 });
  const least =
    loopOhms !== null
      ? { r: loopOhms.low, x: 0 }
      : prospectiveAmps !== null && prospectiveAmps.high > 0
        ? ofAmps(prospectiveAmps.high)
        : NO_IMPEDANCE;
  const greatest =
    loopOhms !== null
      ? { r: loopOhms.high, x: 0 }
      : prospectiveAmps !== null && prospectiveAmps.low > 0
        ? ofAmps(prospectiveAmps.low)
        : null;
  return { volts, inside: { least, greatest }, limit: null };
}

/** Kinds of supply that British networks declare an impedance for. */
export type DeclaredSupply = "TN-C-S" | "TN-S" | "TT";

/**
 * The greatest external loop impedance that networks declare for a kind of supply.
 *
 * At the origin of a building and at 230 V; the electrode of a TT installation comes on top.
 *
 * @returns Ω, from memory
 * @example
 * declaredLoop("TN-S").value //=> 0.8
 */
export function declaredLoop(supply: DeclaredSupply) {
  const found = lookUp(supplyLoop, supply, "greatestOhm");
  if (found === null) throw new Error(`protection/supply_loop has no ${supply}`);
  return found;
}

/** An inverter, or a generator, by its rating. */
export interface LimitedSourceFacts {
  readonly volts: number;
  /** Continuous, A. */
  readonly ratedAmps: Bounds;
  /** For a short time, A; null: not stated. */
  readonly surgeAmps: Bounds | null;
  /** How long; null: not stated. */
  readonly surgeSeconds: number | null;
  /** What its maker says that it drives into a short; null: not stated. */
  readonly declaredAmps: Bounds | null;
}

/** The range of a row of `protection/source_fault_current`, as a multiple of the rating. */
function multipleOf(kind: string, quantity: string): Bounds & { readonly trust: Trust; readonly source: Citation } {
  const low = lookUp(sourceFaultCurrent, `${kind} ${quantity}`, "low");
  const high = lookUp(sourceFaultCurrent, `${kind} ${quantity}`, "high");
  if (low === null || high === null) throw new Error(`protection/source_fault_current has no ${kind}`);
  return { low: low.value, high: high.value, trust: low.trust, source: low.source };
}

/**
 * An inverter as a source of fault current: its limit for its surge time, then less, or nothing.
 *
 * Where its maker says no surge, 1.1 to 1.5 times its rating counts. Volts collapse with the fault, so impedance inside it does not matter.
 *
 * @source `reference/protection/source_fault_current.csv`, articles on protection behind inverters
 * @example 3 kVA at 120 V
 * inverterSource({ volts: 120, ratedAmps: { low: 25, high: 25 }, surgeAmps: null, surgeSeconds: null, declaredAmps: null }).limit.amps //=> { low: 27.5, high: 37.5 }
 */
export function inverterSource(facts: LimitedSourceFacts): FaultSource {
  const { volts, ratedAmps, surgeAmps, surgeSeconds, declaredAmps } = facts;
  const usual = multipleOf("inverter, any", "fault current over rated");
  const byRating: Bounds = { low: usual.low * ratedAmps.low, high: usual.high * ratedAmps.high };
  const amps =
    declaredAmps ??
    (surgeAmps === null ? byRating : { low: surgeAmps.low, high: Math.max(surgeAmps.high, byRating.high) });
  return limited(volts, {
    by: "inverter",
    amps,
    seconds: surgeSeconds,
    ...(declaredAmps === null && surgeAmps === null ? usual : { trust: "read" as const, source: null }),
  });
}

/**
 * A generator as a source of fault current.
 *
 * The first cycles are 5 to 7 times the rating of a synchronous machine; what it holds after that depends on its excitation, and one that makes its current by an
 * inverter gives 1.1 times from the start. Where its maker says nothing, all of that is possible.
 *
 * @source `reference/protection/source_fault_current.csv`
 * @example
 * generatorSource({ volts: 230, ratedAmps: { low: 20, high: 20 }, surgeAmps: null, surgeSeconds: null, declaredAmps: null }).limit.amps //=> { low: 22, high: 140 }
 */
export function generatorSource({ volts, ratedAmps, surgeSeconds, declaredAmps }: LimitedSourceFacts): FaultSource {
  const first = multipleOf("small synchronous generator", "first-cycle fault current over rated");
  const electronic = multipleOf("inverter, any", "fault current over rated");
  const amps = declaredAmps ?? { low: electronic.low * ratedAmps.low, high: first.high * ratedAmps.high };
  return limited(volts, {
    by: "generator",
    amps,
    seconds: surgeSeconds,
    ...(declaredAmps === null ? first : { trust: "read" as const, source: null }),
  });
}

const limited = (volts: number, { by, amps, seconds, trust, source }: SourceLimit): FaultSource => ({
  volts,
  inside: { least: NO_IMPEDANCE, greatest: NO_IMPEDANCE },
  limit: { by, amps: { low: amps.low, high: amps.high }, seconds, trust, source },
});

/**
 * What a source drives through a loop.
 *
 * @param outside loop without the source, Ω
 * @param voltsShare share of the volts that may be reckoned with, e.g. 0.95
 * @returns A; what the source is limited to, where that is less
 * @example
 * driven(networkSource(230, { low: 0.8, high: 0.8 }, null), { r: 0.57, x: 0 }, "least", 0.95) //=> 159.489
 */
export function driven(
  { volts, inside, limit }: FaultSource,
  outside: Impedance,
  end: "least" | "greatest",
  voltsShare = 1,
): number {
  const own = end === "least" ? inside.greatest : inside.least;
  if (own === null) return 0;
  const free = (voltsShare * volts) / magnitude({ r: own.r + outside.r, x: own.x + outside.x });
  return Math.min(free, limit === null ? Infinity : limit.amps[end === "least" ? "low" : "high"]);
}
