import { leastFaultArea } from "../../ampacity/thermal/index.ts";
import { cite, findRow, lookUp, takeCell, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { adiabatic } from "../../reference/adiabatic.ts";
import { nec250_122 } from "../../reference/nec-250-122.ts";
import { protectiveConductorIec } from "../../reference/protective-conductor-iec.ts";
import { awgSize, kcmilSize, stockedSizes, type Metal, type WireSize } from "../../wire/index.ts";

/** The least area of a protective conductor. */
export interface ProtectiveArea {
  /** Before the next size on sale. */
  readonly areaMm2: number;
  /** Where the set names a size. */
  readonly size: WireSize | null;
  /** What asks for it: `behind 100 A`, `beside 25 mm²`. */
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** Printed areas are rounded. */
const EDGE = 1e-3;
const round = (x: number): number => Number(x.toPrecision(4));

/** A label of a table of the NEC. */
export function necSize(label: string): WireSize {
  const size = /^\d{3,}$/.test(label) ? kcmilSize(Number(label)) : awgSize(label);
  if (size === null) throw new Error(`no size is called ${label}`);
  return size;
}

/**
 * Equipment grounding conductor by the device ahead.
 *
 * @param rating A, of the device; above 0
 * @param live of the live conductors as chosen; the conductor need not be thicker
 * @param leastLive what ampacity alone asks of them: where they are thicker, to lose fewer volts, this one grows in the same share; null: they were not enlarged
 * @returns null above the last row of the table, 1200 A
 * @source NEC Table 250.122, 250.122(A) and (B)
 * @example
 * equipmentGround({ rating: 100, metal: "copper", liveMm2: 21.15, leastLiveMm2: null })?.size?.label //=> "8 AWG"
 * equipmentGround({ rating: 20, metal: "copper", liveMm2: 8.367, leastLiveMm2: 3.309 })?.areaMm2 //=> 8.3664
 */
export function equipmentGround(given: {
  readonly rating: number;
  readonly metal: Metal;
  readonly liveMm2: number;
  readonly leastLiveMm2: number | null;
}): ProtectiveArea | null {
  const { rating, metal, liveMm2, leastLiveMm2 } = given;
  const row = nec250_122.rows.find(({ ocpdAmps }) => ocpdAmps >= rating);
  const column = metal === "copper" ? "cuEgcSizeAwgOrKcmil" : "alEgcSizeAwgOrKcmil";
  const cell = row === undefined ? null : takeCell(nec250_122, row, column, `${rating} A`);
  if (cell === null) return null;
  const named = necSize(cell.value);
  const share = leastLiveMm2 === null ? 1 : Math.max(1, liveMm2 / leastLiveMm2);
  const grown = named.areaMm2 * share;
  const areaMm2 = Math.min(liveMm2, grown);
  return {
    areaMm2,
    size: share === 1 && areaMm2 >= grown * (1 - EDGE) ? named : null,
    says: share === 1 ? `behind ${rating} A` : `behind ${rating} A, grown ${round(share)} times as its live conductors`,
    trust: cell.trust,
    source: cell.source,
  };
}

/**
 * Protective conductor of the same metal by the live conductors beside it.
 *
 * @source IEC 60364-5-54 Table 54.2: S to 16 mm², 16 mm² to 35 mm², S/2 above
 * @example
 * besideLive(2.5).areaMm2 //=> 2.5
 * besideLive(25).areaMm2 //=> 16
 * besideLive(70).areaMm2 //=> 35
 */
export function besideLive(liveMm2: number): ProtectiveArea {
  const row = protectiveConductorIec.rows.find(
    (r) => r.case === "beside live" && liveMm2 > r.liveAboveMm2 && (r.liveToMm2 === null || liveMm2 <= r.liveToMm2),
  );
  const column = row?.leastMm2 === null ? "shareOfLive" : "leastMm2";
  const cell = row === undefined ? null : takeCell(protectiveConductorIec, row, column, `${round(liveMm2)} mm²`);
  if (cell === null) throw new Error(`protection/protective_conductor_iec has no row for ${liveMm2} mm²`);
  return {
    areaMm2: column === "shareOfLive" ? cell.value * liveMm2 : cell.value,
    size: null,
    says: `beside live conductors of ${round(liveMm2)} mm²`,
    trust: cell.trust,
    source: cell.source,
  };
}

/**
 * Protective conductor that lies apart from its circuit: its least for the sake of strength.
 *
 * @source IEC 60364-5-54 543.1.3, from memory: 2.5 mm² guarded against damage, 4 mm² not
 * @example
 * layingApart(false).areaMm2 //=> 4
 */
export function layingApart(isGuarded: boolean): ProtectiveArea {
  const label = `${isGuarded ? "apart, guarded against damage" : "apart, not guarded"} 0`;
  const cell = lookUp(protectiveConductorIec, label, "leastMm2");
  if (cell === null) throw new Error(`protection/protective_conductor_iec has no ${label}`);
  const says = isGuarded ? "apart from its circuit, guarded" : "apart from its circuit, not guarded";
  return { areaMm2: cell.value, size: null, says, trust: cell.trust, source: cell.source };
}

/**
 * Protective conductor on American boats: as thick as the live ones behind a device of up to 30 A, one size less above.
 *
 * @source ABYC E-11, from memory, and an older E-8 as quoted
 * @example
 * boatGround(30, 5.26).areaMm2 //=> 5.26
 * boatGround(50, 13.3).size?.label //=> "8 AWG"
 */
export function boatGround(rating: number, liveMm2: number): ProtectiveArea {
  const source = cite("abyc-e-11", "earth conductor beside its supply", "memory");
  const thinner = stockedSizes("AWG").findLast((size) => size.areaMm2 < liveMm2 * (1 - EDGE)) ?? null;
  const says = `behind ${rating} A, beside live conductors of ${round(liveMm2)} mm²`;
  return rating <= 30 || thinner === null
    ? { areaMm2: liveMm2, size: null, says, trust: "memory", source }
    : { areaMm2: thinner.areaMm2, size: thinner, says, trust: "memory", source };
}

/** Insulation that a k is tabulated for. */
export type ProtectiveInsulation = "70 °C thermoplastic" | "90 °C thermoplastic" | "90 °C thermosetting";

/**
 * k of a protective conductor.
 *
 * @param lies in cable: a core, or bunched with loaded conductors · apart: warm as the air
 * @returns A·√s/mm²; null where the table has none
 * @source BS 7671 Tables 54.2 and 54.3 (IEC 60364-5-54 Tables A.54.2 and A.54.3)
 * @example
 * protectiveK("copper", "70 °C thermoplastic", "in cable")?.value //=> 115
 * protectiveK("copper", "90 °C thermosetting", "apart")?.value //=> 176
 */
export function protectiveK(metal: Metal, insulation: ProtectiveInsulation, lies: "in cable" | "apart") {
  const where =
    lies === "in cable" ? "protective conductor as a core or bunched" : "separate protective conductor not bunched";
  const row = findRow(adiabatic, `${metal} ${where}, ${insulation}`);
  return row === null ? null : takeCell(adiabatic, row, "kASqrtSPerMm2");
}

/**
 * Protective conductor by the heat of the fault, in place of the table.
 *
 * @param i2t what the device lets through, A²s: I² · t from 0.1 s to 5 s, the device's own energy below
 * @source IEC 60364-5-54 543.1.2: S = √(I²t) / k
 * @example
 * byHeat({ i2t: 160 ** 2 * 0.4, k: 115, trust: "read" }).areaMm2 //=> 0.88
 */
export function byHeat({
  i2t,
  k,
  trust,
}: {
  readonly i2t: number;
  readonly k: number;
  readonly trust: Trust;
}): ProtectiveArea {
  const { source } = leastFaultArea.meta;
  const says = `for ${round(i2t)} A²s`;
  return { areaMm2: leastFaultArea({ i2t, k }), size: null, says, trust: weakestTrust(trust, source.trust), source };
}
