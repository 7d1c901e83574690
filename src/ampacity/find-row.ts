import { isNoThinner, sameSystem, type AmpacityTable } from "../ruleset/index.ts";
import type { ConductorMake } from "../wire/index.ts";

/** How a conductor found its row. */
export type RowChoice =
  /** The table has the size. */
  | "same size"
  /** The table has no such size: the next smaller one. */
  | "next row down"
  /** The size is of another system: the largest row that has no less resistance. */
  | "by resistance";

/** A row of an ampacity table. */
export interface FoundRow {
  readonly index: number;
  readonly how: RowChoice;
}

/** Rows that resistances led to, by table; comparing resistances is slow and the chooser asks again and again. */
const memory = new WeakMap<AmpacityTable, Map<string, FoundRow | null>>();
/** More makes than any stock has; a plan full of odd areas may not fill the memory. */
const MOST = 2000;

/**
 * The row that rates a conductor: its own size, the next smaller one, or for a size of another system the largest row whose conductor is not the
 * better one.
 *
 * @returns null below the table's first row, and for another metal than the table's
 */
export function findAmpacityRow(table: AmpacityTable, make: ConductorMake): FoundRow | null {
  const first = table.rows[0];
  if (first === undefined || make.metal !== table.metal) return null;
  if (sameSystem(make.size.system, first.size.system)) {
    for (let index = table.rows.length - 1; index >= 0; index--) {
      const area = table.rows[index]?.size.areaMm2 ?? Infinity;
      if (area <= make.size.areaMm2) return { index, how: area === make.size.areaMm2 ? "same size" : "next row down" };
    }
    return null;
  }
  let known = memory.get(table);
  if (known === undefined || known.size >= MOST) memory.set(table, (known = new Map<string, FoundRow | null>()));
  // The area on a label and an area of metal may be printed alike.
  const key = `${make.size.label}|${make.size.system} ${make.size.name}|${make.plating}|${make.strands}`;
  let found = known.get(key);
  if (found === undefined) {
    const index = table.rows.findLastIndex(({ size }) => isNoThinner(make, size, table.strands));
    known.set(key, (found = index < 0 ? null : { index, how: "by resistance" }));
  }
  return found;
}
