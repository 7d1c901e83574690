import type { Trust } from "../../explain/index.ts";
import type { WireMake } from "../make/wire-make.ts";
import { cableSection } from "./cable-section.ts";
import type { Assumption } from "./cable-section-shape.ts";

/** The outside of a wire or cable. */
export interface CableOutside {
  /** The larger measure: a gland must let it through, and the code counts a flat cable as a circle of it. */
  readonly mm: number;
  /** The smaller measure; the same for a round cable. */
  readonly heightMm: number;
  /** The label says it, or the size is named by it; else it is worked out from cores and usual walls. */
  readonly isStated: boolean;
  readonly assumed: readonly Assumption[];
  readonly trust: Trust;
}

/** Vehicle cable is named by the diameter over its insulation; that of two such wires in a sheath is not told. */
const nameMm = ({ size, cores }: WireMake): number | null =>
  size?.system === "vehicle diameter" && (cores === null || cores.total === 1) ? Number(size.name) : null;

/**
 * Diameter over everything, of one run.
 *
 * @returns null where the size is not stated
 * @accuracy 10 to 20 % where no diameter is printed: take the data sheet's or measure
 * @source as `cableSection`
 * @example
 * cableOutside({ ...emptyMake, size: { system: "vehicle diameter", name: "6", label: "6 mm vehicle cable", areaMm2: 4.59, basis: "metal" }, outsideMm: 6 }).mm //=> 6
 */
export function cableOutside(make: WireMake): CableOutside | null {
  const cut = cableSection(make, { mostCircles: 0 });
  if (cut === null) return null;
  const { outline, assumed, trust } = cut;
  const mm = outline.is === "round" ? 2 * outline.radius : outline.width;
  const heightMm = outline.is === "round" ? mm : outline.height;
  const told = make.outsideMm ?? nameMm(make);
  // What is printed is reached to the last digit, or was refused as impossible.
  const isStated = told !== null && Math.abs(mm / told - 1) < 1e-9;
  // Nothing that was assumed inside changes an outside that is told; such names are read in data sheets.
  return { mm, heightMm, isStated, assumed, trust: isStated ? "article" : trust };
}
