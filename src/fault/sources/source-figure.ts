import { findRow, takeCell, weakestTrust, type Trust } from "../../explain/index.ts";
import { sourceFaultCurrent } from "../../reference/source-fault-current.ts";

/** Both ends of a figure of the trade, and how far it can be leaned on. */
export interface SourceFigure {
  readonly low: number;
  readonly high: number;
  readonly trust: Trust;
}

/**
 * A figure of `reference/protection/source_fault_current.csv`.
 *
 * @param label source kind and quantity, as they stand there
 */
export function sourceFigure(label: string): SourceFigure {
  const row = findRow(sourceFaultCurrent, label);
  const low = row === null ? null : takeCell(sourceFaultCurrent, row, "low");
  const high = row === null ? null : takeCell(sourceFaultCurrent, row, "high");
  if (low === null || high === null) throw new Error(`protection/source_fault_current has no ${label}`);
  return { low: low.value, high: high.value, trust: weakestTrust(low.trust, high.trust) };
}
