import { inSeries, magnitude, type Impedance } from "./impedance.ts";

/** What the loop of a circuit may come to. */
export interface EarthLoopNeed {
  /** Line to earth, and the share of it that may be reckoned with. */
  readonly volts: number;
  readonly voltsShare: number;
  /** Ia: opens the circuit's device in the time that is asked, A; Infinity: nothing that is published does. */
  readonly openingAmps: number;
  /** Of the loop up to where the circuit begins, hot, Ω; null: not known. */
  readonly before: Impedance | null;
  /** What its source gives at least; null: no limit. */
  readonly sourceAmps: number | null;
}

/** A size that a circuit may take, with the protective conductor that goes with it. */
export interface LoopRung {
  readonly areaMm2: number;
  /** Of line and protective conductor of the circuit together, hot, Ω. */
  readonly own: Impedance;
}

/**
 * The least size of a circuit with which an earth fault at its far end opens its device in time.
 *
 * @param rungs sizes on sale, thinnest first
 * @returns its place in `rungs`; `rungs.length`: no size is enough, for the source or the way before it lets too little through; null: the way before is not known
 * @source Zs · Ia ≤ 0.95 · U0: IEC 60364-4-41 411.4.4
 * @example C 16 A behind 0.8 Ω, 30 m of line and as much back: 1.5 mm² leaves 0.95 · 230 / (0.8 + 0.9) = 129 A
 * const need = { volts: 230, voltsShare: 0.95, openingAmps: 160, before: { r: 0.8, x: 0 }, sourceAmps: null };
 * const rungs = [1.5, 2.5, 4].map((areaMm2) => ({ areaMm2, own: { r: (2 * 30 * 0.0225) / areaMm2, x: 0 } }));
 * areaByEarthLoop(need, rungs) //=> 1
 * areaByEarthLoop({ ...need, sourceAmps: 30 }, rungs) //=> 3
 */
export function areaByEarthLoop(need: EarthLoopNeed, rungs: readonly LoopRung[]): number | null {
  const { before, openingAmps, sourceAmps } = need;
  if (before === null) return null;
  if (openingAmps === Infinity || (sourceAmps !== null && sourceAmps < openingAmps)) return rungs.length;
  const most = (need.volts * need.voltsShare) / openingAmps;
  const found = rungs.findIndex(({ own }) => magnitude(inSeries(before, own)) <= most * (1 + 1e-12));
  return found < 0 ? rungs.length : found;
}
