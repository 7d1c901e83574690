import { takeCell, type Citation, type Trust } from "../explain/index.ts";
import { prearcing } from "../reference/prearcing.ts";
import { citeRow, groupByFamily, type DeviceFamilyId } from "./family.ts";

/** An energy by current, or a current, with what it rests on. */
export interface Stated {
  /** A²s for an energy, A for a current. */
  readonly value: number;
  readonly trust: Trust;
  readonly source: Citation;
}

/** The energy by current that melts a fuse element at 0.01 s, without the arc. */
export interface PreArcing {
  /** A²s; null where the standard of the family fixes none. */
  readonly min: Stated | null;
  readonly max: Stated | null;
  /** A²s, of one make: a usual figure and no bound; nothing may be proven with it. */
  readonly typical: Stated | null;
}

const NONE: PreArcing = { min: null, max: null, typical: null };

const rowsOf = groupByFamily(prearcing.rows);

/**
 * Pre-arcing I²t of a fuse at 0.01 s.
 *
 * The arc that follows is not in it. Below 0.01 s the element heats without loss, so the energy stays about the same; above, it takes more.
 *
 * @param rating A, of the device
 * @returns all null where nothing is published: only gG fuses have bounds
 * @source IEC 60269-1 Table 7; data sheets for the typical figures
 * @example
 * preArcing("iec_gG", 63).min.value //=> 9000
 * preArcing("iec_gG", 63).max.value //=> 27000
 * preArcing("blade_type_E", 40).min //=> null
 * preArcing("blade_type_E", 40).typical.value //=> 8500
 */
export function preArcing(family: DeviceFamilyId, rating: number): PreArcing {
  const row = rowsOf(family).find((candidate) => candidate.ratingA === rating);
  if (row === undefined) return NONE;
  const stated = (column: "minA2s" | "maxA2s" | "typicalA2s"): Stated | null => {
    const cell = takeCell(prearcing, row, column);
    return cell === null ? null : { value: cell.value, trust: cell.trust, source: citeRow(row, cell.trust) };
  };
  return { min: stated("minA2s"), max: stated("maxA2s"), typical: stated("typicalA2s") };
}
