import { iec60228 } from "../reference/iec60228.ts";
import { awgSize, kcmilSize, metricSize, saeSize, type SizeSystem, type WireSize } from "./wire-size.ts";

/** A size that this file lists and the tables must have. */
function known(size: WireSize | null): WireSize {
  if (size === null) throw new Error("a stocked size is missing from its table");
  return size;
}

const kcmil = [250, 300, 350, 400, 500].map(kcmilSize);
const gauges = ["18", "16", "14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0"];

const stocked: Readonly<Record<SizeSystem, readonly WireSize[]>> = {
  // Gauge sizes stop at 4/0; what is thicker is sold in kcmil.
  AWG: [...gauges.map((name) => known(awgSize(name))), ...kcmil],
  kcmil,
  "mm²": [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240].map(metricSize),
  SAE: ["20", ...gauges].map((name) => known(saeSize(name))),
};

/**
 * The sizes that boat and vehicle stockists keep, thinnest first. AWG goes on in kcmil above 4/0 and leaves out 17, 15, 13, 11, 9, 7, 5 and 3.
 *
 * @source common practice of marine and vehicle tables; IEC 60228 for mm², SAE J1127 and J1128 for SAE
 * @example
 * stockedSizes("AWG").map((size) => size.label).slice(0, 3) //=> ["18 AWG", "16 AWG", "14 AWG"]
 * stockedSizes("mm²").at(-1).label //=> "240 mm²"
 */
export const stockedSizes = (system: SizeSystem): readonly WireSize[] => stocked[system];

/** Whether a metric size is one of IEC 60228. */
export const isIecSize = (size: WireSize): boolean =>
  iec60228.rows.some(({ nominalMm2 }) => nominalMm2 === size.areaMm2);

/**
 * Order by area, thin first. Between systems this compares metal with metric labels, which hold up to 14 % less metal: where it matters, compare
 * resistances instead.
 *
 * @returns below 0 when `a` is the thinner, as `sort` wants it
 */
export const compareSizes = (a: WireSize, b: WireSize): number => a.areaMm2 - b.areaMm2;

/**
 * The next thicker size on sale.
 *
 * @param system where to look; that of the size where left out
 * @returns null above the thickest
 * @example
 * nextSizeUp(awgSize("4/0")).label //=> "250 kcmil"
 * nextSizeUp(awgSize("3")).label //=> "2 AWG"
 */
export const nextSizeUp = (size: WireSize, system: SizeSystem = size.system): WireSize | null =>
  stocked[system].find((candidate) => candidate.areaMm2 > size.areaMm2) ?? null;

/**
 * The thinnest size on sale with at least an area.
 *
 * @returns null when nothing on sale is enough
 * @example
 * stockedSizeAtLeast(21.15, "mm²").label //=> "25 mm²"
 */
export const stockedSizeAtLeast = (areaMm2: number, system: SizeSystem): WireSize | null =>
  stocked[system].find((candidate) => candidate.areaMm2 >= areaMm2) ?? null;
