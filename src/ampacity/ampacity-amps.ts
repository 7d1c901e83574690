import { amps, type Amps } from "../quantity/index.ts";
import type { AmpacityRules } from "../ruleset/index.ts";
import type { ConductorMake } from "../wire/index.ts";
import { findAmpacityRow } from "./find-row.ts";
import { bundleFactor, findAmpacityColumn, heatFactor, ratingOf, type Stretch } from "./stretch.ts";

/**
 * What the worst stretch leaves of the tabulated ampacity. It depends on insulation and places alone, so a chooser works it out once for a circuit
 * and multiplies every size with it.
 *
 * @param insulationC temperature rating of the insulation, °C
 * @param stretches at least one
 * @returns 0…1; 0 where the insulation may not be used, or the air is as hot as it
 * @throws RangeError for no stretch, a bundle below 1 or a temperature that is no number: defects of the caller
 * @example
 * worstFactor(usSmallCraft.ampacity, 105, [{ engineSpace: true, ambientC: celsius(30), ambientStated: false, bundle: 2 }]) //=> 0.595
 */
export function worstFactor(rules: AmpacityRules, insulationC: number, stretches: readonly Stretch[]): number {
  const at = findAmpacityColumn(rules.table, insulationC);
  const column = at === null ? undefined : rules.table.columns[at];
  let worst = Infinity;
  for (const stretch of stretches) {
    const factor =
      column === undefined
        ? 0
        : heatFactor(rules, column, ratingOf(column, insulationC), stretch) * bundleFactor(rules, stretch.bundle);
    if (!(factor >= 0 && stretch.bundle >= 1)) {
      throw new RangeError(`no ampacity for a bundle of ${stretch.bundle} at ${stretch.ambientC} °C`);
    }
    if (factor < worst) worst = factor;
  }
  if (worst === Infinity) throw new RangeError("a run needs at least one stretch");
  return worst;
}

/**
 * The tabulated ampacity of a conductor, before any factor.
 *
 * @returns 0 where the table has nothing for it
 */
export function tableAmps(rules: AmpacityRules, make: ConductorMake, insulationC: number): Amps {
  const column = findAmpacityColumn(rules.table, insulationC);
  const row = column === null ? null : findAmpacityRow(rules.table, make);
  if (column === null || row === null) return amps(0);
  return amps(rules.table.rows[row.index]?.cells[column]?.value ?? 0);
}

/**
 * The ampacity of a conductor after every factor at its worst stretch: the bare number of `ampacity`, for loops that ask often.
 *
 * @param insulationC temperature rating of the insulation, °C
 * @returns A; 0 where there is none, for whatever reason
 * @throws RangeError as `worstFactor`
 */
export const ampacityAmps = (
  rules: AmpacityRules,
  make: ConductorMake,
  insulationC: number,
  stretches: readonly Stretch[],
): Amps => amps(tableAmps(rules, make, insulationC) * worstFactor(rules, insulationC, stretches));
