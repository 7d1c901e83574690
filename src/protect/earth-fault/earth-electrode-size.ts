import { findRow, takeCell, type Citation, type Trust } from "../../explain/index.ts";
import { nec250_166 } from "../../reference/nec-250-166.ts";
import { nec250_66 } from "../../reference/nec-250-66.ts";
import type { Metal, WireSize } from "../../wire/index.ts";
import { necSize } from "./protective-size.ts";

/** The conductor to an electrode. */
export interface ElectrodeConductor {
  readonly size: WireSize;
  readonly trust: Trust;
  readonly source: Citation;
}

/**
 * Conductor to the earth electrode of an alternating-current system, by its largest supply conductor.
 *
 * Ignores that 6 AWG is enough to a rod, pipe or plate, and 4 AWG to concrete-encased metal.
 *
 * @param supplyMm2 copper, of one line, those in parallel added
 * @source NEC Table 250.66, from memory
 * @example
 * electrodeConductorAC(33.6, "copper").size.label //=> "8 AWG"
 * electrodeConductorAC(67.4, "copper").size.label //=> "4 AWG"
 */
export function electrodeConductorAC(supplyMm2: number, metal: Metal): ElectrodeConductor {
  const row =
    nec250_66.rows.find(
      ({ supplyCuToAwgOrKcmil: to }) => to !== "above" && supplyMm2 <= necSize(to).areaMm2 * (1 + 1e-3),
    ) ?? findRow(nec250_66, "above");
  const column = metal === "copper" ? "cuElectrodeAwgOrKcmil" : "alElectrodeAwgOrKcmil";
  const cell = row === null ? null : takeCell(nec250_66, row, column);
  if (cell === null) throw new Error("protection/nec_250_66 has no last row");
  return { size: necSize(cell.value), trust: cell.trust, source: cell.source };
}

/**
 * Conductor to the earth electrode of a direct-current system.
 *
 * @param largestMm2 copper, the largest conductor that the system supplies
 * @param to what the electrode is: to some of them no more is asked
 * @source NEC 250.166, from memory
 * @example
 * electrodeConductorDC(2.08, "other").areaMm2 //=> 8.366
 * electrodeConductorDC(67.4, "rod pipe or plate").areaMm2 //=> 13.30
 */
export function electrodeConductorDC(
  largestMm2: number,
  to: "rod pipe or plate" | "concrete-encased" | "other",
): { readonly areaMm2: number; readonly trust: Trust; readonly source: Citation } {
  const any = findRow(nec250_166, "any");
  const least = any === null ? null : takeCell(nec250_166, any, "leastCuAwg");
  if (least === null) throw new Error("protection/nec_250_166 has no least size");
  const row = findRow(nec250_166, to);
  const most = row === null ? null : takeCell(nec250_166, row, "mostAskedCuAwg");
  const cap = most === null ? Infinity : necSize(most.value).areaMm2;
  const areaMm2 = Math.min(cap, Math.max(necSize(least.value).areaMm2, largestMm2));
  return { areaMm2, trust: least.trust, source: least.source };
}
