import type { Celsius } from "../quantity/index.ts";
import type { AmpacityColumn, AmpacityRules, AmpacityTable, BundleStep } from "../ruleset/index.ts";
import { rawAmbientFactor } from "./ambient-factor.ts";

/** A stretch of a conductor's run, as far as its ampacity goes. */
export interface Stretch {
  readonly engineSpace: boolean;
  /** Air around it; in an engine space it counts where it was stated or is hotter than the set takes such a space to be. */
  readonly ambientC: Celsius;
  /** Whether the plan states the temperature. */
  readonly ambientStated: boolean;
  /** Current-carrying conductors that lie together there, those of its own circuit included; 1…. */
  readonly bundle: number;
}

/** The column for an insulation: the highest that does not ask for a better one. Null below the first. */
export function findAmpacityColumn(table: AmpacityTable, insulationC: number): number | null {
  const index = table.columns.findLastIndex(({ from }) => from <= insulationC);
  return index < 0 ? null : index;
}

/** Temperature that a conductor may reach: that of its insulation, and no more than its column stands for. */
export const ratingOf = (column: AmpacityColumn, insulationC: number): number => Math.min(insulationC, column.to);

/** The step of the bundle factors that a number of conductors falls on; null where it counts as no bundle. */
export function findBundleStep(rules: AmpacityRules, bundle: number): BundleStep | null {
  for (const step of rules.bundle) if (bundle >= step.from && (step.to === null || bundle <= step.to)) return step;
  return null;
}

/**
 * Whether the air around a stretch counts by itself. An engine-space factor stands for the temperature that the set assumes, so there
 * it counts where it was stated, or is hotter than that.
 */
export const airCounts = (rules: AmpacityRules, stretch: Stretch): boolean =>
  !stretch.engineSpace || stretch.ambientStated || stretch.ambientC > rules.engineAmbientC;

/** What heat leaves of the tabulated ampacity, before the bundle; 0 where the insulation may not be used. */
export function heatFactor(rules: AmpacityRules, column: AmpacityColumn, ratingC: number, stretch: Stretch): number {
  if (!stretch.engineSpace) return rawAmbientFactor(ratingC, stretch.ambientC, rules.baseAmbientC);
  if (column.engineFactor === null) return 0;
  const tabulated = column.engineFactor.value;
  // The air may ask for less than the table's factor, never for more.
  return airCounts(rules, stretch)
    ? Math.min(tabulated, rawAmbientFactor(ratingC, stretch.ambientC, rules.baseAmbientC))
    : tabulated;
}

/** What the bundle leaves of it. */
export const bundleFactor = (rules: AmpacityRules, bundle: number): number =>
  findBundleStep(rules, bundle)?.factor.value ?? 1;
