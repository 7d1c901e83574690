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

/** What an electrode is: to some of them no more than a certain size is asked. */
export type ElectrodeIs = "rod pipe or plate" | "concrete-encased" | "other";

/** Copper that is enough to an electrode, whatever the system. */
function mostAsked(to: ElectrodeIs): WireSize {
  const row = findRow(nec250_166, to === "other" ? "any" : to);
  const most = row === null ? null : takeCell(nec250_166, row, "mostAskedCuAwg");
  if (most === null) throw new Error(`protection/nec_250_166 has no most for ${to}`);
  return necSize(most.value);
}

/**
 * Conductor to the earth electrode of an alternating-current system, by its largest supply conductor; the same steps hold for bonding jumpers of the supply side.
 *
 * @param supplyMm2 copper, of one line, those in parallel added
 * @param to of copper no more than 6 AWG is asked to a rod, pipe or plate, and 4 AWG to concrete-encased metal: 250.66(A) and (B)
 * @source NEC Table 250.66, from memory
 * @example
 * electrodeConductorAC(33.6, "copper").size.label //=> "8 AWG"
 * electrodeConductorAC(67.4, "copper").size.label //=> "4 AWG"
 * electrodeConductorAC(67.4, "copper", "rod pipe or plate").size.label //=> "6 AWG"
 */
export function electrodeConductorAC(supplyMm2: number, metal: Metal, to: ElectrodeIs = "other"): ElectrodeConductor {
  const row =
    nec250_66.rows.find(
      ({ supplyCuToAwgOrKcmil: to }) => to !== "above" && supplyMm2 <= necSize(to).areaMm2 * (1 + 1e-3),
    ) ?? findRow(nec250_66, "above");
  const column = metal === "copper" ? "cuElectrodeAwgOrKcmil" : "alElectrodeAwgOrKcmil";
  const cell = row === null ? null : takeCell(nec250_66, row, column);
  if (cell === null) throw new Error("protection/nec_250_66 has no last row");
  const asked = necSize(cell.value);
  const cap = mostAsked(to);
  const isCapped = metal === "copper" && asked.areaMm2 > cap.areaMm2;
  return { size: isCapped ? cap : asked, trust: cell.trust, source: cell.source };
}

/**
 * Conductor to the earth electrode of a direct-current system.
 *
 * @param largestMm2 copper, the largest conductor that the system supplies
 * @param to what the electrode is: to some of them no more is asked
 * @source NEC 250.166: (A) and (B) not thinner than the largest conductor, 8 AWG at least, 3/0 enough; (C) 6 AWG to a rod; (D) 4 AWG to concrete-encased metal
 * @example
 * electrodeConductorDC(2.08, "other").areaMm2 //=> 8.366
 * electrodeConductorDC(67.4, "rod pipe or plate").areaMm2 //=> 13.30
 */
export function electrodeConductorDC(
  largestMm2: number,
  to: ElectrodeIs,
): { readonly areaMm2: number; readonly trust: Trust; readonly source: Citation } {
  const any = findRow(nec250_166, "any");
  const least = any === null ? null : takeCell(nec250_166, any, "leastCuAwg");
  if (least === null) throw new Error("protection/nec_250_166 has no least size");
  const areaMm2 = Math.min(mostAsked(to).areaMm2, Math.max(necSize(least.value).areaMm2, largestMm2));
  return { areaMm2, trust: least.trust, source: least.source };
}
