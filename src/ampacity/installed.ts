import {
  methodSays,
  type AmpacityRules,
  type AmpacityTable,
  type AmpacityWay,
  type InstallMethod,
} from "../ruleset/index.ts";
import type { Celsius } from "../quantity/index.ts";
import type { Metal } from "../wire/index.ts";

/** How the conductors of a circuit are installed, as far as their ampacity goes; what is left out is as the rule set usually finds it. */
export interface Installed {
  readonly method?: InstallMethod | "unknown";
  /** Its conductors lie in one sheath. */
  readonly sheathed?: boolean;
  /** Conductors of the circuit that carry current: two for direct current and one phase. */
  readonly loaded?: number;
  /** What the terminals at its ends may reach, the lowest of them. */
  readonly terminalsC?: Celsius;
}

/** A table that rates a stretch, and the way of laying that led to it; null where the set has one table for all. */
export interface RatedBy {
  readonly way: AmpacityWay | null;
  readonly table: AmpacityTable;
}

/** Nothing said. */
export const asUsual: Installed = {};

/**
 * The tables that may rate a stretch: one, or where nobody knows how it is installed, one for every way that the set has a table for.
 *
 * @returns words where there is none
 */
export function ratedBy(
  rules: AmpacityRules,
  metal: Metal,
  stretch: { readonly buried?: boolean },
  installed: Installed,
): readonly RatedBy[] | string {
  const { ways, usual, untold, table } = rules;
  if (ways.length === 0) return [{ way: null, table }];
  const { sheathed = false, loaded = 2 } = installed;
  const fits = (way: AmpacityWay): boolean => way.sheathed === null || way.sheathed === sheathed;
  const tableOf = (way: AmpacityWay): RatedBy | null => {
    const found = way.tables.find((t) => t.metal === metal && (t.loaded === undefined || loaded <= t.loaded));
    return found === undefined ? null : { way, table: found };
  };
  const method = stretch.buried === true ? "D" : (installed.method ?? usual?.method ?? "raceway");
  if (method === "unknown") {
    const all = ways.flatMap((way) => (fits(way) ? (tableOf(way) ?? []) : []));
    return all.length > 0 ? all : `the ampacity tables hold nothing for ${metal}`;
  }
  const way = ways.find((each) => each.methods.includes(method) && fits(each));
  if (way === undefined) {
    return (
      untold.find((each) => each.method === method)?.says ?? `there is no ampacity table for ${methodSays[method]}`
    );
  }
  const found = tableOf(way);
  if (found !== null) return [found];
  const [first] = way.tables;
  return first !== undefined && way.tables.every((each) => each.metal === first.metal) && first.metal !== metal
    ? `the ampacity table is for ${first.metal}, the conductor is ${metal}`
    : `the ampacity tables hold nothing for ${metal} with ${loaded} loaded conductors`;
}
