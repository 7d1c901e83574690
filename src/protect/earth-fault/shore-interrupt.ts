import { takeCell, type Citation, type Trust } from "../../explain/index.ts";
import { inletInterrupt } from "../../reference/inlet-interrupt.ts";

/**
 * Least interrupt rating of breakers on the shore power of American boats.
 *
 * @param volts of the service; 120/240 for split phase
 * @param amps of the service: the next row up
 * @returns A; null beyond the table
 * @source ABYC E-11 Table IV-B (older numbering); 120 V read, the rest from memory
 * @example
 * shoreInterrupt("120", 30, "main")?.amps //=> 3000
 * shoreInterrupt("120/240", 50, "main")?.amps //=> 5000
 */
export function shoreInterrupt(
  volts: "120" | "120/240" | "240",
  amps: number,
  place: "main" | "branch",
): { readonly amps: number; readonly trust: Trust; readonly source: Citation } | null {
  const row = inletInterrupt.rows.filter((r) => r.shoreVolts === volts).find((r) => Number(r.shoreAmps) >= amps);
  const cell = row === undefined ? null : takeCell(inletInterrupt, row, place === "main" ? "mainA" : "branchA");
  return cell === null ? null : { amps: cell.value, trust: cell.trust, source: cell.source };
}
