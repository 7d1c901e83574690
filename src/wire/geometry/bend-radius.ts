import { takeCell, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { bendRadii, type BendRadiiRow } from "../../reference/bend-radii.ts";
import type { WireMake } from "../make/wire-make.ts";
import { cableOutside } from "./cable-outside.ts";

/** How tightly a cable may be bent. */
export interface BendRadius {
  /** Of the inner side of the bend, mm. */
  readonly mm: number;
  /** The same over the outside diameter. */
  readonly times: number;
  /** Diameter that was taken, mm; of a flat cable the height, for it is bent over its flat side. */
  readonly outsideMm: number;
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

/** Kind of the table of bends. */
function kindOf({ family, type }: WireMake): string {
  if (/^(H|A)0[1357].*-[FHK]/.test(type ?? "")) return "flexible cable";
  switch (family) {
    case "building cable":
      return "building cable";
    case "building wire":
    case "service cable":
      return "building wire";
    case "twin and earth":
    case "harmonised cable":
    case "japanese building cable":
      return "fixed cable";
    case "flexible cord":
    case "trailer cable":
      return "flexible cable";
    case "solar cable":
      return "solar cable";
    case "boat cable":
    case "vehicle wire":
    case "battery cable":
    case "welding cable":
    case "speaker cable":
    case null:
      return "fine-stranded wire";
  }
}

/**
 * Least radius of a bend, to the inner side.
 *
 * @param use `fixed`: bent once; `moved`: in use again and again
 * @returns null where the size is not stated, or the kind is not made to be moved
 * @source NFPA 70 334.24, EN 50565-1, guide to BS 7671, ICEA S-95-658, from memory; boat, vehicle and battery cable by common practice
 * @example a battery cable of 15 mm
 * const cable = { ...emptyMake, family: "battery cable", size: { system: "mm²", name: "70", label: "70 mm²", areaMm2: 70, basis: "label" }, outsideMm: 15 }
 * bendRadius(cable, "fixed").mm //=> 75
 */
export function bendRadius(make: WireMake, use: "fixed" | "moved"): BendRadius | null {
  const outside = cableOutside(make);
  if (outside === null) return null;
  const kind = kindOf(make);
  const rows: readonly BendRadiiRow[] = bendRadii.rows.filter((row) => row.kind === kind);
  const row = rows.find(({ upToMm }) => outside.mm <= upToMm) ?? rows.at(-1);
  const cell = row === undefined ? null : takeCell(bendRadii, row, use === "fixed" ? "fixedTimes" : "movedTimes");
  if (row === undefined || cell === null) return null;
  return {
    mm: cell.value * outside.heightMm,
    times: cell.value,
    outsideMm: outside.heightMm,
    says: `${cell.value} times the diameter: ${row.says}`,
    trust: weakestTrust(cell.trust, outside.trust),
    source: cell.source,
  };
}
