import { driven, type FaultSource } from "./fault-source.ts";
import { inSeries, magnitude, type Impedance, type ImpedanceRange } from "./impedance.ts";

/**
 * ```
 * source ── line ──────────────┐
 *    │                         ╳ fault to a case
 * neutral ── join ── PE ───────┘
 * ```
 * TT: in place of the join the two electrodes.
 */
export interface FaultWay {
  readonly source: FaultSource;
  /** Conductors of the line from the source to the fault. */
  readonly line: ImpedanceRange;
  /** Protective conductors from the fault to where neutral meets earth. */
  readonly protective: ImpedanceRange;
  /** Neutral from there to the source. */
  readonly neutral: ImpedanceRange;
  /** TT: resistances to earth of the two electrodes together, Ω; a null high: nobody says it. Null: no soil in the loop. */
  readonly electrodes: { readonly low: number; readonly high: number | null } | null;
}

/** An earth fault at the end of a circuit. */
export interface FaultLoop {
  /** Of the whole loop, Ω: cold at its least, hot at its greatest; null: a part of it is not known. */
  readonly cold: Impedance;
  readonly hot: Impedance | null;
  /** Magnitudes of the same: the Zs that a meter shows cold, and the one that counts. */
  readonly zsCold: number;
  readonly zsHot: number | null;
  /** Ik−: hot loop, reduced volts; 0 where the loop has no greatest impedance. Ik+: cold loop, full volts. */
  readonly amps: { readonly least: number; readonly greatest: number };
  /** What holds the current down, where that is the source and not the loop. */
  readonly limitedBy: "inverter" | "generator" | null;
  /** Volts of the case against the join while the greatest current flows, hot. */
  readonly touchVolts: number;
}

/**
 * Impedance of an earth-fault loop and the current in it.
 *
 * Ignores the heat of the fault, the other ways by which current finds back (hull, pipes, a sheath), and what motors add.
 *
 * @param voltsShare share of the volts that the least current may be reckoned with: 0.95
 * @source Zs = Ze + (R1 + R2); IEC 60364-4-41 411.4.4: Zs · Ia ≤ U0
 * @example Ze 0.8 Ω, 2.5/1.5 mm² over 20 m: R1 + R2 = 19.51 mΩ/m at 20 °C
 * const way = { source: networkSource(230, { low: 0.8, high: 0.8 }, null), line: { cold: { r: 0.1482, x: 0 }, hot: { r: 0.1773, x: 0 } }, protective: { cold: { r: 0.242, x: 0 }, hot: { r: 0.2896, x: 0 } }, neutral: { cold: { r: 0, x: 0 }, hot: { r: 0, x: 0 } }, electrodes: null };
 * earthFaultLoop(way, 0.95).zsHot //=> 1.2669
 * earthFaultLoop(way, 0.95).amps.least //=> 172.47
 */
export function earthFaultLoop(way: FaultWay, voltsShare: number): FaultLoop {
  const { source, line, protective, neutral, electrodes } = way;
  const soil = (ohms: number | null | undefined): Impedance => ({ r: ohms ?? 0, x: 0 });
  const outsideCold = inSeries(line.cold, protective.cold, neutral.cold, soil(electrodes?.low));
  const isOpenEnded = electrodes !== null && electrodes.high === null;
  const outsideHot = inSeries(line.hot, protective.hot, neutral.hot, soil(electrodes?.high));
  const cold = inSeries(source.inside.least, outsideCold);
  const hot = source.inside.greatest === null || isOpenEnded ? null : inSeries(source.inside.greatest, outsideHot);
  const greatest = driven(source, outsideCold, "greatest");
  const least = hot === null ? 0 : driven(source, outsideHot, "least", voltsShare);
  const free = hot === null ? 0 : (voltsShare * source.volts) / magnitude(hot);
  return {
    cold,
    hot,
    zsCold: magnitude(cold),
    zsHot: hot === null ? null : magnitude(hot),
    amps: { least: Math.min(least, greatest), greatest },
    limitedBy: source.limit !== null && free > source.limit.amps.low ? source.limit.by : null,
    touchVolts: Math.min(source.volts, greatest * magnitude(protective.hot)),
  };
}

/**
 * Greatest resistance to earth of an electrode behind a residual device.
 *
 * @param residualAmps rated residual current, A
 * @param touchVolts that may stand for long: 50 V, in some places 25 V
 * @returns Ω
 * @source IEC 60364-4-41 411.5.3: RA · IΔn ≤ 50 V
 * @example
 * greatestElectrode(0.03) //=> 1666.7
 */
export const greatestElectrode = (residualAmps: number, touchVolts = 50): number => touchVolts / residualAmps;

/**
 * Greatest loop impedance with which a current still flows.
 *
 * @param openingAmps Ia: opens the device in the time that is asked
 * @returns Ω
 * @source IEC 60364-4-41 411.4.4 with Cmin = 0.95 (BS 7671): Zs ≤ U0 · Cmin / Ia
 * @example B 16 A
 * greatestLoop({ volts: 230, openingAmps: 80, voltsShare: 0.95 }) //=> 2.73125
 */
export const greatestLoop = ({
  volts,
  openingAmps,
  voltsShare,
}: {
  readonly volts: number;
  readonly openingAmps: number;
  readonly voltsShare: number;
}): number => (volts * voltsShare) / openingAmps;
