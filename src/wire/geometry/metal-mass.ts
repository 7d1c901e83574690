import { cite, formula, lookUp, weakestTrust, type Trust } from "../../explain/index.ts";
import { constants } from "../../reference/constants.ts";
import { cladAluminium } from "../convert/clad-aluminium.ts";
import type { PrintedMetal, WireMake } from "../make/wire-make.ts";
import { cableSection } from "./cable-section.ts";

/** Density, g/cm³, with its trust. */
function densityOf(metal: PrintedMetal): { readonly value: number; readonly trust: Trust } {
  if (metal === "copper-clad aluminium") return { value: cladAluminium["10A"].density, trust: "memory" };
  const found = lookUp(constants, metal === "copper" ? "density_cu" : "density_al", "value");
  if (found === null) throw new Error(`wire/constants has no density of ${metal}`);
  return found;
}

/** Strands are laid in a helix: 2 % more wire than cable, ASTM B8. */
const LAY = 1.02;

/**
 * Mass of the metal of a metre of conductor.
 *
 * @param areaMm2 of the metal; of a metric label it is the most that the label may hold
 * @param densityGCm3 8.89 for copper, 2.703 for aluminium
 * @param lay more wire than cable: 1 for a solid wire, 1.02 for strands
 * @returns g/m
 * @source ASTM B496 for copper of 8.89 g/cm³ and 2 % of lay
 * @example 10 AWG, solid
 * metalMass({ areaMm2: 5.261, densityGCm3: 8.89, lay: 1 }) //=> 46.77
 */
export const metalMass = formula(
  {
    id: "metal-mass-per-metre",
    equation: "m = A · ρ · k",
    source: cite("astm-b496", "density of copper, increment for lay", "read"),
    symbols: {
      areaMm2: { symbol: "A", unit: "mm²", meaning: "area of the metal" },
      densityGCm3: { symbol: "ρ", unit: "g/cm³", meaning: "density" },
      lay: { symbol: "k", unit: "", meaning: "more wire than cable by the lay of strands" },
    },
    unit: "g/m",
  },
  ({ areaMm2, densityGCm3, lay }: { readonly areaMm2: number; readonly densityGCm3: number; readonly lay: number }) =>
    areaMm2 * densityGCm3 * lay,
);

/** Metal of a metre of cable. */
export interface CableMetal {
  /** g/m, which is kg/km; all conductors and a ground of one run. */
  readonly gramsPerMetre: number;
  readonly metal: PrintedMetal;
  readonly trust: Trust;
}

/**
 * Mass of the metal in a metre of wire or cable, all conductors of one run.
 *
 * Insulation and sheath are left out (`cableMass`). Metric sizes count as labelled, which may be up to 14 % more than the metal.
 *
 * @returns null where the size is not stated
 * @example 3 × 2.5 mm²: the trade counts 24 kg of copper a km for each
 * cableMetal({ ...emptyMake, size: { system: "mm²", name: "2.5", label: "2.5 mm²", areaMm2: 2.5, basis: "label" }, cores: { insulated: 3, total: 3, ground: "insulated", groundSize: null, others: [], paired: false } }).gramsPerMetre //=> 68.0
 */
export function cableMetal(make: WireMake): CableMetal | null {
  const cut = cableSection(make, { mostCircles: 0 });
  if (cut === null) return null;
  const metal = make.metal ?? "copper";
  const density = densityOf(metal);
  const massOf = (areaMm2: number, wires: number): number =>
    metalMass({ areaMm2, densityGCm3: density.value, lay: wires === 1 ? 1 : LAY });
  const ring = cut.concentric?.wires.reduce((sum, { radius }) => sum + Math.PI * radius ** 2, 0) ?? 0;
  const cores = cut.cores.reduce((sum, { areaMm2, strands }) => sum + massOf(areaMm2, strands.count), 0);
  const trust = weakestTrust("derived", density.trust, make.metal === null ? "practice" : "derived");
  return { gramsPerMetre: cores + (ring > 0 ? massOf(ring, 2) : 0), metal, trust };
}
