import { cite, lookUp, type Citation, type Trust } from "../../explain/index.ts";
import { standingLeakage } from "../../reference/standing-leakage.ts";

/** Kinds of apparatus whose usual leakage is listed. */
export type LeakingKind =
  | "electronics with a filter"
  | "charger or inverter"
  | "computer"
  | "induction hob"
  | "heating element"
  | "motor"
  | "lamp driver";

/** Share of its rated residual current that a device may have to bear for good. */
export const LEAKAGE_SHARE = { value: 0.3, source: cite("bs-7671-2018", "531.3.2", "memory") } as const satisfies {
  readonly value: number;
  readonly source: Citation;
};

/**
 * Leakage that healthy apparatus sends into its protective conductor.
 *
 * @param volts to earth: leakage of filters goes with the volts, and the table is for 230 V
 * @returns A, from and to; common practice, no maker's figure
 * @example
 * usualLeakage("computer", 230) //=> { low: 0.001, high: 0.002, trust: "practice" }
 */
export function usualLeakage(
  kind: LeakingKind,
  volts: number,
): { readonly low: number; readonly high: number; readonly trust: Trust } {
  const low = lookUp(standingLeakage, kind, "lowMa");
  const high = lookUp(standingLeakage, kind, "highMa");
  if (low === null || high === null) throw new Error(`protection/standing_leakage has no ${kind}`);
  const share = volts / 230 / 1000;
  return { low: low.value * share, high: high.value * share, trust: high.trust };
}

/** Leakage behind a residual device beside what it bears. */
export interface LeakageSum {
  readonly low: number;
  readonly high: number;
  /** 30 % of the rated residual current, A. */
  readonly limit: number;
  /** too much: even at the least; cannot tell: the range holds the limit. */
  readonly outcome: "bears it" | "too much" | "cannot tell";
}

/**
 * What leaks behind a residual device in health, beside the share of its rating that it may be loaded with.
 *
 * @param ratedAmps rated residual current, A
 * @source BS 7671 531.3.2: not above 30 % of IΔn
 * @example
 * leakageSum(0.03, [{ low: 0.001, high: 0.0035 }, { low: 0.001, high: 0.002 }]).outcome //=> "bears it"
 * leakageSum(0.03, Array.from({ length: 10 }, () => ({ low: 0.001, high: 0.002 }))).outcome //=> "too much"
 */
export function leakageSum(
  ratedAmps: number,
  leaks: readonly { readonly low: number; readonly high: number }[],
): LeakageSum {
  const low = leaks.reduce((sum, leak) => sum + leak.low, 0);
  const high = leaks.reduce((sum, leak) => sum + leak.high, 0);
  const limit = LEAKAGE_SHARE.value * ratedAmps;
  const edge = limit * (1 + 1e-9);
  return { low, high, limit, outcome: high <= edge ? "bears it" : low > edge ? "too much" : "cannot tell" };
}
