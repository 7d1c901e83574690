import { takeCell, type Citation, type Trust } from "../../explain/index.ts";
import { ferrules } from "../../reference/ferrules.ts";
import { glands } from "../../reference/glands.ts";
import { lugs } from "../../reference/lugs.ts";
import type { PrintedSize, WireMake } from "../make/wire-make.ts";
import { cableOutside } from "./cable-outside.ts";
import { usualStrands } from "./usual-strands.ts";

/** A lug or ring that holds a size. */
export interface FittingLug {
  readonly series: string;
  /** As it is named in its series: `5.5`, `35`, `2/0 AWG`. */
  readonly terminal: string;
  /** Studs it is sold for: `M8`, `#10`, `3/8` (inch). */
  readonly studs: readonly string[];
  /** For an order: `R5.5`, `DIN 46235 35 mm²`. */
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** Bootlace ferrule. */
export interface FittingFerrule {
  readonly areaMm2: number;
  readonly lengthsMm: readonly number[];
  readonly colourDin: string;
  readonly colourFrench: string;
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** Cable gland. */
export interface FittingGland {
  readonly gland: string;
  readonly holeMm: number;
  readonly leastMm: number;
  readonly mostMm: number;
  readonly trust: Trust;
  readonly source: Citation;
}

const lugName = (series: string, terminal: string): string => {
  if (series === "JIS R") return `ring R${terminal}`;
  return series.startsWith("DIN")
    ? `${series} ${terminal} mm²`
    : `${series === "US ring" ? "ring" : "lug"} for ${terminal}`;
};

/** A printed area and its limit in a table differ by rounding. */
const EDGE = 1e-3;

/**
 * Lugs and rings that are made for a size.
 *
 * The area is compared with the range of each; tube lugs of DIN 46235 are made for one metric size each. A crimp is only as good as the die: the maker's word
 * counts, above all with fine strands.
 *
 * @param stud only those sold for it, `M8`, `#10`, `3/8`; all where left out
 * @returns in the order of the table; empty: none is known
 * @source JIS C 2805, DIN 46234 and 46235, UL 486A, from memory; studs as sold
 * @example
 * fittingLugs({ areaMm2: 5.261, system: "AWG" }, "M6").map((lug) => lug.says) //=> ["ring R5.5", "DIN 46234 4-6 mm²"]
 */
export function fittingLugs(
  { areaMm2, system }: Pick<PrintedSize, "areaMm2" | "system">,
  stud?: string,
): readonly FittingLug[] {
  return lugs.rows.flatMap((row): readonly FittingLug[] => {
    // A tube lug is made for the metric size on it, not for what has as much metal.
    if (row.series === "DIN 46235" && system !== "mm²") return [];
    if (areaMm2 < row.leastMm2 * (1 - EDGE) || areaMm2 > row.mostMm2 * (1 + EDGE)) return [];
    const studs = row.studs.split(" ");
    if (stud !== undefined && !studs.includes(stud)) return [];
    const cell = takeCell(lugs, row, "mostMm2");
    if (cell === null) return [];
    const { series, terminal } = row;
    return [{ series, terminal, studs, says: lugName(series, terminal), trust: cell.trust, source: cell.source }];
  });
}

/**
 * The bootlace ferrule for a size: the narrowest that takes its area.
 *
 * @param isStranded a solid wire needs none
 * @returns null for a solid wire, below 0.25 mm² and above 50 mm²
 * @source DIN 46228 parts 1 and 4, from memory
 * @example
 * fittingFerrule(2.5, true).colourDin //=> "blue"
 * fittingFerrule(2.081, true).areaMm2 //=> 2.5
 */
export function fittingFerrule(areaMm2: number, isStranded: boolean): FittingFerrule | null {
  const row = ferrules.rows.find((each) => areaMm2 <= each.areaMm2 * (1 + EDGE));
  const cell = row === undefined || !isStranded || areaMm2 < 0.25 ? null : takeCell(ferrules, row, "areaMm2");
  if (row === undefined || cell === null) return null;
  const says = `ferrule ${row.areaMm2} mm², ${row.colourDin} by DIN 46228-4, ${row.colourFrench} by the French list; the colour alone tells no size`;
  return {
    areaMm2: row.areaMm2,
    lengthsMm: row.lengthsMm.split(" ").map(Number),
    colourDin: row.colourDin,
    colourFrench: row.colourFrench,
    says,
    trust: cell.trust,
    source: cell.source,
  };
}

/**
 * Metric glands whose clamping range holds a diameter, narrow first.
 *
 * @param outsideMm of a round cable; a flat one needs an insert of its shape
 * @returns empty: none from M12 to M40
 * @source clamping ranges as usual in the trade, common practice
 * @example
 * fittingGlands(9).map((each) => each.gland) //=> ["M16", "M20"]
 */
export const fittingGlands = (outsideMm: number): readonly FittingGland[] =>
  glands.rows.flatMap((row): readonly FittingGland[] => {
    const cell = takeCell(glands, row, "mostMm");
    if (cell === null || outsideMm < row.leastMm || outsideMm > row.mostMm) return [];
    const { gland, holeMm, leastMm, mostMm } = row;
    return [{ gland, holeMm, leastMm, mostMm, trust: cell.trust, source: cell.source }];
  });

/** Everything that goes on the ends of a wire and about it. */
export interface WhatFits {
  readonly lugs: readonly FittingLug[];
  readonly ferrule: FittingFerrule | null;
  readonly glands: readonly FittingGland[];
  /** What to mind, each a sentence. */
  readonly notes: readonly string[];
}

/**
 * Lugs, ferrule and glands for a make. Lugs and ferrules are those for strands of copper: a solid wire and one of aluminium get none, and a note.
 *
 * @param stud as for `fittingLugs`
 * @returns null where the size is not stated
 */
export function whatFits(make: WireMake, stud?: string): WhatFits | null {
  const { size, metal } = make;
  const outside = cableOutside(make);
  if (size === null || outside === null) return null;
  const { count } = usualStrands(make, size);
  const isFlat = outside.heightMm < outside.mm;
  const notes: string[] = [];
  const isCopper = metal === null || metal === "copper";
  if (!isCopper)
    notes.push(
      `${metal} wants lugs and terminals that are marked for aluminium; those made for copper come loose and burn`,
    );
  if (count === 1) notes.push("a solid wire takes a screw or spring terminal; crimps are for strands");
  if (isFlat) notes.push("a flat cable needs a gland with an insert of its shape");
  if (!outside.isStated)
    notes.push(`the outside diameter, ${outside.mm.toFixed(1)} mm, is worked out: measure before a gland is ordered`);
  return {
    lugs: isCopper && count > 1 ? fittingLugs(size, stud) : [],
    ferrule: isCopper ? fittingFerrule(size.areaMm2, count > 1) : null,
    glands: isFlat ? [] : fittingGlands(outside.mm),
    notes,
  };
}
