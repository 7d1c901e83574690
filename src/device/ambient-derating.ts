import { takeCell, type LookedUp } from "../explain/index.ts";
import { ambientDerating } from "../reference/ambient-derating.ts";
import type { DeviceFamilyId } from "./family.ts";

/**
 * Share of its rating that a device may carry for good at an ambient: that of the next row up in temperature.
 *
 * @param ambientC °C, of the air around the device
 * @returns null where no curve is published for the family, or the ambient is above its end
 * @source data sheet of a 40 A large blade fuse, as quoted
 * @example
 * ambientShare("blade_type_E", 50).value //=> 0.85
 * ambientShare("blade_type_C", 50) //=> null
 */
export function ambientShare(family: DeviceFamilyId, ambientC: number): LookedUp | null {
  const row = ambientDerating.rows.find((candidate) => candidate.family === family && candidate.ambientC >= ambientC);
  return row === undefined ? null : takeCell(ambientDerating, row, "factor", `${family} ${ambientC}`);
}
