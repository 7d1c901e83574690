import { printCitation, type Citation, type Trust } from "../explain/index.ts";
import { celsius, ratio, type Ratio } from "../quantity/index.ts";
import { ambientColumn, type AmpacityColumn, type AmpacityRules, type AmpacityWay } from "../ruleset/index.ts";
import { ambientFactor } from "./ambient-factor.ts";
import type { Installed } from "./installed.ts";
import {
  airCounts,
  airFactor,
  airOf,
  countTogether,
  findBundleStep,
  hasEngineFactors,
  insulatedStep,
  roofAdds,
  type Stretch,
} from "./stretch.ts";

/** One factor on a tabulated ampacity. */
export interface AmpacityFactor {
  readonly which: "engine space" | "ambient" | "bundle" | "thermal insulation";
  readonly value: Ratio;
  /** Whether it was multiplied in: of an engine-space factor and a stated ambient the lower one decides. */
  readonly decides: boolean;
  /** What it was taken for, in words. */
  readonly because: string;
  readonly source: Citation;
  readonly trust: Trust;
}

/** What factors of these kinds leave together. */
export const factorOf = (factors: readonly AmpacityFactor[], which: readonly AmpacityFactor["which"][]): number =>
  factors.find((each) => each.decides && which.includes(each.which))?.value ?? 1;

/** The factors of one stretch, each with its source. */
export function stretchFactors(
  rules: AmpacityRules,
  way: AmpacityWay | null,
  column: AmpacityColumn,
  ratingC: number,
  stretch: Stretch,
  installed: Installed,
): readonly AmpacityFactor[] {
  const factors: AmpacityFactor[] = [];
  const heat = stretch.engineSpace && hasEngineFactors(rules) ? column.engineFactor : null;
  const air = airCounts(rules, stretch) ? ambientOf(rules, ratingC, stretch) : null;
  if (heat !== null) {
    factors.push({
      which: "engine space",
      value: ratio(heat.value),
      decides: air === null || heat.value <= air.value,
      because: `engine space, taken as ${rules.engineAmbientC} °C`,
      source: heat.source,
      trust: heat.trust,
    });
  }
  if (air !== null) factors.push({ ...air, decides: heat === null || air.value < heat.value });
  const count = countTogether(rules, stretch, installed);
  const step = findBundleStep(rules, way, count);
  // A step of 1 says only that so many are no bundle.
  if (step !== null && step.factor.value !== 1) {
    factors.push({
      which: "bundle",
      value: ratio(step.factor.value),
      decides: true,
      because:
        rules.counts === "conductors"
          ? `${count} current-carrying conductors together`
          : `${count} circuits together (${stretch.bundle} current-carrying conductors)`,
      source: step.factor.source,
      trust: step.factor.trust,
    });
  }
  const wrapped = insulatedStep(rules, way, stretch);
  if (wrapped !== null) {
    factors.push({
      which: "thermal insulation",
      value: ratio(wrapped.factor.value),
      decides: true,
      because: "wholly in thermal insulation",
      source: wrapped.factor.source,
      trust: wrapped.factor.trust,
    });
  }
  return factors;
}

/** What hot air leaves, and where it says so; null where the air is no hotter than the tables hold for. */
function ambientOf(rules: AmpacityRules, ratingC: number, stretch: Stretch): Omit<AmpacityFactor, "decides"> | null {
  const { baseAmbientC, ambient } = rules;
  const airC = airOf(rules, stretch);
  if (airC <= baseAmbientC) return null;
  const stated = stretch.ambientStated ? "stated" : "assumed";
  const roof = roofAdds(rules, stretch);
  const hot = roof === null ? "" : `, ${roof.addK} K of them from the roof in the sun, ${printCitation(roof.source)}`;
  const because = `${airC} °C ${stated}${hot}; the table is for ${baseAmbientC} °C`;
  const column = ambient === null ? null : ambientColumn(ambient, ratingC);
  const step = column?.steps.find(({ toC }) => airC <= toC);
  if (step !== undefined) {
    const { source, trust } = step.factor;
    return { which: "ambient", value: ratio(airFactor(rules, ratingC, airC)), because, source, trust };
  }
  const { source } = ambientFactor.meta;
  // In the form that is recorded, so that an explanation shows the sum.
  const rating = celsius(column?.ratingC ?? ratingC);
  const value =
    column?.beyond === "nothing"
      ? ratio(0)
      : ambientFactor({ ratingC: rating, ambientC: celsius(airC), baseC: baseAmbientC });
  return { which: "ambient", value, because, source, trust: source.trust };
}
