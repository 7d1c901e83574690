import { fromSi, feet, metres } from "../../quantity/index.ts";
import { convertSize, sizesOn, type SizeRung } from "../../wire/convert/index.ts";
import { conductorDiameter, sizeOfPrint } from "../../wire/index.ts";

/** Which system, and which units, stand first. */
export type ChartUnits = "metric" | "us";

/** What a table of sizes tells of one size. */
export interface SizeFacts {
  readonly name: string;
  /** `12 AWG`, `500 kcmil`. */
  readonly label: string;
  readonly areaMm2: number;
  /** Across fine strands, mm. */
  readonly strandedMm: number;
  /** Across one solid wire of the same area, mm. */
  readonly solidMm: number;
  /** Of one conductor at 20 °C. */
  readonly ohmsPerTenMetres: number;
  readonly ohmsPerHundredFeet: number;
  /** The thinnest size on sale in the other system with no less area, and how much more it has, as a share. */
  readonly other: { readonly name: string; readonly gain: number } | null;
}

/**
 * All sizes on sale of one system with the figures of a wall chart, thinnest first.
 *
 * Diameters are those of fine strands, not compacted; resistance is of plain copper, class 5 for metric sizes and class B for American ones.
 */
export const sizeFacts = (side: "mm²" | "AWG"): readonly SizeFacts[] =>
  sizesOn(side, "stocked").map((rung) => factsOf(rung, side === "mm²" ? "AWG" : "mm²"));

function factsOf({ size, ohmsPerMetre }: SizeRung, to: "mm²" | "AWG"): SizeFacts {
  const own = sizeOfPrint(size);
  if (own === null) throw new Error(`${size.label} is on the ladder and cannot be computed with`);
  const across = (strands: "class 1" | "class 5"): number =>
    fromSi(conductorDiameter({ size: own, metal: "copper", plating: "plain", strands }).value, "length", "mm");
  const other = convertSize({ size, to })?.to ?? null;
  return {
    name: size.name,
    label: size.label,
    areaMm2: size.areaMm2,
    strandedMm: across("class 5"),
    solidMm: across("class 1"),
    ohmsPerTenMetres: ohmsPerMetre * metres(10),
    ohmsPerHundredFeet: ohmsPerMetre * feet(100),
    other: other === null ? null : { name: other.size.name, gain: other.areaChange },
  };
}
