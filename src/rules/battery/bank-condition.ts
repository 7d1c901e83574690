import type { Case, Settled } from "../../size/index.ts";

/** A load while it takes more than it was settled at. */
export interface Surging {
  /** Index of the draw. */
  readonly draw: number;
  /** What it takes whatever its volts; null: the same current at any volts. */
  readonly watts: number | null;
  /** At the volts that it has before: what it is looked for from, or all there is to it. */
  readonly amps: number;
}

/** One thing to be solved: a case, and amps between each pair of the core's nodes. */
export interface Condition {
  readonly state: string;
  readonly one: Case;
  readonly demand: Float64Array;
  readonly seconds: number | null;
  readonly taken: Float64Array;
  readonly alone: { readonly draw: number; readonly amps: number };
  /** What takes more than it was settled at, on top of `demand`. */
  readonly surging: readonly Surging[];
}

export const NO_LOAD: Condition["alone"] = { draw: -1, amps: 0 };
export const NOTHING_ON = { seconds: null, taken: new Float64Array(0), alone: NO_LOAD, surging: [] } as const;

/** Amps of the loads, by pair of the core's nodes that they hang between. */
export function demandOf({ weigher }: Settled, taken: Float64Array): Float64Array {
  const demand = new Float64Array(weigher.pairs.list.length);
  weigher.pairs.ofDraw.forEach((p, d) => (demand[p] = (demand[p] ?? 0) + (taken[d] ?? 0)));
  return demand;
}

/** Amps that a load takes in the base of what is stated at its own volts; 0 where no source reaches it. */
export function takenAt({ model, weigher }: Settled, d: number, stated: number): number {
  const draw = model.grid.draws[d];
  const volts = weigher.drawVolts(weigher.base, d);
  if (draw === undefined || volts === null || volts <= 0) return 0;
  const { law, atVolts } = draw.element;
  return law === "amps" ? stated : stated * (atVolts / Math.max(volts, atVolts / 2));
}
