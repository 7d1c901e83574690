import type { CircuitModel } from "./model.ts";

/** What a choice costs: how many circuits nothing on sale is enough for, then copper. */
export interface Cost {
  readonly short: number;
  /** Σ mm² × m */
  readonly copper: number;
}

export const NOTHING: Cost = { short: 0, copper: 0 };
export const plus = (a: Cost, b: Cost): Cost => ({ short: a.short + b.short, copper: a.copper + b.copper });
/** Costs closer than this are equal: the plan's order then decides. */
const TIE = 1e-9;
export const less = (a: Cost, b: Cost): boolean =>
  a.short !== b.short ? a.short < b.short : a.copper < b.copper - TIE * Math.max(1, b.copper);

/** Copper of a circuit at a rung, mm² × m. */
export function copperOf(c: CircuitModel | undefined, rung: number): number {
  return (c?.rungs?.ladder.makes[rung]?.size.areaMm2 ?? 0) * (c?.metres ?? 0);
}

export const lastRung = (c: CircuitModel | undefined): number =>
  c?.rungs === undefined || c.rungs === null ? 0 : c.rungs.ladder.makes.length - 1;
/** A size that the plan says, or that nothing can be said of, is not chosen. */
export const isFixed = (c: CircuitModel | undefined): boolean =>
  c?.rungs === undefined || c.rungs === null || c.circuit.size !== undefined;
