import {
  cite,
  formula,
  isRecording,
  printCitation,
  recordStep,
  weakestTrust,
  type Citation,
  type LookedUp,
  type Trust,
} from "../explain/index.ts";
import { amps, celsius, ratio, type Amps, type Celsius, type Metres, type Ratio } from "../quantity/index.ts";
import type { AmpacityRules, CurrentKind, RuleSet } from "../ruleset/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import { findAmpacityRow, type RowChoice } from "./find-row.ts";
import { leastCounted } from "./least-counted.ts";
import { asUsual, ratedBy, type Installed, type RatedBy } from "./installed.ts";
import {
  airCounts,
  airOf,
  countTogether,
  findAmpacityColumn,
  hasEngineFactors,
  ratingOf,
  type Stretch,
} from "./stretch.ts";
import { factorOf, stretchFactors, type AmpacityFactor } from "./stretch-factors.ts";
import { terminalCap } from "./terminal-cap.ts";

/** What a stretch leaves of the tabulated ampacity. */
export interface StretchAmpacity {
  /** The cell of the table that rates it, before any factor. */
  readonly table: LookedUp;
  /** How it lies there, in words; null where the set has one table for all. */
  readonly lies: string | null;
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

/** What holds a conductor to less than its insulation bears, whatever surrounds it. */
export interface AmpacityCap {
  readonly which: "terminals";
  readonly amps: Amps;
  readonly because: string;
  readonly table: LookedUp;
  readonly source: Citation;
  readonly trust: Trust;
}

/** The ampacity of a conductor along its run, with every step. Plain data. */
export interface Ampacity {
  /** After every factor at the worst stretch, and no more than the caps; 0 where nothing may be carried, null where it cannot be told. */
  readonly amps: Amps | null;
  /** The same before bundle factors, which some laws do not count. */
  readonly unbundledAmps: Amps | null;
  /** What may flow for hours on end, where the set asks for more than `amps` then; else the same. */
  readonly continuousAmps: Amps | null;
  /** Index of the stretch that decides, the first of equals; null where it cannot be told. */
  readonly decidingStretch: number | null;
  /** One for each stretch, in its order; empty where it cannot be told. */
  readonly perStretch: readonly StretchAmpacity[];
  /** What limits it beside its surroundings. */
  readonly caps: readonly AmpacityCap[];
  /** The cell of the table, before any factor, at the stretch that decides; null where there is none. */
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
  /** How it lies and ends; as the set usually finds it where left out. */
  readonly installed?: Installed;
  /** Direct current where left out. */
  readonly current?: CurrentKind;
  /** At least one; the length is carried for the reader. */
  readonly stretches: readonly (Stretch & { readonly length?: Metres })[];
}

/** No number, and why. */
const untold = (cannotTell: string, ratingC: Celsius | null = null): Ampacity => ({
  amps: null,
  unbundledAmps: null,
  continuousAmps: null,
  decidingStretch: null,
  perStretch: [],
  caps: [],
  table: null,
  row: null,
  ratingC,
  trust: "missing",
  notes: [],
  refused: null,
  cannotTell,
});

/** Nothing may be carried, wherever it lies. */
const refusedOutright = (refused: string, trust: Trust): Ampacity => ({
  ...untold(""),
  amps: amps(0),
  unbundledAmps: amps(0),
  continuousAmps: amps(0),
  trust,
  refused,
  cannotTell: null,
});

/** The product, so that an explanation shows the sum a person would do. */
const correctedAmpacity = formula(
  {
    id: "corrected-ampacity",
    equation: "Iz = It · kh · kb",
    source: cite("own-derivation", "a rule set's factors multiply", "derived"),
    symbols: {
      tabulated: { symbol: "It", unit: "A", meaning: "ampacity in the table" },
      heat: { symbol: "kh", unit: "", meaning: "what the heat around leaves" },
      bundle: { symbol: "kb", unit: "", meaning: "what the bundle, and insulation around it, leave" },
    },
    unit: "A",
  },
  ({ tabulated, heat, bundle }: { readonly tabulated: number; readonly heat: number; readonly bundle: number }): Amps =>
    // In this order, so that the bare number of `ampacityAmps` is the same to the last bit.
    amps(tabulated * (heat * bundle)),
);

/** A stretch with one of the tables that may rate it. */
interface Rating extends RatedBy {
  readonly cell: LookedUp;
  readonly ratingC: Celsius;
  readonly how: RowChoice;
  readonly rowLabel: string;
  readonly rated: StretchAmpacity;
}

/** Rates a stretch by one table; the reason where there is no number. */
function rate(
  rules: AmpacityRules,
  setId: string,
  { make, insulationC, installed = asUsual }: AmpacityInput,
  stretch: Stretch,
  by: RatedBy,
  recorded: Set<LookedUp>,
): Rating | Ampacity {
  const { table, way } = by;
  const at = findAmpacityColumn(table, insulationC);
  const column = at === null ? undefined : table.columns[at];
  if (at === null || column === undefined) {
    const least = table.columns[0]?.from ?? NaN;
    return refusedOutright(
      `insulation of ${insulationC} °C is below ${least} °C, the lowest that ${setId} rates`,
      table.source.trust,
    );
  }
  const ratingC = celsius(ratingOf(column, insulationC));
  const found = findAmpacityRow(table, make);
  const row = found === null ? undefined : table.rows[found.index];
  if (found === null || row === undefined) {
    const first = table.rows[0]?.size.label ?? "";
    return untold(
      make.metal === table.metal
        ? `${make.size.label} is below ${first}, the first row of the ampacity table`
        : `the ampacity table is for ${table.metal}, the conductor is ${make.metal}`,
      ratingC,
    );
  }
  const cell = row.cells[at] ?? null;
  if (cell === null) return untold(`the ampacity table is empty for ${make.size.label}`, ratingC);
  // Before the sum that it goes into, and once for all stretches.
  if (isRecording() && recorded.size < recorded.add(cell).size) {
    const { table: id, column: name, value: gives, unit, source } = cell;
    recordStep({
      kind: "look-up",
      table: id,
      row: row.size.label,
      column: name,
      sought: make.size.label,
      gives,
      unit,
      source,
    });
  }
  const refused =
    stretch.engineSpace && hasEngineFactors(rules) && column.engineFactor === null
      ? rules.engineRefusal
      : airCounts(rules, stretch) && airOf(rules, stretch) >= ratingC
        ? `the air is ${airOf(rules, stretch)} °C and the conductor may reach ${ratingC} °C`
        : null;
  const factors = stretchFactors(rules, way, column, ratingC, stretch, installed);
  const heat = refused === null ? factorOf(factors, ["engine space", "ambient"]) : 0;
  const bundle = factorOf(factors, ["bundle"]);
  const insulated = factorOf(factors, ["thermal insulation"]);
  const trust = refused === null ? weakestTrust(cell.trust, ...factors.map((each) => each.trust)) : cell.trust;
  const rated: StretchAmpacity = {
    table: cell,
    lies: way?.says ?? null,
    factors,
    factor: ratio(heat * (bundle * insulated)),
    amps: correctedAmpacity({ tabulated: cell.value, heat, bundle: bundle * insulated }),
    unbundledAmps: amps(cell.value * (heat * insulated)),
    ambientC: airCounts(rules, stretch) ? celsius(airOf(rules, stretch)) : rules.engineAmbientC,
    refused,
    trust:
      stretch.engineSpace && hasEngineFactors(rules) && column.engineFactor === null
        ? rules.engineRefusalSource.trust
        : trust,
  };
  return { ...by, cell, ratingC, how: found.how, rowLabel: row.size.label, rated };
}

/**
 * The ampacity of a conductor along its run: tabulated value × heat × bundle × thermal insulation at the worst stretch, and no more than its terminals
 * allow.
 *
 * Ignores load duty. Never interpolates: between rows the next one down, between columns the next cooler one.
 *
 * @returns the number with every step; `amps` is 0 with a reason where the set refuses the conductor, null with the missing fact where it cannot be told
 * @throws RangeError for no stretch, a bundle below 1 or a temperature that is no number: defects of the caller
 * @source the rule set's tables and factors, in the result; the square-root form for a stated ambient where the set has no table for it
 * @example 10 AWG boat cable, 105 °C, as a pair through an engine space: 60 × 0.85 × 0.70
 * ampacity({ ruleSet: usSmallCraft, make: { size: awgSize("10"), metal: "copper", plating: "tinned", strands: "type 3" }, insulationC: celsius(105), stretches: [{ engineSpace: true, ambientC: celsius(50), ambientStated: false, bundle: 2 }] }).amps
 * //=> 35.7
 */
export function ampacity(input: AmpacityInput): Ampacity {
  const { ruleSet, make, installed = asUsual, stretches } = input;
  if (stretches.length === 0) throw new RangeError("a run needs at least one stretch");
  for (const { bundle, ambientC } of stretches) {
    if (!(bundle >= 1 && ambientC === ambientC))
      throw new RangeError(`no ampacity for a bundle of ${bundle} at ${ambientC} °C`);
  }
  const rules = input.current === "AC" ? (ruleSet.ampacityAC ?? ruleSet.ampacity) : ruleSet.ampacity;
  const recorded = new Set<LookedUp>();
  const ratings: Rating[] = [];
  const all: Rating[] = [];
  for (const stretch of stretches) {
    const rated = ratedBy(rules, make.metal, stretch, installed);
    if (typeof rated === "string") return untold(rated);
    let lowest: Rating | null = null;
    for (const by of rated) {
      const one = rate(rules, ruleSet.id, input, stretch, by, recorded);
      if (!("rated" in one)) return one;
      all.push(one);
      if (lowest === null || one.rated.amps < lowest.rated.amps) lowest = one;
    }
    if (lowest !== null) ratings.push(lowest);
  }
  const perStretch = ratings.map(({ rated }) => rated);
  const counted = (of: (each: StretchAmpacity) => number): number =>
    leastCounted(rules.shortStretch, perStretch.map(of), stretches);
  const lowest = counted((each) => each.amps);
  const decidingStretch = perStretch.findIndex((each) => each.amps === lowest);
  const deciding = ratings[decidingStretch];
  const caps = capsOf(rules, make, all, installed);
  const cap = Math.min(...caps.map((each) => each.amps));
  const capped = Math.min(lowest, cap);
  const uncorrected = Math.min(cap, ...all.map(({ cell }) => cell.value));
  return {
    amps: amps(capped),
    unbundledAmps: amps(
      Math.min(
        cap,
        counted((each) => each.unbundledAmps),
      ),
    ),
    continuousAmps: amps(rules.continuous === null ? capped : Math.min(capped, uncorrected / rules.continuous.factor)),
    decidingStretch,
    perStretch,
    caps,
    table: deciding?.cell ?? null,
    row: deciding?.how ?? null,
    ratingC: deciding?.ratingC ?? null,
    trust: weakestTrust(...perStretch.map((each) => each.trust), ...caps.map((each) => each.trust)),
    notes: [...notesOf(input, rules, ratings), ...passedOver(rules, perStretch, lowest)],
    refused: lowest > 0 ? null : (perStretch[decidingStretch]?.refused ?? null),
    cannotTell: null,
  };
}

/** What the terminals allow by the tables that rate the run; the same cell is told once. */
function capsOf(
  rules: AmpacityRules,
  make: ConductorMake,
  ratings: readonly Rating[],
  installed: Installed,
): readonly AmpacityCap[] {
  const { terminals } = rules;
  if (terminals === null) return [];
  const caps: AmpacityCap[] = [];
  for (const { table, ratingC } of ratings) {
    const cap = terminalCap(rules, make, table, ratingC, installed);
    if (cap === null || caps.some((each) => each.table === cap.cell)) continue;
    caps.push({
      which: "terminals",
      amps: amps(cap.amps),
      because: `terminals ${cap.stated ? "stated" : "taken"} as ${cap.terminalsC} °C, by the column for that, uncorrected`,
      table: cap.cell,
      source: terminals.source,
      trust: weakestTrust(cap.cell.trust, terminals.source.trust),
    });
  }
  return caps;
}

/** What is said where a short stretch that carries less is passed over. */
function passedOver({ shortStretch }: AmpacityRules, perStretch: readonly StretchAmpacity[], lowest: number): string[] {
  const least = Math.min(...perStretch.map((each) => each.amps));
  if (shortStretch === null || least >= lowest) return [];
  return [
    `a stretch of no more than ${Number(shortStretch.upTo.toPrecision(2))} m and ${100 * shortStretch.share} % of the run, good for ${Number(least.toPrecision(3))} A by itself, is passed over (${printCitation(shortStretch.source)})`,
  ];
}

/** What a reader has to know of a rating. */
function notesOf(
  { make, installed = asUsual, stretches }: AmpacityInput,
  rules: AmpacityRules,
  ratings: readonly Rating[],
): string[] {
  const notes = new Set<string>(rules.notes);
  for (const { how, rowLabel, table } of ratings) {
    if (how === "next row down") notes.add(`${make.size.label} has no row; that of ${rowLabel} stands in`);
    if (how === "by resistance") {
      notes.add(
        `${make.size.label} is of another size system; ${rowLabel} is the largest row whose ${table.strands} conductor has no less resistance`,
      );
    }
  }
  if (installed.method === "unknown" && rules.ways.length > 0) {
    notes.add("nobody knows how it is installed: the lowest of all ways that the set has a table for is taken");
  }
  for (const { from, to, says } of rules.bundleNotes) {
    const counts = stretches.map((stretch) => countTogether(rules, stretch, installed));
    if (counts.some((count) => count >= from && (to === null || count <= to))) notes.add(says);
  }
  return [...notes];
}
