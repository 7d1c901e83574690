import type { Citation, Trust } from "../../explain/index.ts";
import type { PrintedSize } from "../make/wire-make.ts";
import type { PairingId } from "./pairings.ts";
import type { ConductorKind } from "./size-resistance.ts";
import type { LadderSystem } from "./size-ladder.ts";

/** What is compared: areas, resistances, or names in a published list. */
export type ConvertBy = "area" | "resistance" | "table";
/** `not smaller`: never less than there was. `nearest`: the least change, which may be a loss. */
export type ConvertDirection = "not smaller" | "nearest";

export interface ConvertInput {
  readonly size: PrintedSize;
  readonly to: LadderSystem;
  /** `area` where left out. */
  readonly by?: ConvertBy;
  /** `not smaller` where left out; a list of pairs has no direction. */
  readonly direction?: ConvertDirection;
  /** `stocked` where left out: what stockists keep. */
  readonly among?: "stocked" | "all";
  /** By table: which list; else the first that has the size. */
  readonly pairing?: PairingId;
  /** What the given wire is made of; what is left out is as usual for its system. */
  readonly from?: Partial<ConductorKind>;
  /** What the other is to be made of; metal and plating as given where left out, strands as usual for its system. */
  readonly into?: Partial<ConductorKind>;
  /** Of both conductors, °C; 20 where left out. It matters where the metals differ. */
  readonly conductorC?: number;
}

/** A size with the figures that are compared. */
export interface ConvertedSize {
  readonly size: PrintedSize;
  readonly ohmsPerMetre: number;
  readonly isStocked: boolean;
  /** More area than there was, as a share of it: 0.19 is 19 % more. What mm² sizes have is what stands on the label. */
  readonly areaChange: number;
  /** More resistance than there was; below 0 is less. */
  readonly resistanceChange: number;
}

/** What a published list says, where it is another size than was found. */
export interface OtherPair {
  readonly pairing: PairingId;
  readonly label: string;
  readonly says: string;
}

export interface Conversion {
  readonly from: { readonly size: PrintedSize; readonly ohmsPerMetre: number };
  /** Null: nothing is thick enough, or the list does not have the size; `says` tells which. */
  readonly to: ConvertedSize | null;
  readonly by: ConvertBy;
  readonly direction: ConvertDirection;
  readonly among: "stocked" | "all";
  /** The next size down, and why it was not taken; null: there is none. */
  readonly smaller: (ConvertedSize & { readonly says: string }) | null;
  /** The list that was used, or one that has the very pair that was found. */
  readonly pairing: {
    readonly id: PairingId;
    readonly says: string;
    readonly trust: Trust;
    readonly source: Citation;
  } | null;
  /** Lists that say otherwise. */
  readonly otherPairs: readonly OtherPair[];
  /** A sentence: from what to what, with what gain or loss, by what. */
  readonly says: string;
  /** Graver first. */
  readonly cautions: readonly string[];
  readonly trust: Trust;
}
