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
  /** A label says it; else it is worked out from cores and usual walls. */
  readonly isStated: boolean;
  readonly assumed: readonly Assumption[];
  readonly trust: Trust;
}

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
  // What is printed is reached to the last digit, or was refused as impossible.
  const isStated = make.outsideMm !== null && Math.abs(mm / make.outsideMm - 1) < 1e-9;
  return { mm, heightMm, isStated, assumed, trust };
}
