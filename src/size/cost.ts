import type { CircuitModel } from "./model.ts";

/** What a choice costs: how many circuits nothing on sale is enough for, then what it aims at. */
export interface Cost {
  readonly short: number;
  /** Copper, mm² × m; or money, where prices are what counts. */
  readonly sum: number;
}

export const NOTHING: Cost = { short: 0, sum: 0 };
export const plus = (a: Cost, b: Cost): Cost => ({ short: a.short + b.short, sum: a.sum + b.sum });
/** Costs closer than this are equal: the plan's order then decides. */
const TIE = 1e-9;
export const less = (a: Cost, b: Cost): boolean =>
  a.short !== b.short ? a.short < b.short : a.sum < b.sum - TIE * Math.max(1, b.sum);

/** What a circuit costs at a rung. */
export const costOf = (c: CircuitModel | undefined, rung: number): number =>
  (c?.rungs?.weights[rung] ?? 0) * (c?.paidMetres ?? 0);

/** A size that the plan says, or that nothing can be said of, is not chosen. */
export const isFixed = (c: CircuitModel | undefined): boolean =>
  c?.rungs === undefined || c.rungs === null || c.circuit.size !== undefined;
