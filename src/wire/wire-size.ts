import { findRow } from "../explain/index.ts";
import { squareMillimetres, type SquareMillimetres } from "../quantity/index.ts";
import { awg, type AwgRow } from "../reference/awg.ts";
import { saeGauge } from "../reference/sae-gauge.ts";

/** How a conductor is sized: American gauge, thousands of circular mils, IEC areas, vehicle gauge. */
export type SizeSystem = "AWG" | "kcmil" | "mm²" | "SAE";

/** The systems, in the order in which lists show them. */
export const sizeSystems = ["AWG", "kcmil", "mm²", "SAE"] as const satisfies readonly SizeSystem[];

/** A conductor size: a label with an area. Areas are compared, labels printed. */
export interface WireSize {
  readonly system: SizeSystem;
  /** Within its system, as tables name it: `2/0`, `35`, `250`. */
  readonly name: string;
  /** As it is printed: `2/0 AWG`, `35 mm²`, `250 kcmil`, `10 SAE`. */
  readonly label: string;
  /** Of the metal (AWG, kcmil, SAE), or the area that stands on the label (mm²: a class of resistance, up to 14 % more than the metal). */
  readonly areaMm2: SquareMillimetres;
}

/** One circular mil in mm²: a circle of 0.001 in. */
const CIRCULAR_MIL = (Math.PI / 4) * 0.0254 ** 2;

/** Largest size that the tables go to, kcmil and mm² alike rounded up. */
export const LARGEST = { kcmil: 2000, mm2: 1000 } as const;

const made = (system: SizeSystem, name: string, areaMm2: number): WireSize => ({
  system,
  name,
  label: `${name} ${system}`,
  areaMm2: squareMillimetres(areaMm2),
});

/**
 * A size of the American Wire Gauge.
 *
 * @param name `40` … `1`, `1/0` … `4/0`; `0`, `00` and so on mean the same
 * @returns null when the gauge has no such size
 * @source ASTM B258, the gauge law
 * @example
 * awgSize("2/0") //=> { system: "AWG", name: "2/0", label: "2/0 AWG", areaMm2: 67.4309 }
 */
export function awgSize(name: string): WireSize | null {
  const noughts = /^0{1,4}$/.test(name) ? `${name.length}/0` : name;
  const row = findRow(awg, noughts);
  return row === null || row.kind !== "AWG" ? null : made("AWG", noughts, row.areaExactMm2);
}

/**
 * The row of an American size in the table of gauges and circular mils.
 *
 * @returns null where the table has no such size: 4 kcmil is not 4 AWG, though both are called 4
 * @example
 * americanRow(kcmilSize(250)).strandedOverallDiameterMm //=> 14.61
 * americanRow(kcmilSize(4)) //=> null
 */
export function americanRow({ system, name }: Pick<WireSize, "system" | "name">): AwgRow | null {
  const row = findRow(awg, name);
  return row?.kind === system ? row : null;
}

/**
 * A size in thousands of circular mils.
 *
 * @param kcmil above 0 to 2000
 * @example
 * kcmilSize(250).areaMm2 //=> 126.677
 */
export const kcmilSize = (kcmil: number): WireSize => made("kcmil", String(kcmil), kcmil * 1000 * CIRCULAR_MIL);

/**
 * An area of metal that is the size of no table: counted strands, a British gauge, a solid wire by its diameter.
 *
 * It is counted in circular mils, which are areas of metal as well: ampacity tables rate it by the next row below, and its resistance follows from the area.
 *
 * @param label as it is printed: `65/0.30 mm`, `14 SWG`
 * @example
 * metalSize(4.59, "65/0.30 mm") //=> { system: "kcmil", name: "9.05848", label: "65/0.30 mm", areaMm2: 4.59 }
 */
export const metalSize = (areaMm2: number, label: string): WireSize => ({
  ...made("kcmil", String(Number((areaMm2 / CIRCULAR_MIL / 1000).toPrecision(6))), areaMm2),
  label,
});

/**
 * A metric size. Any area may be asked for; `isIecSize` tells whether it is one that is made.
 *
 * @param areaMm2 above 0 to 1000
 * @example
 * metricSize(2.5) //=> { system: "mm²", name: "2.5", label: "2.5 mm²", areaMm2: 2.5 }
 */
export const metricSize = (areaMm2: number): WireSize => made("mm²", String(areaMm2), areaMm2);

/**
 * A size of SAE J1127 and J1128 vehicle cable, 3 to 11 % less copper than the AWG size of the same number.
 *
 * @returns null when there is no such size
 * @source the area in circular mils as US small-craft tables quote it; 20 has none there, its smallest area is from memory
 * @example
 * saeSize("12").areaMm2 //=> 2.956
 */
export function saeSize(name: string): WireSize | null {
  const noughts = /^0{1,4}$/.test(name) ? `${name.length}/0` : name;
  const row = findRow(saeGauge, noughts);
  const area = row?.saeAreaMm2 ?? row?.j1128MinAreaMm2 ?? null;
  return area === null ? null : made("SAE", noughts, area);
}
