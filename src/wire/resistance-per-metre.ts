import {
  cite,
  findRow,
  formula,
  takeCell,
  weakestTrust,
  type Citation,
  type ColumnOf,
  type LookedUp,
  type Trust,
} from "../explain/index.ts";
import { ohmsPerMetre, type OhmsPerMetre, type SquareMillimetres } from "../quantity/index.ts";
import { awg, type AwgRow } from "../reference/awg.ts";
import { iec60228, type Iec60228Row } from "../reference/iec60228.ts";
import { saeGauge } from "../reference/sae-gauge.ts";
import { strandClasses, type ConductorMake, type Plating } from "./conductor-make.ts";
import { metals, metalSources, type Metal } from "./metal.ts";
import { americanRow } from "./wire-size.ts";

/** Resistance of a metre of conductor at 20 °C, and what it rests on. */
export interface Resistance20 {
  readonly ohmsPerMetre: OhmsPerMetre;
  readonly trust: Trust;
  readonly source: Citation;
  /** The cell that was used; null where no table has the size. */
  readonly cell: LookedUp | null;
  /** What stood in for what, and what the figure leaves out. Words for the reader. */
  readonly notes: readonly string[];
}

/** 1000 ft in metres. */
const KFT = 304.8;
/** Strands are laid in a helix: 2 % more wire than cable, ASTM B8 and B496. */
const LAY = 1.02;

/** Brings a resistance of NEC Chapter 9 Table 8 to 20 °C by the table's own rule, and to SI. */
const coldFrom75 = formula(
  {
    id: "resistance-at-20-from-75",
    equation: "R20 = R75 · (1 + α75 · (20 − 75)) / 304.8",
    source: metalSources.alpha75,
    symbols: {
      at75: { symbol: "R75", unit: "Ω/kft", meaning: "resistance at 75 °C" },
      metal: { unit: "", meaning: "metal, for α75" },
    },
    unit: "Ω/m",
  },
  ({ at75, metal }: { readonly at75: number; readonly metal: Metal }): OhmsPerMetre =>
    ohmsPerMetre((at75 * (1 + metals[metal].alpha75 * (20 - 75))) / KFT),
);

/** Resistance of a metre of metal with a given area. */
const coldFromArea = formula(
  {
    id: "resistance-at-20-from-area",
    equation: "R20 = ρ20 · k / A",
    source: { ...metalSources.rho20, trust: "derived" },
    symbols: {
      metal: { unit: "", meaning: "metal, for ρ20" },
      areaMm2: { symbol: "A", unit: "mm²", meaning: "area of the metal" },
      excess: { symbol: "k", unit: "", meaning: "more than the bare metal: lay of the strands, tinning" },
    },
    unit: "Ω/m",
  },
  ({
    metal,
    areaMm2,
    excess,
  }: {
    readonly metal: Metal;
    readonly areaMm2: SquareMillimetres;
    readonly excess: number;
  }) => ohmsPerMetre((metals[metal].rho20 * excess) / areaMm2),
);

/** Resistance of a metric size between the rows of IEC 60228, as a share of the most that the standard allows any label. */
const coldFromLabel = formula(
  {
    id: "resistance-at-20-from-label",
    equation: "R20 = min(c / A, R20 of the row below)",
    source: cite("iec-60228-2004", "Tables 1 to 3, not a size of the standard", "derived"),
    symbols: {
      areaMm2: { symbol: "A", unit: "mm²", meaning: "area on the label" },
      worst: { symbol: "c", unit: "Ω·mm²/km", meaning: "greatest product of limit and label in the column" },
      below: { symbol: "R20 of the row below", unit: "Ω/km", meaning: "limit of the next smaller size" },
    },
    unit: "Ω/m",
  },
  ({ areaMm2, worst, below }: { readonly areaMm2: number; readonly worst: number; readonly below: number | null }) =>
    ohmsPerMetre(Math.min(worst / areaMm2, below ?? Infinity) / 1000),
);

/**
 * Direct-current resistance of a metre of conductor at 20 °C.
 *
 * Metric sizes are the greatest that IEC 60228 allows, so a real conductor is at or below. AWG and kcmil are the code's own figures for Class B
 * strands, to which the maker's tolerance of about 2 % and the tighter lay of fine strands (up to a few per cent) come on top; a note says so.
 * Where a combination has no row another one of higher resistance stands in, and a note says which.
 *
 * @returns Ω/m, the cell it came from, its trust, and notes in words
 * @accuracy IEC 60228: limits as printed; NEC Table 8: three digits, 0.5 %
 * @source IEC 60228:2004 Tables 1 to 3; NFPA 70 Chapter 9 Table 8; else ρ20 · lay / area after IEC 60287-1-1 and ASTM B8
 * @example 35 mm² flexible copper
 * resistancePerMetre20({ size: metricSize(35), metal: "copper", plating: "plain", strands: "class 5" }).ohmsPerMetre //=> 0.000554
 * @example 10 AWG, 1.24 Ω/kft at 75 °C
 * resistancePerMetre20({ size: awgSize("10"), metal: "copper", plating: "plain", strands: "class B" }).ohmsPerMetre //=> 0.0033455
 */
export function resistancePerMetre20(make: ConductorMake): Resistance20 {
  switch (make.size.system) {
    case "mm²":
      return metric(make);
    case "AWG":
    case "kcmil":
      return american(make);
    case "SAE":
      return vehicle(make);
  }
}

const result = (cell: LookedUp, value: OhmsPerMetre, notes: readonly string[], standIn: boolean): Resistance20 => {
  // A stand-in is a step of our own, however well the cell was read.
  const trust = standIn ? weakestTrust(cell.trust, "derived") : cell.trust;
  return { ohmsPerMetre: value, trust, source: { ...cell.source, trust }, cell, notes };
};

type IecColumn = Exclude<ColumnOf<Iec60228Row>, "nominalMm2">;

const iecColumns = {
  1: { plain: "class1CuPlainOhmPerKm", tinned: "class1CuCoatedOhmPerKm", aluminium: "class1AlOhmPerKm" },
  2: { plain: "class2CuPlainOhmPerKm", tinned: "class2CuCoatedOhmPerKm", aluminium: "class2AlOhmPerKm" },
  5: { plain: "class5CuPlainOhmPerKm", tinned: "class5CuTinnedOhmPerKm" },
} as const satisfies Readonly<Record<1 | 2 | 5, Readonly<Partial<Record<Plating | "aluminium", IecColumn>>>>>;

/** The greatest product of limit and label in a column: no size of the class may have less metal for each labelled mm². */
function worstOf(column: IecColumn): number {
  return Math.max(...iec60228.rows.map((row) => (row[column] ?? 0) * row.nominalMm2));
}

/** Where the limit of a metric make stands: a column of copper or aluminium, and what to multiply it by. */
interface Limit {
  readonly column: IecColumn;
  readonly factor: number;
  readonly notes: readonly string[];
}

function limitOf({ size, metal, plating, strands }: ConductorMake, row: Iec60228Row | null): Limit {
  const { iecClass, isIec } = strandClasses[strands];
  const notes = isIec ? [] : [`IEC 60228 does not name ${strands}; its class ${iecClass} stands in`];
  const own = iecColumns[iecClass];
  if (metal === "copper") {
    // Class 1 tinned stops at 16 mm². Class 2 coated will not do: from 185 mm² its limits lie below those of plain class 1.
    if (row === null || row[own[plating]] !== null) return { column: own[plating], factor: 1, notes };
    notes.push(`IEC 60228 has no tinned ${strands} of ${size.label}; class 5 tinned stands in`);
    return { column: iecColumns[5].tinned, factor: 1, notes };
  }
  // Aluminium has classes 1 and 2 from 10 mm² up, and no tinned column.
  const column = iecClass === 5 ? null : iecColumns[iecClass].aluminium;
  if (column !== null && row !== null && row[column] !== null) return { column, factor: 1, notes };
  notes.push(
    `IEC 60228 has no aluminium ${strands} of ${size.label}; the copper limit stands in, times the ratio of resistivities`,
  );
  return { column: own.plain, factor: metals.aluminium.rho20 / metals.copper.rho20, notes };
}

function metric(make: ConductorMake): Resistance20 {
  const { areaMm2, label } = make.size;
  const row = findRow(iec60228, areaMm2);
  const { column, factor, notes } = limitOf(make, row);
  const cell = row === null ? null : takeCell(iec60228, row, column);
  if (cell !== null) return result(cell, ohmsPerMetre((cell.value * factor) / 1000), notes, notes.length > 0);

  const below = iec60228.rows.findLast((candidate) => candidate.nominalMm2 < areaMm2 && candidate[column] !== null);
  // The tinned column of class 1 ends early, and what it leaves out is leaner in the plain one.
  const worst = Math.max(worstOf(column), worstOf(iecColumns[strandClasses[make.strands].iecClass].plain));
  const value = coldFromLabel({
    areaMm2,
    worst: worst * factor,
    below: below === undefined ? null : (below[column] ?? 0) * factor,
  });
  const note = `${label} is no size of IEC 60228; as much metal for each labelled mm² as the leanest size of the class stands in`;
  return {
    ohmsPerMetre: value,
    trust: "derived",
    source: coldFromLabel.meta.source,
    cell: null,
    notes: [...notes, note],
  };
}

type NecColumn = Extract<ColumnOf<AwgRow>, `${"solid" | "stranded"}${string}`> & `${string}OhmPerKft`;

const necColumns = {
  solid: {
    plain: "solidCuBare75COhmPerKft",
    tinned: "solidCuCoated75COhmPerKft",
    aluminium: "solidAl75COhmPerKft",
  },
  stranded: {
    plain: "strandedCuBare75COhmPerKft",
    tinned: "strandedCuCoated75COhmPerKft",
    aluminium: "strandedAl75COhmPerKft",
  },
} as const satisfies Readonly<Record<"solid" | "stranded", Readonly<Record<Plating | "aluminium", NecColumn>>>>;

const FINE = "the table is for Class B; finer strands lie up to a few per cent higher";

function american(make: ConductorMake): Resistance20 {
  const { size, metal, plating, strands } = make;
  const { isSolid, isFine } = strandClasses[strands];
  const kind = metal === "aluminium" ? "aluminium" : plating;
  const notes: string[] = isFine ? [FINE] : [];
  const row = americanRow(size);
  // Of the rows that the table has, all have stranded cells and those to 8 AWG solid ones.
  const ofSolid = isSolid && row !== null ? takeCell(awg, row, necColumns.solid[kind]) : null;
  const cell = ofSolid ?? (row === null ? null : takeCell(awg, row, necColumns.stranded[kind]));
  if (cell === null)
    return fromArea(make, isSolid ? 1 : LAY, [
      ...notes,
      `NEC Chapter 9 Table 8 has no ${size.label}; computed from the area`,
    ]);
  const standIn = isSolid && ofSolid === null;
  if (standIn) notes.push("NEC Chapter 9 Table 8 has solid conductors to 8 AWG only; the stranded column stands in");
  return result(cell, coldFrom75({ at75: cell.value, metal }), notes, standIn);
}

function vehicle(make: ConductorMake): Resistance20 {
  const { size } = make;
  const area = findRow(saeGauge, size.name);
  const fact =
    area === null ? null : (takeCell(saeGauge, area, "saeAreaMm2") ?? takeCell(saeGauge, area, "j1128MinAreaMm2"));
  const notes = ["computed from the SAE area; finer strands lie up to a few per cent higher"];
  const computed = fromArea(make, strandClasses[make.strands].isSolid ? 1 : LAY, notes);
  const trust = weakestTrust(computed.trust, fact?.trust ?? "derived");
  return { ...computed, trust, source: fact === null ? computed.source : { ...fact.source, trust }, cell: fact };
}

/** From the area alone, with lay and, where tinned, what tinning adds to the next smaller size of NEC Table 8. */
function fromArea({ size, metal, plating }: ConductorMake, lay: number, notes: readonly string[]): Resistance20 {
  const isTinned = plating === "tinned" && metal === "copper";
  const tin = isTinned ? tinning(size.areaMm2) : { ratio: 1, size: "" };
  const value = coldFromArea({ metal, areaMm2: size.areaMm2, excess: lay * tin.ratio });
  const said = isTinned ? [...notes, `tinning adds what it adds to ${tin.size} in NEC Chapter 9 Table 8`] : notes;
  return { ohmsPerMetre: value, trust: "derived", source: coldFromArea.meta.source, cell: null, notes: said };
}

/** Coated over bare, of the next smaller row of Table 8, or of its first: thin strands gain most by tin. */
function tinning(areaMm2: number): { readonly ratio: number; readonly size: string } {
  const rows = awg.rows.filter(({ strandedCuCoated75COhmPerKft }) => strandedCuCoated75COhmPerKft !== null);
  const row = rows.findLast((candidate) => candidate.areaExactMm2 <= areaMm2) ?? rows[0];
  return {
    ratio: (row?.strandedCuCoated75COhmPerKft ?? 1) / (row?.strandedCuBare75COhmPerKft ?? 1),
    size: `${row?.size ?? ""} ${row?.kind ?? ""}`,
  };
}
