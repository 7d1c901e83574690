import { kindOfMake, usualKind, type ConductorKind } from "../../wire/convert/index.ts";
import { usualStrands } from "../../wire/geometry/index.ts";
import type { ConductorMake } from "../../wire/index.ts";
import type { PrintedSize, WireMake } from "../../wire/make/wire-make.ts";
import { sizeOfPrint } from "../../wire/size-of-print.ts";

/** One conductor of a make as it is computed with. */
export interface Conductor {
  readonly size: PrintedSize;
  readonly kind: ConductorKind;
  /** The same for tables of ampacity, which know copper and aluminium. */
  readonly make: ConductorMake;
  /** What the label leaves open and was taken for, each a short sentence. */
  readonly assumed: readonly string[];
}

/**
 * The conductor of a make, with everything that decides its resistance; what the label does not tell is taken for the usual and told.
 *
 * @returns null where the size is not stated, or is one that no table goes to
 */
export function conductorOf(wire: WireMake): Conductor | null {
  const { size, metal, plating } = wire;
  const computed = size === null ? null : sizeOfPrint(size);
  if (size === null || computed === null) return null;
  const told = kindOfMake(wire);
  // Cable that is solid by its kind is drawn as that, and computed as that.
  const isSolid = told.strands === undefined && usualStrands(wire, size).count === 1;
  const kind = { ...usualKind(size), ...(isSolid ? { strands: "class 1" as const } : {}), ...told };
  const assumed = [
    ...(metal === null ? [`metal not stated: ${kind.metal}`] : []),
    ...(plating === null && kind.metal === "copper" ? [`plating not stated: ${kind.plating}`] : []),
    ...(told.strands === undefined ? [`strands not stated: ${isSolid ? "one solid wire" : kind.strands}`] : []),
  ];
  const isCopper = kind.metal === "copper";
  return { size, kind, make: { size: computed, ...kind, metal: isCopper ? "copper" : "aluminium" }, assumed };
}
