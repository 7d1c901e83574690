import { amps, type Amps } from "../quantity/index.ts";
import type { AmpacityRules, AmpacityTable, AmpacityWay } from "../ruleset/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import { findAmpacityRow } from "./find-row.ts";
import { asUsual, ratedBy, type Installed } from "./installed.ts";
import { crowdFactor, findAmpacityColumn, heatFactor, ratingOf, type Stretch } from "./stretch.ts";
import { leastCounted } from "./least-counted.ts";
import { terminalCap } from "./terminal-cap.ts";

/**
 * What a stretch leaves of the tabulated ampacity. It depends on insulation and place alone, so a chooser works it out once for a stretch and
 * multiplies every size with it.
 *
 * @param insulationC temperature rating of the insulation, °C
 * @returns 0…1; 0 where the insulation may not be used, or the air is as hot as it
 * @throws RangeError for a bundle below 1 or a temperature that is no number: defects of the caller
 */
export function stretchFactor(
  rules: AmpacityRules,
  table: AmpacityTable,
  way: AmpacityWay | null,
  insulationC: number,
  stretch: Stretch,
  installed: Installed = asUsual,
): number {
  const at = findAmpacityColumn(table, insulationC);
  const column = at === null ? undefined : table.columns[at];
  const factor =
    column === undefined
      ? 0
      : heatFactor(rules, column, ratingOf(column, insulationC), stretch) * crowdFactor(rules, way, stretch, installed);
  if (!(factor >= 0 && stretch.bundle >= 1)) {
    throw new RangeError(`no ampacity for a bundle of ${stretch.bundle} at ${stretch.ambientC} °C`);
  }
  return factor;
}

/**
 * What the worst stretch leaves of the tabulated ampacity, where one table rates the whole run.
 *
 * @param insulationC temperature rating of the insulation, °C
 * @param stretches at least one
 * @returns 0…1; 0 where the insulation may not be used, or the air is as hot as it
 * @throws RangeError for no stretch, and as `stretchFactor`
 * @example
 * worstFactor(usSmallCraft.ampacity, 105, [{ engineSpace: true, ambientC: celsius(30), ambientStated: false, bundle: 2 }]) //=> 0.595
 */
export function worstFactor(rules: AmpacityRules, insulationC: number, stretches: readonly Stretch[]): number {
  let worst = Infinity;
  for (const stretch of stretches) {
    worst = Math.min(worst, stretchFactor(rules, rules.table, null, insulationC, stretch));
  }
  if (worst === Infinity) throw new RangeError("a run needs at least one stretch");
  return worst;
}

/**
 * The tabulated ampacity of a conductor, before any factor.
 *
 * @param table that rates it; the set's usual one where left out
 * @returns 0 where the table has nothing for it
 */
export function tableAmps(
  rules: AmpacityRules,
  make: ConductorMake,
  insulationC: number,
  table: AmpacityTable = rules.table,
): Amps {
  const column = findAmpacityColumn(table, insulationC);
  const row = column === null ? null : findAmpacityRow(table, make);
  if (column === null || row === null) return amps(0);
  return amps(table.rows[row.index]?.cells[column]?.value ?? 0);
}

/** What the terminals let a conductor carry, A; Infinity where they allow as much as its own column. */
export function capAmps(
  rules: AmpacityRules,
  make: ConductorMake,
  insulationC: number,
  table: AmpacityTable,
  installed: Installed,
): number {
  const at = findAmpacityColumn(table, insulationC);
  const column = at === null ? undefined : table.columns[at];
  if (column === undefined) return Infinity;
  return terminalCap(rules, make, table, ratingOf(column, insulationC), installed)?.amps ?? Infinity;
}

/**
 * The ampacity of a conductor after every factor at its worst stretch, and no more than its terminals allow: the bare number of `ampacity`, for loops
 * that ask often.
 *
 * @param insulationC temperature rating of the insulation, °C
 * @param installed how it lies and ends; as usual where left out
 * @returns A; 0 where there is none, for whatever reason
 * @throws RangeError for no stretch, and as `stretchFactor`
 */
export function ampacityAmps(
  rules: AmpacityRules,
  make: ConductorMake,
  insulationC: number,
  stretches: readonly Stretch[],
  installed: Installed = asUsual,
): Amps {
  let cap = Infinity;
  const corrected: number[] = [];
  for (const stretch of stretches) {
    const rated = ratedBy(rules, make.metal, stretch, installed);
    if (typeof rated === "string") return amps(0);
    let least = Infinity;
    for (const { table, way } of rated) {
      const one =
        tableAmps(rules, make, insulationC, table) * stretchFactor(rules, table, way, insulationC, stretch, installed);
      least = Math.min(least, one);
      cap = Math.min(cap, capAmps(rules, make, insulationC, table, installed));
    }
    corrected.push(least);
  }
  if (corrected.length === 0) throw new RangeError("a run needs at least one stretch");
  return amps(Math.min(cap, leastCounted(rules.shortStretch, corrected, stretches)));
}
