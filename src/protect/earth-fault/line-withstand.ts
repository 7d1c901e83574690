import { findRow, takeCell, type LookedUp } from "../../explain/index.ts";
import { adiabatic } from "../../reference/adiabatic.ts";
import type { Metal } from "../../wire/index.ts";
import type { ProtectiveInsulation } from "./protective-size.ts";

/** Rows of the table by insulation; above 300 mm² thermoplastics are allowed less. */
const ROWS: Readonly<Record<ProtectiveInsulation, { readonly thin: string; readonly thick: string }>> = {
  "70 °C thermoplastic": {
    thin: "70 °C thermoplastic (PVC), to 300 mm²",
    thick: "70 °C thermoplastic (PVC), above 300 mm²",
  },
  "90 °C thermoplastic": { thin: "90 °C thermoplastic, to 300 mm²", thick: "90 °C thermoplastic, above 300 mm²" },
  "90 °C thermosetting": { thin: "90 °C thermosetting (XLPE, EPR)", thick: "90 °C thermosetting (XLPE, EPR)" },
};
const ALUMINIUM: Readonly<Record<ProtectiveInsulation, string>> = {
  "70 °C thermoplastic": "70 °C thermoplastic",
  "90 °C thermoplastic": "90 °C thermoplastic",
  "90 °C thermosetting": "90 °C thermosetting",
};

/** Above it thermoplastics cool so slowly that they are allowed less, mm². */
const THICK = 300;

/**
 * k of a conductor that carries load, for shorts from 0.1 s to 5 s: I²t ≤ k²S².
 *
 * @param areaMm2 of one conductor
 * @returns A·√s/mm²; null where the table has none: aluminium above 300 mm²
 * @source BS 7671 Table 43.1 (IEC 60364-4-43 Table 43A)
 * @example
 * lineK("copper", "70 °C thermoplastic", 2.5)?.value //=> 115
 * lineK("aluminium", "90 °C thermosetting", 16)?.value //=> 94
 */
export function lineK(metal: Metal, insulation: ProtectiveInsulation, areaMm2: number): LookedUp | null {
  const isThick = areaMm2 > THICK;
  if (metal === "aluminium" && isThick) return null;
  const row = metal === "aluminium" ? ALUMINIUM[insulation] : ROWS[insulation][isThick ? "thick" : "thin"];
  const found = findRow(adiabatic, `${metal} line conductor, ${row}`);
  return found === null ? null : takeCell(adiabatic, found, "kASqrtSPerMm2");
}
