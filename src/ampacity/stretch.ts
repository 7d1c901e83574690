import type { AmpacityColumn, AmpacityRules, AmpacityTable, AmpacityWay, BundleStep } from "../ruleset/index.ts";
import { ambientColumn } from "../ruleset/index.ts";
import { rawAmbientFactor } from "./ambient-factor.ts";
import type { Installed } from "./installed.ts";

/** A stretch of a conductor's run, as far as its ampacity goes. */
export interface Stretch {
  readonly engineSpace: boolean;
  /** Air around it; in an engine space it counts where it was stated or is hotter than the set takes such a space to be. */
  readonly ambientC: number;
  /** Whether the plan states the temperature. */
  readonly ambientStated: boolean;
  /** Current-carrying conductors that lie together there, those of its own circuit included; 1…. */
  readonly bundle: number;
  /** Metres of it; absent: taken as long. */
  readonly lengthM?: { readonly low?: number; readonly high: number };
  /** It lies wholly in thermal insulation. */
  readonly insulated?: boolean;
  /** It lies in the ground, however the rest is laid. */
  readonly buried?: boolean;
  /** It lies in the sun, close above a roof. */
  readonly onRoof?: boolean;
}

/** The column for an insulation: the highest that does not ask for a better one. Null below the first. */
export function findAmpacityColumn(table: AmpacityTable, insulationC: number): number | null {
  const index = table.columns.findLastIndex(({ from }) => from <= insulationC);
  return index < 0 ? null : index;
}

/** Temperature that a conductor may reach: that of its insulation, and no more than its column stands for. */
export const ratingOf = (column: AmpacityColumn, insulationC: number): number => Math.min(insulationC, column.to);

/** How many the bundle factors count: conductors, or circuits of as many as this one has. */
export function countTogether(rules: AmpacityRules, stretch: Stretch, installed: Installed): number {
  const own = installed.loaded ?? 2;
  const { together } = rules;
  // What is laid together over a short way alone is counted as if it lay by itself.
  const isShort = together !== null && stretch.lengthM !== undefined && stretch.lengthM.high <= together.upTo;
  const conductors = isShort ? Math.min(stretch.bundle, own) : stretch.bundle;
  return rules.counts === "conductors" ? conductors : Math.ceil(conductors / Math.max(2, own));
}

/** The step of the bundle factors that a number of conductors or circuits falls on; null where it counts as no bundle. */
export function findBundleStep(rules: AmpacityRules, way: AmpacityWay | null, count: number): BundleStep | null {
  for (const step of way?.bundle ?? rules.bundle) {
    if (count >= step.from && (step.to === null || count <= step.to)) return step;
  }
  return null;
}

/** Whether a set has factors of its own for engine spaces; others take one as hot air. */
export const hasEngineFactors = (rules: AmpacityRules): boolean => rules.engineRefusal !== null;

/**
 * Whether the air around a stretch counts by itself. An engine-space factor stands for the temperature that the set assumes, so there
 * it counts where it was stated, or is hotter than that.
 */
export const airCounts = (rules: AmpacityRules, stretch: Stretch): boolean =>
  !stretch.engineSpace || !hasEngineFactors(rules) || stretch.ambientStated || stretch.ambientC > rules.engineAmbientC;

/** What a roof in the sun adds to the air, by the set, K; null: it lies on none, or the set says no figure. */
export const roofAdds = (rules: AmpacityRules, stretch: Stretch): AmpacityRules["roof"] =>
  stretch.onRoof === true ? rules.roof : null;

/** The air that counts, °C: in an engine space of which none is stated no cooler than the set takes it to be. */
export const airOf = (rules: AmpacityRules, stretch: Stretch): number =>
  Math.max(
    stretch.ambientC,
    stretch.engineSpace && !stretch.ambientStated ? rules.engineAmbientC : -Infinity,
    rules.leastAirC ?? -Infinity,
  ) + (roofAdds(rules, stretch)?.addK ?? 0);

/** What hot air leaves of an ampacity, by the set's table or by the square-root form; 0 where nothing. NaN passes through. */
export function airFactor(rules: AmpacityRules, ratingC: number, airC: number): number {
  const { baseAmbientC, ambient } = rules;
  const column = ambient === null ? null : ambientColumn(ambient, ratingC);
  if (column === null || airC <= baseAmbientC || airC !== airC) return rawAmbientFactor(ratingC, airC, baseAmbientC);
  const step = column.steps.find(({ toC }) => airC <= toC);
  if (step !== undefined) return Math.min(1, step.factor.value);
  return column.beyond === "nothing" ? 0 : rawAmbientFactor(column.ratingC, airC, baseAmbientC);
}

/** What heat leaves of the tabulated ampacity, before the bundle; 0 where the insulation may not be used. */
export function heatFactor(rules: AmpacityRules, column: AmpacityColumn, ratingC: number, stretch: Stretch): number {
  if (!stretch.engineSpace || !hasEngineFactors(rules)) return airFactor(rules, ratingC, airOf(rules, stretch));
  if (column.engineFactor === null) return 0;
  const tabulated = column.engineFactor.value;
  // The air may ask for less than the table's factor, never for more.
  return airCounts(rules, stretch) ? Math.min(tabulated, airFactor(rules, ratingC, stretch.ambientC)) : tabulated;
}

/** The step of the thermal insulation around a stretch; null where there is none, or the set has no factor for it. */
export function insulatedStep(rules: AmpacityRules, way: AmpacityWay | null, stretch: Stretch) {
  if (stretch.insulated !== true || way?.inInsulation === true || rules.insulated.length === 0) return null;
  const metres = stretch.lengthM?.high ?? Infinity;
  return rules.insulated.find(({ upTo }) => upTo === null || metres <= upTo) ?? null;
}

/** What bundle and thermal insulation leave of it. */
export const crowdFactor = (
  rules: AmpacityRules,
  way: AmpacityWay | null,
  stretch: Stretch,
  installed: Installed,
): number =>
  (findBundleStep(rules, way, countTogether(rules, stretch, installed))?.factor.value ?? 1) *
  (insulatedStep(rules, way, stretch)?.factor.value ?? 1);
