import { takeCell, findRow, type Citation, type Trust } from "../../explain/index.ts";
import { celsius, type Celsius, type SquareMillimetres } from "../../quantity/index.ts";
import { adiabatic } from "../../reference/adiabatic.ts";

/** What insulation is, as far as a fault goes: thermoplastic melts (PVC, PE), thermosetting chars (XLPE, EPR, silicone). */
export type FaultInsulation = "thermoplastic" | "thermosetting" | "rubber 60 °C" | "rubber 85 °C";

/** Rows of the table that state the limit. */
const ROWS: Readonly<Record<FaultInsulation, readonly [thin: string, thick: string]>> = {
  thermoplastic: [
    "copper line conductor, 70 °C thermoplastic (PVC), to 300 mm²",
    "copper line conductor, 70 °C thermoplastic (PVC), above 300 mm²",
  ],
  thermosetting: [
    "copper line conductor, 90 °C thermosetting (XLPE, EPR)",
    "copper line conductor, 90 °C thermosetting (XLPE, EPR)",
  ],
  "rubber 60 °C": [
    "copper line conductor, 60 °C thermosetting (rubber)",
    "copper line conductor, 60 °C thermosetting (rubber)",
  ],
  "rubber 85 °C": [
    "copper line conductor, 85 °C thermosetting (rubber)",
    "copper line conductor, 85 °C thermosetting (rubber)",
  ],
};

/** Above this PVC is allowed less, because it cools so slowly. */
const THICK = 300; // mm²

/** Temperature that insulation stands for the seconds of a fault. */
export interface FaultLimit {
  readonly finalC: Celsius;
  readonly trust: Trust;
  readonly source: Citation;
}

/**
 * Temperature that insulation stands for the seconds of a fault, whatever its metal.
 *
 * No standard of boat or vehicle wire states one: those of the wiring regulations for the same material stand in.
 *
 * @param area of one conductor, mm²
 * @source BS 7671 table 43.1, as carried in `protection/adiabatic`
 * @example
 * faultLimit("thermoplastic", squareMillimetres(35)).finalC //=> 160
 */
export function faultLimit(insulation: FaultInsulation, area: SquareMillimetres): FaultLimit {
  const [thin, thick] = ROWS[insulation];
  const row = findRow(adiabatic, area > THICK ? thick : thin);
  const cell = row === null ? null : takeCell(adiabatic, row, "thetaFinalC");
  if (cell === null) throw new Error(`protection/adiabatic has no row for ${insulation}`);
  return { finalC: celsius(cell.value), trust: cell.trust, source: cell.source };
}

/**
 * What the insulation of a wire is taken to be where nobody says: PVC up to 105 °C, cross-linked above.
 *
 * Common practice. Cross-linked wire of 90 °C stands more than is told.
 *
 * @param insulationC temperature that it bears for years, °C
 * @example
 * usualFaultInsulation(105) //=> "thermoplastic"
 */
export const usualFaultInsulation = (insulationC: number): FaultInsulation =>
  insulationC <= 105 ? "thermoplastic" : "thermosetting";
