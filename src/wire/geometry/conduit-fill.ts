import { cite, findRow, lookUp, takeCell, weakestTrust, type Citation, type Trust } from "../../explain/index.ts";
import { conduitDimensions, type ConduitDimensionsRow } from "../../reference/conduit-dimensions.ts";
import { conduitFill as fillLimits } from "../../reference/conduit-fill.ts";
import { conduitMetric } from "../../reference/conduit-metric.ts";
import { insulatedDiameter } from "../diameter.ts";
import type { WireMake } from "../make/wire-make.ts";
import { cableOutside } from "./cable-outside.ts";
import { tableSize, tableType } from "./usual-wall.ts";

/** Conduit and tubing of NEC Chapter 9 Table 4, and metric conduits of EN 61386. */
export type Raceway =
  | "EMT"
  | "ENT"
  | "FMC"
  | "IMC"
  | "LFNC-B"
  | "LFNC-A"
  | "LFMC"
  | "RMC"
  | "PVC schedule 80"
  | "PVC schedule 40 and HDPE"
  | "PVC type A"
  | "PVC type EB"
  | "rigid PVC"
  | "pliable corrugated";

/** The raceways, American before metric. */
export const raceways = [
  "EMT",
  "ENT",
  "FMC",
  "IMC",
  "LFNC-B",
  "LFNC-A",
  "LFMC",
  "RMC",
  "PVC schedule 80",
  "PVC schedule 40 and HDPE",
  "PVC type A",
  "PVC type EB",
  "rigid PVC",
  "pliable corrugated",
] as const satisfies readonly Raceway[];

/** One size of a raceway. */
export interface RacewaySize {
  readonly raceway: Raceway;
  /** As it is sold: `3/4`, `25`. */
  readonly name: string;
  /** `3/4 in EMT (21)`, `25 mm rigid PVC`. */
  readonly label: string;
  readonly insideMm: number;
  readonly areaMm2: number;
  readonly trust: Trust;
  readonly source: Citation;
}

const isRaceway = (raceway: string): raceway is Raceway => raceways.some((each) => each === raceway);

function american(row: ConduitDimensionsRow): RacewaySize | null {
  const area = takeCell(conduitDimensions, row, "area100pctMm2");
  if (area === null || !isRaceway(row.raceway)) return null;
  const label = `${row.tradeSizeIn} in ${row.raceway} (${row.metricDesignator})`;
  // That the last block is type EB is a memory, and so is all that is looked up under its name.
  const trust = weakestTrust(area.trust, takeCell(conduitDimensions, row, "raceway")?.trust ?? "memory");
  const { raceway, tradeSizeIn: name, insideDiameterMm: insideMm } = row;
  return { raceway, name, label, insideMm, areaMm2: area.value, trust, source: { ...area.source, trust } };
}

/**
 * The sizes of a raceway, narrow first.
 *
 * @example
 * racewaySizes("EMT").map((size) => size.name).slice(0, 3) //=> ["1/2", "3/4", "1"]
 */
export function racewaySizes(raceway: Raceway): readonly RacewaySize[] {
  const metric = conduitMetric.rows.flatMap((row): readonly RacewaySize[] => {
    const inside = row.raceway === raceway ? takeCell(conduitMetric, row, "insideMm") : null;
    if (inside === null) return [];
    const { value: insideMm, trust, source } = inside;
    const name = String(row.outsideMm);
    return [
      {
        raceway,
        name,
        label: `${name} mm ${raceway}`,
        insideMm,
        areaMm2: (Math.PI / 4) * insideMm ** 2,
        trust,
        source,
      },
    ];
  });
  const inches = conduitDimensions.rows.flatMap((row) => (row.raceway === raceway ? (american(row) ?? []) : []));
  return [...inches, ...metric].sort((a, b) => a.areaMm2 - b.areaMm2);
}

/** Equal wires or cables in a raceway. */
export interface Filling {
  readonly count: number;
  /** Over the insulation or the sheath, mm; of a flat cable the width, for it counts as a circle of it. */
  readonly outsideMm: number;
}

/**
 * What a make takes up in a raceway: single building wires by the printed diameter of NEC Chapter 9 Table 5, cables as one circle of their width.
 *
 * @param count of wires or cables; the `runs` of the make where left out
 * @returns null where the size is not stated
 * @source NFPA 70 Chapter 9 notes 5 and 9; else as `cableOutside`
 * @example
 * fillingOf({ ...emptyMake, type: "THHN", size: { system: "AWG", name: "12", label: "12 AWG", areaMm2: 3.309, basis: "metal" } }, 3) //=> { count: 3, outsideMm: 3.302 }
 */
export function fillingOf(make: WireMake, count: number = make.runs): Filling | null {
  const type = make.cores === null || make.cores.total === 1 ? tableType(make) : undefined;
  const own = make.size === null ? null : tableSize(make.size);
  const printed = type === undefined || own === null || make.outsideMm !== null ? null : insulatedDiameter(own, type);
  if (printed !== null) return { count, outsideMm: printed.value };
  const outside = cableOutside(make);
  return outside === null ? null : { count, outsideMm: outside.mm };
}

/** What lies in a raceway and whether it may. */
export interface ConduitFill {
  readonly size: RacewaySize;
  /** Wires and cables; a cable of several conductors is one. */
  readonly count: number;
  readonly filledMm2: number;
  readonly fillPct: number;
  readonly limitPct: number;
  readonly fits: boolean;
  /** Inside diameter over the diameter of one, for three equal ones that may wedge; null: not three equal ones. */
  readonly jamRatio: number | null;
  /** Three equal ones and a ratio of 2.8 to 3.2: they may wedge in a bend. */
  readonly mayJam: boolean;
  readonly says: string;
  readonly trust: Trust;
  readonly source: Citation;
}

const JAM = { least: 2.8, most: 3.2 } as const;

function limitFor(count: number, isNipple: boolean) {
  const name = isNipple ? "nipple" : count === 1 ? "one" : count === 2 ? "two" : "three or more";
  const limit = lookUp(fillLimits, name, "maxFillPct");
  if (limit === null) throw new Error(`wire/conduit_fill has no row for ${name}`);
  return limit;
}

/**
 * How full a raceway is, and whether that is allowed.
 *
 * Areas over the insulation against the inside area. Metric conduits are judged by the same percentages, as common practice. Nothing is said of
 * ampacity: more than three current-carrying conductors carry less each.
 *
 * @param filling every kind of wire and cable in it, a bare ground too
 * @param options `nipple`: not longer than 600 mm
 * @returns fill in per cent of the inside area, what is allowed, and whether three equal ones may wedge
 * @source NFPA 70 Chapter 9 Tables 1, 4 and 5 with notes 4, 5 and 9; jam ratio: informational note to Table 1
 * @example three 12 AWG THHN in 1/2 in EMT
 * const emt = racewaySizes("EMT")[0]
 * conduitFill(emt, [{ count: 3, outsideMm: 3.302 }]).fillPct //=> 13.107
 * conduitFill(emt, [{ count: 10, outsideMm: 3.302 }]).fits //=> false
 */
export function conduitFill(
  size: RacewaySize,
  filling: readonly Filling[],
  options: { readonly nipple?: boolean } = {},
): ConduitFill {
  const count = filling.reduce((sum, each) => sum + each.count, 0);
  const filledMm2 = filling.reduce((sum, each) => sum + each.count * (Math.PI / 4) * each.outsideMm ** 2, 0);
  const fillPct = (100 * filledMm2) / size.areaMm2;
  const limit = limitFor(count, options.nipple === true);
  // A circle wider than the pipe does not go in, whatever the percentages say.
  const widest = Math.max(0, ...filling.filter((each) => each.count > 0).map(({ outsideMm }) => outsideMm));
  const fits = fillPct <= limit.value && widest <= size.insideMm;
  const [only, ...others] = filling;
  const jamRatio = count === 3 && only !== undefined && others.length === 0 ? size.insideMm / only.outsideMm : null;
  const mayJam = jamRatio !== null && jamRatio >= JAM.least && jamRatio <= JAM.most;
  const isMetric = findRow(conduitMetric, `${size.raceway} ${size.name}`) !== null;
  const trust = weakestTrust(limit.trust, size.trust, isMetric ? "practice" : "read");
  const says = `${size.label} is ${fillPct.toFixed(0)} % full, ${limit.value} % is allowed for ${limit.row}${isMetric ? ", by the American percentages" : ""}`;
  return {
    size,
    count,
    filledMm2,
    fillPct,
    limitPct: limit.value,
    fits,
    jamRatio,
    mayJam,
    says: mayJam ? `${says}; three of these may wedge in a bend` : says,
    trust,
    source: isMetric
      ? cite("trade-practice", "American fill percentages for metric conduit", trust)
      : { ...limit.source, trust },
  };
}

/**
 * The narrowest size of a raceway that may hold what is to go in.
 *
 * @returns null when none is wide enough
 * @example nine 12 AWG THHN go into 1/2 in EMT, ten do not
 * smallestConduit("EMT", [{ count: 9, outsideMm: 3.302 }]).size.name //=> "1/2"
 * smallestConduit("EMT", [{ count: 10, outsideMm: 3.302 }]).size.name //=> "3/4"
 */
export function smallestConduit(
  raceway: Raceway,
  filling: readonly Filling[],
  options: { readonly nipple?: boolean } = {},
): ConduitFill | null {
  for (const size of racewaySizes(raceway)) {
    const fill = conduitFill(size, filling, options);
    if (fill.fits) return fill;
  }
  return null;
}
