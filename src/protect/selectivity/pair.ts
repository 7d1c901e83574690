import type { Citation, Trust } from "../../explain/index.ts";
import type { DeviceFamilyId, Supply } from "../../device/index.ts";

/** A device of a pair. */
export interface PairDevice {
  readonly family: DeviceFamilyId;
  /** A. */
  readonly rating: number;
  /** A, as marked on the part for the volts and the supply; the usual grade of the family where left out. */
  readonly interruptAmps?: number;
}

/** Two devices in series and what can flow through both. */
export interface PairQuestion {
  /** Nearer to the source. */
  readonly upstream: PairDevice;
  /** Nearer to the fault: it alone is to open. */
  readonly downstream: PairDevice;
  /** A, the least overcurrent that is asked for; the rating of the downstream device where left out. */
  readonly least?: number;
  /** A, the greatest prospective current at the load side of the downstream device; null: not known. */
  readonly greatest: number | null;
  /** Greatest that can stand across an open device. */
  readonly volts: number;
  readonly supply: Supply;
  /** A source that limits itself: the current that it holds, and for how long before it stops; null: for good. */
  readonly sourceLimit?: { readonly amps: number; readonly seconds: number | null };
  /** A tested table of the maker for this very pair. */
  readonly makerTable?: { readonly upTo: number; readonly source: Citation };
}

/**
 * `selective`: at every current of the range the downstream device alone opens. `selective up to`: as far as a current. `not selective`: it is
 * known that both may open. `not proven`: a figure is missing that could tell.
 */
export type PairVerdict = "selective" | "selective up to" | "not selective" | "not proven";

/** What an answer rests on; `source`: the source limits the current; `identity`: what the two devices are. */
export type PairMethod = "gates" | "trip bands" | "I2t" | "ratio" | "maker table" | "source" | "identity";

/** Whether two devices in series are selective, and why. Plain data. */
export interface PairJudgement {
  readonly verdict: PairVerdict;
  /** A; null unless selective up to a current. */
  readonly upTo: number | null;
  readonly method: PairMethod;
  /** In words. */
  readonly because: string;
  /** The figure that would tell more; null where none is missing. */
  readonly missing: string | null;
  /** Of the weakest figure that the answer rests on. */
  readonly trust: Trust;
  readonly sources: readonly Citation[];
}
