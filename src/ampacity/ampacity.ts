import {
  cite,
  formula,
  isRecording,
  recordStep,
  weakestTrust,
  type Citation,
  type LookedUp,
  type Trust,
} from "../explain/index.ts";
import { amps, celsius, ratio, type Amps, type Celsius, type Metres, type Ratio } from "../quantity/index.ts";
import type { AmpacityColumn, AmpacityRules, RuleSet } from "../ruleset/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import { ambientFactor } from "./ambient-factor.ts";
import { findAmpacityRow, type RowChoice } from "./find-row.ts";
import { airCounts, findAmpacityColumn, findBundleStep, ratingOf, type Stretch } from "./stretch.ts";

/** One factor on a tabulated ampacity. */
export interface AmpacityFactor {
  readonly which: "engine space" | "ambient" | "bundle";
  readonly value: Ratio;
  /** Whether it was multiplied in: of an engine-space factor and a stated ambient the lower one decides. */
  readonly decides: boolean;
  /** What it was taken for, in words. */
  readonly because: string;
  readonly source: Citation;
  readonly trust: Trust;
}

/** What a stretch leaves of the tabulated ampacity. */
export interface StretchAmpacity {
  readonly factors: readonly AmpacityFactor[];
  /** All that decide, multiplied. */
  readonly factor: Ratio;
  readonly amps: Amps;
  /** The same without the bundle factor. */
  readonly unbundledAmps: Amps;
  /** Air that it was worked out for. */
  readonly ambientC: Celsius;
  /** Why nothing may be carried here; null where something may. */
  readonly refused: string | null;
  readonly trust: Trust;
}

/** The ampacity of a conductor along its run, with every step. Plain data. */
export interface Ampacity {
  /** After every factor at the worst stretch; 0 where nothing may be carried, null where it cannot be told. */
  readonly amps: Amps | null;
  /** The same before bundle factors, which some laws do not count. */
  readonly unbundledAmps: Amps | null;
  /** Index of the stretch that decides, the first of equals; null where it cannot be told. */
  readonly decidingStretch: number | null;
  /** One for each stretch, in its order; empty where it cannot be told. */
  readonly perStretch: readonly StretchAmpacity[];
  /** The cell of the table, before any factor; null where there is none. */
  readonly table: LookedUp | null;
  /** How the conductor found the row; null where there is none. */
  readonly row: RowChoice | null;
  /** Temperature that the conductor may reach; null where the table has no column for it. */
  readonly ratingC: Celsius | null;
  /** The weakest of all that the number rests on. */
  readonly trust: Trust;
  /** What a reader has to know beside the numbers. */
  readonly notes: readonly string[];
  /** Why nothing may be carried; null where something may. */
  readonly refused: string | null;
  /** The fact that is missing; null where nothing is. */
  readonly cannotTell: string | null;
}

/** A conductor and the run it lies along. */
export interface AmpacityInput {
  readonly ruleSet: RuleSet;
  readonly make: ConductorMake;
  /** Temperature rating of the insulation, °C. */
  readonly insulationC: Celsius;
  /** At least one; the length is carried for the reader. */
  readonly stretches: readonly (Stretch & { readonly length?: Metres })[];
}

/** No number, and why. */
const untold = (cannotTell: string, ratingC: Celsius | null = null): Ampacity => ({
  amps: null,
  unbundledAmps: null,
  decidingStretch: null,
  perStretch: [],
  table: null,
  row: null,
  ratingC,
  trust: "missing",
  notes: [],
  refused: null,
  cannotTell,
});

/** The factors of one stretch. */
function stretchFactors(
  rules: AmpacityRules,
  column: AmpacityColumn,
  ratingC: Celsius,
  stretch: Stretch,
): readonly AmpacityFactor[] {
  const factors: AmpacityFactor[] = [];
  const { baseAmbientC } = rules;
  const heat = stretch.engineSpace && column.engineFactor !== null ? column.engineFactor : null;
  const byRoot =
    airCounts(rules, stretch) && stretch.ambientC > baseAmbientC
      ? ambientFactor({ ratingC, ambientC: stretch.ambientC, baseC: baseAmbientC })
      : null;
  if (heat !== null) {
    factors.push({
      which: "engine space",
      value: ratio(heat.value),
      decides: byRoot === null || heat.value <= byRoot,
      because: `engine space, taken as ${rules.engineAmbientC} °C`,
      source: heat.source,
      trust: heat.trust,
    });
  }
  if (byRoot !== null) {
    const { source } = ambientFactor.meta;
    factors.push({
      which: "ambient",
      value: byRoot,
      decides: heat === null || byRoot < heat.value,
      because: `${stretch.ambientC} °C ${stretch.ambientStated ? "stated" : "assumed"}; the table is for ${baseAmbientC} °C`,
      source,
      trust: source.trust,
    });
  }
  const step = findBundleStep(rules, stretch.bundle);
  if (step !== null) {
    factors.push({
      which: "bundle",
      value: ratio(step.factor.value),
      decides: true,
      because: `${stretch.bundle} current-carrying conductors together`,
      source: step.factor.source,
      trust: step.factor.trust,
    });
  }
  return factors;
}

/** The product, so that an explanation shows the sum a person would do. */
const correctedAmpacity = formula(
  {
    id: "corrected-ampacity",
    equation: "Iz = It · kh · kb",
    source: cite("own-derivation", "a rule set's factors multiply", "derived"),
    symbols: {
      tabulated: { symbol: "It", unit: "A", meaning: "ampacity in the table" },
      heat: { symbol: "kh", unit: "", meaning: "what the heat around leaves" },
      bundle: { symbol: "kb", unit: "", meaning: "what the bundle leaves" },
    },
    unit: "A",
  },
  ({ tabulated, heat, bundle }: { readonly tabulated: number; readonly heat: number; readonly bundle: number }): Amps =>
    // In this order, so that the bare number of `ampacityAmps` is the same to the last bit.
    amps(tabulated * (heat * bundle)),
);

/** Why a stretch takes no current at all. */
function refusalOf(rules: AmpacityRules, column: AmpacityColumn, ratingC: number, stretch: Stretch): string | null {
  if (stretch.engineSpace && column.engineFactor === null) return rules.engineRefusal;
  const hot = airCounts(rules, stretch) && stretch.ambientC >= ratingC;
  return hot ? `the air is ${stretch.ambientC} °C and the conductor may reach ${ratingC} °C` : null;
}

function rateStretch(
  rules: AmpacityRules,
  column: AmpacityColumn,
  ratingC: Celsius,
  stretch: Stretch,
  cell: LookedUp,
): StretchAmpacity {
  const refused = refusalOf(rules, column, ratingC, stretch);
  const factors = stretchFactors(rules, column, ratingC, stretch);
  const of = (isBundle: boolean): number =>
    factors.find(({ which, decides }) => decides && (which === "bundle") === isBundle)?.value ?? 1;
  const heat = refused === null ? of(false) : 0;
  const bundle = of(true);
  const trust = refused === null ? weakestTrust(cell.trust, ...factors.map((each) => each.trust)) : cell.trust;
  return {
    factors,
    factor: ratio(heat * bundle),
    amps: correctedAmpacity({ tabulated: cell.value, heat, bundle }),
    unbundledAmps: amps(cell.value * heat),
    ambientC: airCounts(rules, stretch) ? stretch.ambientC : rules.engineAmbientC,
    refused,
    trust: stretch.engineSpace && column.engineFactor === null ? rules.engineRefusalSource.trust : trust,
  };
}

/** What `findAmpacityRow` could not find, in words. */
function missingRow({ table }: AmpacityRules, make: ConductorMake): string {
  const first = table.rows[0]?.size.label ?? "";
  return make.metal === table.metal
    ? `${make.size.label} is below ${first}, the first row of the ampacity table`
    : `the ampacity table is for ${table.metal}, the conductor is ${make.metal}`;
}

/**
 * The ampacity of a conductor along its run: tabulated value × heat × bundle, at the worst stretch.
 *
 * Ignores terminals, load duty and thermal insulation. Never interpolates: between rows the next one down, between columns the next cooler one.
 *
 * @returns the number with every step; `amps` is 0 with a reason where the set refuses the conductor, null with the missing fact where it cannot be told
 * @throws RangeError for no stretch, a bundle below 1 or a temperature that is no number: defects of the caller
 * @source the rule set's table and factors, in the result; the square-root form for a stated ambient
 * @example 10 AWG boat cable, 105 °C, as a pair through an engine space: 60 × 0.85 × 0.70
 * ampacity({ ruleSet: usSmallCraft, make: { size: awgSize("10"), metal: "copper", plating: "tinned", strands: "type 3" }, insulationC: celsius(105), stretches: [{ engineSpace: true, ambientC: celsius(50), ambientStated: false, bundle: 2 }] }).amps
 * //=> 35.7
 */
export function ampacity({ ruleSet, make, insulationC, stretches }: AmpacityInput): Ampacity {
  if (stretches.length === 0) throw new RangeError("a run needs at least one stretch");
  for (const { bundle, ambientC } of stretches) {
    if (!(bundle >= 1 && ambientC === ambientC))
      throw new RangeError(`no ampacity for a bundle of ${bundle} at ${ambientC} °C`);
  }
  if (!ruleSet.carried) return untold(ruleSet.notCarried);
  const rules = ruleSet.ampacity;
  const at = findAmpacityColumn(rules.table, insulationC);
  const column = at === null ? undefined : rules.table.columns[at];
  const first = rules.table.columns[0];
  if (at === null || column === undefined) {
    const refused = `insulation of ${insulationC} °C is below ${first?.from ?? NaN} °C, the lowest that ${ruleSet.id} rates`;
    const none = untold("");
    return {
      ...none,
      amps: amps(0),
      unbundledAmps: amps(0),
      trust: rules.table.source.trust,
      refused,
      cannotTell: null,
    };
  }
  const ratingC = celsius(ratingOf(column, insulationC));
  const found = findAmpacityRow(rules.table, make);
  if (found === null) return untold(missingRow(rules, make), ratingC);
  const row = rules.table.rows[found.index];
  const cell = row?.cells[at] ?? null;
  if (row === undefined || cell === null) return untold(`the ampacity table is empty for ${make.size.label}`, ratingC);
  if (isRecording()) {
    const { table, column: name, value: gives, unit, source } = cell;
    recordStep({
      kind: "look-up",
      table,
      row: row.size.label,
      column: name,
      sought: make.size.label,
      gives,
      unit,
      source,
    });
  }

  const perStretch = stretches.map((stretch) => rateStretch(rules, column, ratingC, stretch, cell));
  const lowest = Math.min(...perStretch.map((each) => each.amps));
  const decidingStretch = perStretch.findIndex((each) => each.amps === lowest);
  const notes: string[] = [];
  if (found.how === "next row down") notes.push(`${make.size.label} has no row; that of ${row.size.label} stands in`);
  if (found.how === "by resistance") {
    notes.push(
      `${make.size.label} is of another size system; ${row.size.label} is the largest row whose ${rules.table.strands} conductor has no less resistance`,
    );
  }
  for (const { from, to, says } of rules.bundleNotes) {
    if (stretches.some(({ bundle }) => bundle >= from && (to === null || bundle <= to))) notes.push(says);
  }
  return {
    amps: amps(lowest),
    unbundledAmps: amps(Math.min(...perStretch.map((each) => each.unbundledAmps))),
    decidingStretch,
    perStretch,
    table: cell,
    row: found.how,
    ratingC,
    trust: weakestTrust(...perStretch.map((each) => each.trust)),
    notes,
    refused: lowest > 0 ? null : (perStretch[decidingStretch]?.refused ?? null),
    cannotTell: null,
  };
}
