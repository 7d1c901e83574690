import { takeCell, type Trust } from "../../explain/index.ts";
import { awg } from "../../reference/awg.ts";
import { iec60228 } from "../../reference/iec60228.ts";
import { jisSizes } from "../../reference/jis-sizes.ts";
import { saeGauge } from "../../reference/sae-gauge.ts";
import { swg } from "../../reference/swg.ts";
import { vehicleDiameter } from "../../reference/vehicle-diameter.ts";
import { conductorDiameter } from "../diameter.ts";
import type { PrintedSize, PrintedSystem } from "../make/wire-make.ts";
import { sizeOfPrint } from "../size-of-print.ts";
import { stockedSizes } from "../stocked-sizes.ts";
import { saeSize, type WireSize } from "../wire-size.ts";
import { sizeResistance, usualKind } from "./size-resistance.ts";

/** The sides of the ladder. American gauge goes on in kcmil above 4/0. */
export type LadderSystem = "mm²" | "AWG" | "SAE" | "vehicle diameter" | "SWG" | "JIS" | "solid diameter";

/** The sides, in the order in which lists show them. */
export const ladderSystems = [
  "mm²",
  "AWG",
  "SAE",
  "vehicle diameter",
  "SWG",
  "JIS",
  "solid diameter",
] as const satisfies readonly LadderSystem[];

/** One size of one system with its figures. */
export interface SizeRung {
  /** The side it stands on; `size.system` is kcmil for the American sizes above 4/0. */
  readonly side: LadderSystem;
  readonly size: PrintedSize;
  /** What stockists keep. */
  readonly isStocked: boolean;
  /** Ω/m of plain copper at 20 °C, of the stranding that is usual for the system. */
  readonly ohmsPerMetre: number;
  /** Over the bare conductor, mm. */
  readonly diameterMm: number;
  /** Over the insulation where the size is named after it, mm. */
  readonly outsideMm: number | null;
  /** Of the area. */
  readonly trust: Trust;
  /** What misleads in this size, a sentence; empty: nothing. */
  readonly note: string;
}

const sized = (
  system: PrintedSystem,
  name: string,
  label: string,
  areaMm2: number,
  basis: PrintedSize["basis"] = "metal",
): PrintedSize => ({ system, name, label, areaMm2, basis });

function rung(
  side: LadderSystem,
  size: PrintedSize,
  isStocked: boolean,
  trust: Trust,
  more: Partial<SizeRung> = {},
): SizeRung {
  const own = sizeOfPrint(size);
  const resistance = sizeResistance(size);
  if (own === null || resistance === null) throw new Error(`the ladder has no figures for ${size.label}`);
  const { strands } = usualKind(size);
  const across = conductorDiameter({ size: own, metal: "copper", plating: "plain", strands }).value * 1000;
  const { ohmsPerMetre } = resistance;
  return { side, size, isStocked, ohmsPerMetre, diameterMm: across, outsideMm: null, trust, note: "", ...more };
}

const isKept = (list: readonly WireSize[], name: string): boolean => list.some((size) => size.name === name);

const ODD = "seldom on the shelf: American stock goes by even numbers";
/** Solid wires of Japanese building cable, mm. */
const SOLIDS = [1.2, 1.6, 2, 2.6, 3.2];

function all(): readonly SizeRung[] {
  const american = awg.rows.map(({ size: name, kind, areaExactMm2 }) => {
    const system = kind === "kcmil" ? "kcmil" : "AWG";
    const kept = isKept(stockedSizes("AWG"), name);
    const note = name === "1" || (!kept && /^\d$|^1[1357]$/.test(name)) ? ODD : "";
    return rung("AWG", sized(system, name, `${name} ${system}`, areaExactMm2), kept, "derived", { note });
  });
  const metric = iec60228.rows.map(({ nominalMm2 }) => {
    const name = String(nominalMm2);
    return rung(
      "mm²",
      sized("mm²", name, `${name} mm²`, nominalMm2, "label"),
      isKept(stockedSizes("mm²"), name),
      "read",
    );
  });
  const vehicle = saeGauge.rows.flatMap((row) => {
    const size = saeSize(row.saeGauge);
    const cell = takeCell(saeGauge, row, "saeAreaCmil") ?? takeCell(saeGauge, row, "j1128MinAreaMm2");
    if (size === null || cell === null) return [];
    const note = `less copper than ${row.saeGauge} AWG; printed as ${row.saeMetricLabelMm2} mm²`;
    return [rung("SAE", sized("SAE", size.name, size.label, size.areaMm2), true, cell.trust, { note })];
  });
  const byOutside = vehicleDiameter.rows.map((row) => {
    const name = String(row.outsideMm);
    const cell = takeCell(vehicleDiameter, row, "areaMm2");
    const other = row.otherAreaMm2 === null ? "" : `; another list has ${row.otherAreaMm2} mm²`;
    const more = { outsideMm: row.outsideMm, note: `${name} mm is the diameter over the insulation${other}` };
    const size = sized("vehicle diameter", name, `${name} mm vehicle cable`, row.areaMm2);
    return rung("vehicle diameter", size, true, cell?.trust ?? "article", more);
  });
  const british = swg.rows.map(({ swg: name, areaMm2 }) =>
    rung("SWG", sized("SWG", name, `${name} SWG`, areaMm2), false, "article", {
      note: "withdrawn; another gauge than AWG",
    }),
  );
  const japanese = jisSizes.rows.map(({ labelMm2 }) => {
    const name = String(labelMm2);
    return rung("JIS", sized("JIS", name, `${name} mm²`, labelMm2, "label"), true, "article");
  });
  const solid = SOLIDS.map((diameter) => {
    const size = sized(
      "solid diameter",
      String(diameter),
      `solid of ${diameter} mm diameter`,
      (Math.PI / 4) * diameter ** 2,
    );
    return rung("solid diameter", size, true, "derived", { note: `${diameter} mm is the diameter of the wire` });
  });
  const order = (a: SizeRung, b: SizeRung): number =>
    a.size.areaMm2 - b.size.areaMm2 || ladderSystems.indexOf(a.side) - ladderSystems.indexOf(b.side);
  return [...american, ...metric, ...vehicle, ...byOutside, ...british, ...japanese, ...solid].sort(order);
}

let made: readonly SizeRung[] | null = null;

/**
 * Every size of every system with its area, resistance and diameter, thin first.
 *
 * @returns sizes of one system never have equal areas; between systems they may, and then stand in the order of `ladderSystems`
 * @source ASTM B258, IEC 60228, SAE J1127 and J1128 as quoted, BS 3737, and the tables of Japanese and vehicle sizes
 * @example
 * sizeLadder().filter((rung) => rung.side === "vehicle diameter").map((rung) => rung.size.areaMm2) //=> [0.85, 1.84, 2.9, 4.59]
 */
export const sizeLadder = (): readonly SizeRung[] => (made ??= all());

/**
 * The sizes of one side, thin first.
 *
 * @param among `stocked`: what stockists keep; British gauge has none, and then all stand in
 */
export function sizesOn(side: LadderSystem, among: "stocked" | "all"): readonly SizeRung[] {
  const own = sizeLadder().filter((each) => each.side === side);
  const kept = own.filter(({ isStocked }) => isStocked);
  return among === "all" || kept.length === 0 ? own : kept;
}

/** The sizes next to a size on one side of the ladder. */
export interface Neighbours {
  readonly side: LadderSystem;
  /** The next with less area; null: none. */
  readonly down: SizeRung | null;
  /** One with the same area, within 0.5 %; null: none. */
  readonly same: SizeRung | null;
  /** The next with more area. */
  readonly up: SizeRung | null;
}

/** Areas within this are one size under two names. */
const SAME = 0.005;

/**
 * The next sizes down and up from an area, in each system. Compares areas: a label of mm² may hold up to 14 % less copper.
 *
 * @example
 * neighbours({ areaMm2: 4.59 }).find((each) => each.side === "mm²").up.size.label //=> "6 mm²"
 * neighbours({ areaMm2: 4.59 }).find((each) => each.side === "AWG").down.size.label //=> "12 AWG"
 */
export function neighbours(
  { areaMm2 }: Pick<PrintedSize, "areaMm2">,
  among: "stocked" | "all" = "stocked",
): readonly Neighbours[] {
  return ladderSystems.map((side) => {
    const rungs = sizesOn(side, among);
    const isSame = ({ size }: SizeRung): boolean => Math.abs(size.areaMm2 / areaMm2 - 1) <= SAME;
    return {
      side,
      down: rungs.findLast((each) => each.size.areaMm2 < areaMm2 && !isSame(each)) ?? null,
      same: rungs.find(isSame) ?? null,
      up: rungs.find((each) => each.size.areaMm2 > areaMm2 && !isSame(each)) ?? null,
    };
  });
}
