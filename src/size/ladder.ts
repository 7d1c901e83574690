import { tableAmps } from "../ampacity/index.ts";
import { bundleFactor, findAmpacityColumn, heatFactor, ratingOf } from "../ampacity/stretch.ts";
import { celsius, metres, type Celsius } from "../quantity/index.ts";
import type { Run } from "../route/index.ts";
import { isNoThinner, leastSize, type CarriedRuleSet, type LeastSize } from "../ruleset/index.ts";
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
  /** Tabulated ampacity, A; 0 where the table has nothing for the size. */
  readonly tableAmps: Float64Array;
  /** mm² */
  readonly areas: Float64Array;
}

/** A circuit as the chooser sees it: its ladder, and what its surroundings do to it. */
export interface Rungs {
  readonly ladder: Ladder;
  readonly metal: Metal;
  /** Temperature that its insulation bears, as far as the table's column stands for it, °C. */
  readonly ratingC: number;
  /** By stretch: heat factor × bundle factor. */
  readonly factors: Float64Array;
  /** By stretch, m. */
  readonly lengths: Float64Array;
  /** By stretch, °C. */
  readonly ambients: Float64Array;
  readonly worstFactor: number;
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
}

const ladders = new Map<string, Ladder>();

/** Sizes on the shelf in the order of the metal in them. */
function ladderFor(
  set: CarriedRuleSet,
  sizes: readonly WireSize[],
  like: Omit<ConductorMake, "size">,
  insulationC: number,
): Ladder {
  const key = [set.id, like.metal, like.plating, like.strands, insulationC, ...sizes.map((s) => s.label)].join("|");
  let ladder = ladders.get(key);
  if (ladder === undefined) {
    const makes = sizes.map((size): ConductorMake => ({ ...like, size }));
    ladder = {
      makes,
      ohmsPerMetre20: Float64Array.from(makes, (make) => resistancePerMetre20(make).ohmsPerMetre),
      tableAmps: Float64Array.from(makes, (make) => tableAmps(set.ampacity, make, insulationC)),
      areas: Float64Array.from(sizes, (s) => s.areaMm2),
    };
    if (ladders.size > 200) ladders.clear(); // pinned sizes of many plans in one process
    ladders.set(key, ladder);
  }
  return ladder;
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
 */
export function rungsFor(circuit: SystemCircuit, run: Run, set: CarriedRuleSet, stock: Stock): Rungs {
  const pinned = circuit.size === undefined || circuit.size === "unknown" ? undefined : circuit.size;
  const sizes = pinned !== undefined ? [pinned] : stock.sizes.length > 0 ? stock.sizes : stockedSizes(stock.system);
  const like = makeOf(circuit);
  const insulationC = circuit.insulationC.low;
  const ladder = ladderFor(set, sizes, like, insulationC);
  const at = findAmpacityColumn(set.ampacity.table, insulationC);
  const column = at === null ? undefined : set.ampacity.table.columns[at];
  const ratingC = column === undefined ? insulationC : ratingOf(column, insulationC);
  const n = run.stretches.length;
  const factors = new Float64Array(n);
  const lengths = new Float64Array(n);
  const ambients = new Float64Array(n);
  let worstFactor = Infinity;
  let worstStretch = 0;
  run.stretches.forEach((stretch, i) => {
    const ambientC: Celsius = celsius(stretch.ambientC);
    const factor =
      column === undefined
        ? 0
        : heatFactor(set.ampacity, column, ratingC, { ...stretch, ambientC }) *
          bundleFactor(set.ampacity, stretch.bundle);
    factors[i] = factor;
    lengths[i] = stretch.lengthM.high;
    ambients[i] = stretch.ambientC;
    if (factor < worstFactor) {
      worstFactor = factor;
      worstStretch = i;
    }
  });
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
    metal: like.metal,
    ratingC,
    factors,
    lengths,
    ambients,
    worstFactor: worstFactor === Infinity ? 0 : worstFactor,
    worstStretch,
    parallel: circuit.parallel,
    weights: weightsOf(ladder, stock, pinned !== undefined),
    least: pinned === undefined ? Math.max(leastByRule, leastKept) : 0,
    leastByRule,
    leastSize: rule,
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
export const ampacityAt = (rungs: Rungs, rung: number): number =>
  (rungs.ladder.tableAmps[rung] ?? 0) * rungs.worstFactor * rungs.parallel;

/** Hottest that first-order heat makes a conductor, °C. */
const HOTTEST = 250;

/** Temperature of the metal in one stretch at a current, °C: `docs/method.md` section 2. */
export function temperatureAt(rungs: Rungs, rung: number, stretch: number, amps: number): number {
  const ambient = rungs.ambients[stretch] ?? 30;
  if (amps === 0) return ambient;
  const ampacity = (rungs.ladder.tableAmps[rung] ?? 0) * (rungs.factors[stretch] ?? 0) * rungs.parallel;
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
