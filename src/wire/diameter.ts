import {
  cite,
  findRow,
  lookUp,
  takeCell,
  weakestTrust,
  type Citation,
  type LookedUp,
  type Trust,
} from "../explain/index.ts";
import { metres, type Metres } from "../quantity/index.ts";
import { awg } from "../reference/awg.ts";
import { insulationDiameters } from "../reference/insulation-diameters.ts";
import { strandClasses, type ConductorMake } from "./conductor-make.ts";
import { americanRow, type WireSize } from "./wire-size.ts";

/** A diameter or a thickness, and what it rests on. */
export interface Dimension {
  readonly value: Metres;
  readonly trust: Trust;
  readonly source: Citation;
}

const MM = 1e-3; // m

/** Concentric strands: 7 wires are 3 across, so 3/√7 = 1.134 of one solid wire; 19 are 1.147, 37 are 1.151. The greatest stands for all. */
const CONCENTRIC = 1.151;
/** Bunched and roped strands leave more air. */
const FINE = 1.17;

const roundDiameter = (areaMm2: number, excess: number): Metres =>
  metres(excess * Math.sqrt((4 * areaMm2) / Math.PI) * MM);

/**
 * Diameter over the bare conductor.
 *
 * Strands are taken as round and not compacted; compact ones are 9 % thinner.
 *
 * @returns m
 * @accuracy Class B from 18 AWG to 2000 kcmil as printed in the code; other strands about 3 %
 * @source solid: ASTM B258; Class B: NFPA 70 Chapter 9 Table 8; metric concentric: geometry of the layers; fine strands: 1.17 × the solid diameter, common practice
 * @example
 * conductorDiameter({ size: awgSize("10"), metal: "copper", plating: "plain", strands: "class B" }).value //=> 0.00295
 */
export function conductorDiameter({ size, strands }: ConductorMake): Dimension {
  const { isSolid, isFine } = strandClasses[strands];
  if (isSolid) {
    const exact = size.system === "AWG" ? americanRow(size) : null;
    const cell = exact === null ? null : takeCell(awg, exact, "diameterExactMm");
    const source =
      cell === null
        ? cite("own-derivation", "circle of the area", "derived")
        : cite("astm-b258", "gauge law", "derived");
    return {
      value: cell === null ? roundDiameter(size.areaMm2, 1) : metres(cell.value * MM),
      trust: "derived",
      source,
    };
  }
  if (isFine) {
    const source = cite("trade-practice", "fine strands 1.17 times as thick as one solid wire", "practice");
    return { value: roundDiameter(size.areaMm2, FINE), trust: "practice", source };
  }
  const row = americanRow(size);
  const printed = row === null ? null : takeCell(awg, row, "strandedOverallDiameterMm");
  if (printed !== null) return { value: metres(printed.value * MM), trust: printed.trust, source: printed.source };
  const source = cite("own-derivation", "concentric layers of round strands", "derived");
  return { value: roundDiameter(size.areaMm2, CONCENTRIC), trust: "derived", source };
}

/** Building wire types of the NEC table of diameters over insulation. */
export type InsulatedType =
  | "THHN/THWN/THWN-2"
  | "XHH/XHHW/XHHW-2"
  | "TW/THW/THW-2/THHW"
  | "RHH/RHW/RHW-2 without covering"
  | "RHH/RHW/RHW-2 with covering";

/** Published diameter over the insulation of a building wire, in mm; null where the table has no such size. */
export const insulatedDiameter = (size: WireSize, type: InsulatedType): LookedUp | null =>
  americanRow(size) === null ? null : lookUp(insulationDiameters, `${type} ${size.name}`, "diameterMm");

/**
 * Usual thickness of the insulation of one conductor, where the plan does not give an outside diameter.
 *
 * That of cross-linked building wire (XHHW) of the same or the next larger AWG size. No standard fixes the diameter of boat or battery cable, so
 * the figure prints as common practice; a measured diameter always wins.
 *
 * @returns m; that of the largest size of the table above it
 * @source NFPA 70 Chapter 9 Tables 5 and 8, half the difference of the diameters
 * @example
 * usualInsulationThickness(awgSize("14")).value //=> 0.000764
 */
export function usualInsulationThickness(size: WireSize): Dimension {
  const thicknesses = xhhw();
  const fits = thicknesses.find(({ areaMm2 }) => areaMm2 >= size.areaMm2) ?? thicknesses.at(-1);
  if (fits === undefined) throw new Error("the table of insulated diameters has no XHHW rows");
  const source = cite("nfpa-70-2023", "Chapter 9 Tables 5 and 8, XHHW in place of boat cable", "practice");
  return { value: metres(fits.thicknessMm * MM), trust: weakestTrust("practice", "derived"), source };
}

let cached: readonly { readonly areaMm2: number; readonly thicknessMm: number }[] | null = null;

function xhhw(): readonly { readonly areaMm2: number; readonly thicknessMm: number }[] {
  cached ??= insulationDiameters.rows.flatMap((row) => {
    const conductor = findRow(awg, row.sizeAwgOrKcmil);
    const bare = conductor?.strandedOverallDiameterMm ?? null;
    if (row.type !== "XHH/XHHW/XHHW-2" || conductor === null || bare === null) return [];
    return [{ areaMm2: conductor.areaExactMm2, thicknessMm: (row.diameterMm - bare) / 2 }];
  });
  return cached;
}
