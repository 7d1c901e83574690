import { capAmps, leastCounted, ratedBy, stretchFactor, tableAmps, type RatedBy } from "../ampacity/index.ts";
import { airOf, findAmpacityColumn, ratingOf } from "../ampacity/stretch.ts";
import { metres } from "../quantity/index.ts";
import type { Run } from "../route/index.ts";
import {
  isNoThinner,
  leastSize,
  smallConductor,
  type AmpacityTable,
  type RuleSet,
  type LeastSize,
  type SmallConductor,
} from "../ruleset/index.ts";
import type { Stock, SystemCircuit } from "../system/index.ts";
import {
  isStrands,
  resistancePerMetre20,
  resistanceRise,
  stockedSizes,
  type ConductorMake,
  type Metal,
  type WireSize,
} from "../wire/index.ts";

/** The sizes that a circuit may have, thinnest first, with what is the same for every circuit of that make. */
export interface Ladder {
  readonly makes: readonly ConductorMake[];
  /** Ω/m at 20 °C. */
  readonly ohmsPerMetre20: Float64Array;
  /** What the rule set lets the devices of a small conductor be at most; null where it is not small. */
  readonly small: readonly (SmallConductor | null)[];
  /** mm² */
  readonly areas: Float64Array;
}

/** What one of several rule sets that a circuit follows lets it have. */
export interface SetRungs {
  readonly ruleSet: RuleSet;
  readonly rungs: Rungs;
}

/** A circuit as the chooser sees it: its ladder, and what its surroundings do to it. */
export interface Rungs {
  readonly ladder: Ladder;
  /** The rule set whose tables and factors these are. */
  readonly ruleSet: RuleSet;
  /** Where a circuit follows several sets, what each lets it have; what stands here is then the lesser. */
  readonly bySet?: readonly SetRungs[];
  readonly metal: Metal;
  /** Temperature that its insulation bears, as far as the table's column stands for it, °C. */
  readonly ratingC: number;
  /** By stretch: all factors together. */
  readonly factors: Float64Array;
  /** By stretch: ampacity of each rung there by heat alone, A; 0 where the table has nothing for the size. */
  readonly byStretch: readonly Float64Array[];
  /** Ampacity of each rung at its worst stretch, no more than its terminals allow, A. */
  readonly amps: Float64Array;
  /** What its terminals let each rung carry, A; Infinity where they ask for nothing. */
  readonly terminalAmps: Float64Array;
  /** What may flow in each rung for hours on end, A: no more than `amps`. */
  readonly steadyAmps: Float64Array;
  /** By stretch, m. */
  readonly lengths: Float64Array;
  /** By stretch, °C. */
  readonly ambients: Float64Array;
  /** Of the stretches the one that decides the ampacity. */
  readonly worstStretch: number;
  readonly parallel: number;
  /** What a metre of one conductor costs the aim of the choice: mm², or money. */
  readonly weights: Float64Array;
  /** First rung that the rule set's least size and the stock allow. */
  readonly least: number;
  /** First rung that the rule set alone would allow. */
  readonly leastByRule: number;
  readonly leastSize: LeastSize | null;
  /** Why no size can be rated; null where it can. */
  readonly untold: string | null;
}

/** By rule set: that of the alternating side is another one of the same name, with other limits for small conductors. */
const ladders = new WeakMap<RuleSet, Map<string, Ladder>>();

/** Sizes on the shelf in the order of the metal in them. */
function ladderFor(
  set: RuleSet,
  sizes: readonly WireSize[],
  like: Omit<ConductorMake, "size">,
  insulationC: number,
): Ladder {
  const key = [like.metal, like.plating, like.strands, insulationC, ...sizes.map((s) => s.label)].join("|");
  let ofSet = ladders.get(set);
  if (ofSet === undefined) ladders.set(set, (ofSet = new Map<string, Ladder>()));
  let ladder = ofSet.get(key);
  if (ladder === undefined) {
    const makes = sizes.map((size): ConductorMake => ({ ...like, size }));
    ladder = {
      makes,
      ohmsPerMetre20: Float64Array.from(makes, (make) => resistancePerMetre20(make).ohmsPerMetre),
      small: makes.map((make) => smallConductor(set.deviceSize, "DC", make)),
      areas: Float64Array.from(sizes, (s) => s.areaMm2),
    };
    if (ofSet.size > 50) ofSet.clear(); // pinned sizes of many plans in one process
    ofSet.set(key, ladder);
  }
  return ladder;
}

/** What each rung of a ladder may carry by one table, and what its terminals allow. */
interface Tabulated {
  readonly amps: Float64Array;
  readonly caps: Float64Array;
}

/** By ladder and table; the choice of sizes lays out the same ones again and again. */
const tabulated = new WeakMap<Ladder, Map<AmpacityTable, Map<string, Tabulated>>>();

function tabulate(ladder: Ladder, set: RuleSet, table: AmpacityTable, insulationC: number, run: Run): Tabulated {
  let byTable = tabulated.get(ladder);
  if (byTable === undefined) tabulated.set(ladder, (byTable = new Map<AmpacityTable, Map<string, Tabulated>>()));
  let byTerminals = byTable.get(table);
  if (byTerminals === undefined) byTable.set(table, (byTerminals = new Map<string, Tabulated>()));
  const key = String(run.installed.terminalsC ?? "");
  let known = byTerminals.get(key);
  if (known === undefined) {
    const { makes } = ladder;
    known = {
      amps: Float64Array.from(makes, (make) => tableAmps(set.ampacity, make, insulationC, table)),
      caps: Float64Array.from(makes, (make) => capAmps(set.ampacity, make, insulationC, table, run.installed)),
    };
    if (byTerminals.size > 100) byTerminals.clear(); // temperatures come from plans
    byTerminals.set(key, known);
  }
  return known;
}

/** The make of a circuit's conductors, but for their size. */
export function makeOf(circuit: SystemCircuit): Omit<ConductorMake, "size"> {
  return {
    metal: circuit.metal === "aluminium" ? "aluminium" : "copper",
    plating: circuit.metal === "tinned copper" ? "tinned" : "plain",
    strands: isStrands(circuit.strands) ? circuit.strands : "class 5",
  };
}

/**
 * Lays out what a circuit's sizes could be. A pinned or found size is a ladder of one rung.
 *
 * @param isSolar it carries what solar modules push, of which a rule set may ask more for hours than of other currents
 */
export function rungsFor(circuit: SystemCircuit, run: Run, set: RuleSet, stock: Stock, isSolar = false): Rungs {
  const pinned = circuit.size === undefined || circuit.size === "unknown" ? undefined : circuit.size;
  const sizes = pinned !== undefined ? [pinned] : stock.sizes.length > 0 ? stock.sizes : stockedSizes(stock.system);
  const like = makeOf(circuit);
  const insulationC = circuit.insulationC.low;
  const ladder = ladderFor(set, sizes, like, insulationC);
  const rules = set.ampacity;
  const n = run.stretches.length;
  const rungs = ladder.makes.length;
  const factors = new Float64Array(n);
  const lengths = new Float64Array(n);
  const ambients = new Float64Array(n);
  const amps = new Float64Array(rungs).fill(Infinity);
  const allCaps = new Float64Array(rungs).fill(Infinity);
  const uncorrected = new Float64Array(rungs).fill(Infinity);
  let untold: string | null = null;
  let ratingC: number | null = null;
  let worst = Infinity;
  let worstStretch = 0;
  const byStretch = run.stretches.map((stretch, i) => {
    const here = new Float64Array(rungs).fill(Infinity);
    const rated = ratedBy(rules, like.metal, stretch, run.installed);
    if (typeof rated === "string") untold ??= rated;
    const tables: readonly RatedBy[] = typeof rated === "string" ? [] : rated;
    factors[i] = tables.length === 0 ? 0 : Infinity;
    for (const { table, way } of tables) {
      const at = findAmpacityColumn(table, insulationC);
      const column = at === null ? undefined : table.columns[at];
      ratingC ??= column === undefined ? insulationC : ratingOf(column, insulationC);
      const factor = stretchFactor(rules, table, way, insulationC, stretch, run.installed);
      factors[i] = Math.min(factors[i] ?? 0, factor);
      const { amps: tableAmps, caps } = tabulate(ladder, set, table, insulationC, run);
      for (let r = 0; r < rungs; r++) {
        const tabulatedAmps = tableAmps[r] ?? 0;
        const cap = caps[r] ?? Infinity;
        here[r] = Math.min(here[r] ?? 0, tabulatedAmps * factor);
        allCaps[r] = Math.min(allCaps[r] ?? 0, cap);
        uncorrected[r] = Math.min(uncorrected[r] ?? 0, tabulatedAmps, cap);
      }
    }
    if (tables.length === 0) here.fill(0);
    lengths[i] = stretch.lengthM.high;
    ambients[i] = airOf(rules, stretch);
    // Of stretches by different tables the one that leaves the thickest rung least.
    const least = n === 1 ? 0 : (here[rungs - 1] ?? 0);
    if (least < worst) {
      worst = least;
      worstStretch = i;
    }
    return here;
  });
  const counted = (r: number): number =>
    leastCounted(
      rules.shortStretch,
      byStretch.map((here) => here[r] ?? 0),
      run.stretches,
    );
  for (let r = 0; r < rungs; r++) amps[r] = Math.min(allCaps[r] ?? 0, counted(r));
  if (rules.shortStretch !== null && n > 1) {
    const decides = counted(rungs - 1);
    worstStretch = Math.max(
      0,
      byStretch.findIndex((here) => here[rungs - 1] === decides),
    );
  }
  if (n === 0 || untold !== null) amps.fill(0);
  // What is made for all that its source gives: of that only loads flow for hours, and how much is not known.
  const isSourceRated = circuit.demand?.origin === "derived";
  const continuous = isSourceRated ? undefined : rules.continuous?.factor;
  const forHours = continuous ?? (isSolar ? set.solar?.forHours : undefined);
  const steadyAmps =
    forHours === undefined ? amps : amps.map((iz, r) => Math.min(iz, (uncorrected[r] ?? 0) / forHours));
  const rule = leastSize(set.leastSize, {
    current: "DC",
    sheathed: circuit.sheathed === true,
    ...(run.lengthM.origin === "unknown" ? {} : { length: metres(run.lengthM.high) }),
  });
  const leastByRule = rule === null ? 0 : firstRung(ladder, (make) => isNoThinner(make, rule.size, rule.strands));
  const leastKept =
    stock.leastSize === undefined
      ? 0
      : firstRung(ladder, (make) => isNoThinner(make, stock.leastSize ?? make.size, make.strands));
  return {
    ladder,
    ruleSet: set,
    metal: like.metal,
    ratingC: ratingC ?? insulationC,
    factors,
    byStretch,
    amps,
    terminalAmps: allCaps,
    steadyAmps,
    lengths,
    ambients,
    worstStretch,
    parallel: circuit.parallel,
    weights: weightsOf(ladder, stock, pinned !== undefined),
    least: pinned === undefined ? Math.max(leastByRule, leastKept) : 0,
    leastByRule,
    leastSize: rule,
    untold,
  };
}

/** A size that the plan gives costs the same whatever is chosen: of its price nothing is asked. */
function weightsOf({ areas }: Ladder, { prices }: Stock, isPinned: boolean): Float64Array {
  if (prices === null) return areas;
  return isPinned ? new Float64Array(areas.length) : Float64Array.from(prices);
}

/** Index of the first make that passes; one past the last when none does. */
function firstRung(ladder: Ladder, passes: (make: ConductorMake) => boolean): number {
  const found = ladder.makes.findIndex(passes);
  return found < 0 ? ladder.makes.length : found;
}

/** Ampacity of a rung after every factor at the worst stretch, all parallel conductors together, A. */
export const ampacityAt = (rungs: Rungs, rung: number): number => (rungs.amps[rung] ?? 0) * rungs.parallel;

/** What may flow in a rung for hours on end, all parallel conductors together, A: its ampacity, or less where the rule set asks for more than that. */
export const steadyAt = (rungs: Rungs, rung: number): number => (rungs.steadyAmps[rung] ?? 0) * rungs.parallel;

/** By heat alone, what the conductors of a rung may carry in one stretch, A. */
export const stretchAmpacityAt = (rungs: Rungs, rung: number, stretch: number): number =>
  (rungs.byStretch[stretch]?.[rung] ?? 0) * rungs.parallel;

/** Hottest that first-order heat makes a conductor, °C. */
const HOTTEST = 250;

/** Temperature of the metal in one stretch at a current, °C: `docs/method.md` section 2. */
export function temperatureAt(rungs: Rungs, rung: number, stretch: number, amps: number): number {
  const ambient = rungs.ambients[stretch] ?? 30;
  if (amps === 0) return ambient;
  const ampacity = stretchAmpacityAt(rungs, rung, stretch);
  if (ampacity === 0) return HOTTEST;
  return Math.min(HOTTEST, ambient + (rungs.ratingC - ambient) * (amps / ampacity) ** 2);
}

/** Resistance of the run, one way, with all parallel conductors, at the temperature that a current gives it; Ω. */
export function runOhms(rungs: Rungs, rung: number, amps: number): number {
  const per = (rungs.ladder.ohmsPerMetre20[rung] ?? 0) / rungs.parallel;
  let ohms = 0;
  for (let s = 0; s < rungs.lengths.length; s++) {
    ohms += per * (rungs.lengths[s] ?? 0) * resistanceRise(rungs.metal, temperatureAt(rungs, rung, s, amps));
  }
  return ohms;
}
