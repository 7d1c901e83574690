import { cite, formula, weakestTrust, type Trust } from "../../explain/index.ts";
import type { WireMake } from "../make/wire-make.ts";
import { cableSection } from "./cable-section.ts";
import type { CableSection, Outline } from "./cable-section-shape.ts";
import { cableMetal } from "./metal-mass.ts";

/** Density of PVC and rubber as they are mixed for cables, g/cm³; cross-linked polyethylene without filler is 0.95. */
const COVER_DENSITY = 1.4;

/**
 * Mass of the insulation and the sheath of a metre of cable.
 *
 * @param areaMm2 of all of it in a cut, mm²
 * @param densityGCm3 1.4 for PVC and rubber
 * @returns g/m
 * @source density of cable PVC, 1.3 to 1.5 g/cm³, from memory
 * @example
 * coverMass({ areaMm2: 60, densityGCm3: 1.4 }) //=> 84
 */
export const coverMass = formula(
  {
    id: "cover-mass-per-metre",
    equation: "m = A · ρ",
    source: cite("trade-practice", "density of insulation and sheath", "memory"),
    symbols: {
      areaMm2: { symbol: "A", unit: "mm²", meaning: "area of insulation and sheath in a cut" },
      densityGCm3: { symbol: "ρ", unit: "g/cm³", meaning: "density" },
    },
    unit: "g/m",
  },
  ({ areaMm2, densityGCm3 }: { readonly areaMm2: number; readonly densityGCm3: number }) => areaMm2 * densityGCm3,
);

/** Mass of a metre of cable, with all that is on the metal. */
export interface CableMass {
  /** g/m, which is kg/km; of one run. */
  readonly gramsPerMetre: number;
  readonly trust: Trust;
}

const disc = (radius: number): number => Math.PI * radius ** 2;

/** Area within an outline that is drawn in by a thickness on all sides, mm². */
function areaWithin(outline: Outline, inset: number): number {
  if (outline.is === "round") return disc(outline.radius - inset);
  const height = outline.height - 2 * inset;
  return (outline.width - outline.height) * height + disc(height / 2);
}

/** Insulation, sheath, and what fills the room between round cores, mm². Flat and North American building cable has air and paper there. */
function coverArea({ outline, sheathMm, cores, concentric }: CableSection, isFilled: boolean): number {
  const insulation = cores.reduce(
    (sum, { insulationRadius, conductorRadius }) => sum + disc(insulationRadius) - disc(conductorRadius),
    0,
  );
  const sheath = sheathMm === 0 ? 0 : areaWithin(outline, 0) - areaWithin(outline, sheathMm);
  if (!isFilled || sheathMm === 0 || outline.is === "flat") return insulation + sheath;
  const inside = concentric === null ? outline.radius - sheathMm : concentric.innerRadius;
  const taken = cores.reduce((sum, { insulationRadius }) => sum + disc(insulationRadius), 0);
  return insulation + sheath + Math.max(0, disc(inside) - taken);
}

/**
 * Mass of a metre of wire or cable with insulation and sheath, one run.
 *
 * Braids, screens and armour are left out, and walls are the usual ones where no diameter is printed.
 *
 * @returns null where the size is not stated
 * @accuracy 15 % of what data sheets print; foamed or cross-linked polyethylene is lighter
 * @source `cableSection`, `cableMetal`, and a density of 1.4 g/cm³ (memory)
 * @example a building wire of 2.5 mm²; data sheets print 31 to 33 kg/km
 * cableMass({ ...emptyMake, family: "harmonised cable", type: "H07V-K", size: { system: "mm²", name: "2.5", label: "2.5 mm²", areaMm2: 2.5, basis: "label" } }).gramsPerMetre //=> 32.8
 */
export function cableMass(make: WireMake): CableMass | null {
  const cut = cableSection(make, { mostCircles: 0 });
  const metal = cableMetal(make);
  if (cut === null || metal === null) return null;
  const areaMm2 = coverArea(cut, make.family !== "building cable");
  return {
    gramsPerMetre: metal.gramsPerMetre + coverMass({ areaMm2, densityGCm3: COVER_DENSITY }),
    trust: weakestTrust(metal.trust, cut.trust, "memory"),
  };
}
