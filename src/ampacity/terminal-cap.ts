import type { LookedUp } from "../explain/index.ts";
import type { AmpacityRules, AmpacityTable } from "../ruleset/index.ts";
import type { ConductorMake, WireSize } from "../wire/index.ts";
import { findAmpacityRow } from "./find-row.ts";
import type { Installed } from "./installed.ts";
import { findAmpacityColumn } from "./stretch.ts";

/** What the terminals at its ends let a conductor carry. */
export interface TerminalCap {
  readonly amps: number;
  /** What the terminals may reach, °C. */
  readonly terminalsC: number;
  /** The plan states it. */
  readonly stated: boolean;
  readonly cell: LookedUp;
}

/** Temperature that terminals for a size are taken to bear; null where nothing is assumed. */
const assumedTerminals = (rules: AmpacityRules, size: WireSize): number | null =>
  rules.terminals?.assumed.find(({ upTo }) => upTo === null || size.areaMm2 <= upTo.areaMm2)?.terminalsC ?? null;

/**
 * What the terminals allow: the value of the column for their temperature, with no correction on it.
 *
 * @param table the conductor's own, of which a cooler column counts where the set names no table for terminals
 * @param ratingC temperature that the conductor may reach
 * @returns null where they allow as much as the conductor's own column
 */
export function terminalCap(
  rules: AmpacityRules,
  make: ConductorMake,
  table: AmpacityTable,
  ratingC: number,
  installed: Installed,
): TerminalCap | null {
  const { terminals } = rules;
  if (terminals === null) return null;
  const own = terminals.tables.find((each) => each.metal === make.metal);
  const from = own ?? table;
  // By the row that rates it, so that a size of another system is taken for the gauge that it is as good as.
  const found = findAmpacityRow(from, make);
  const row = found === null ? undefined : from.rows[found.index];
  const terminalsC = installed.terminalsC ?? (row === undefined ? null : assumedTerminals(rules, row.size));
  if (terminalsC === null || (own === undefined && terminalsC >= ratingC)) return null;
  const at = findAmpacityColumn(from, terminalsC) ?? 0;
  const column = from.columns[at];
  // Thin sizes have no value in the cooler columns: they may not carry more than the next one that has.
  const cell = from.rows.slice(found?.index ?? Infinity).find(({ cells }) => cells[at] != null)?.cells[at] ?? null;
  if (column === undefined || cell === null) return null;
  // Terminals cooler than the first column: by the rise that they leave.
  const { baseAmbientC: base } = rules;
  const share = Math.min(1, Math.sqrt(Math.max(0, terminalsC - base) / (column.from - base)));
  return { amps: cell.value * share, terminalsC, stated: installed.terminalsC !== undefined, cell };
}
