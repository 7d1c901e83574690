import type { Citation } from "../explain/index.ts";
import type { Metres } from "../quantity/index.ts";
import type { Strands, WireSize } from "../wire/index.ts";
import type { CurrentKind } from "./device-limit.ts";

/** Where a conductor may be thinner than elsewhere. */
export type SmallUse =
  /** Inside a panel board. */
  | "panel"
  /** Tail of an appliance. */
  | "pigtail"
  /** Electronics of less than one ampere. */
  | "small electronics";

interface LeastSizeCase {
  readonly current: readonly CurrentKind[];
  /** `sheath`: in a sheath with others; `alone`: a single conductor. */
  readonly use: "alone" | "sheath" | SmallUse;
  /** Holds only for conductors longer than this. */
  readonly longerThan?: Metres;
  /** Holds only for conductors shorter than this. */
  readonly shorterThan?: Metres;
  readonly size: WireSize;
  /** How far a core may come out of its sheath. */
  readonly tail?: Metres;
  readonly says: string;
  readonly source: Citation;
}

/** Least sizes of a rule set, the most generous that applies first. */
export interface LeastSizeRules {
  /** Strands by which a conductor of another size system is compared. */
  readonly strands: Strands;
  readonly cases: readonly LeastSizeCase[];
}

/** The least size that a conductor may have. */
export interface LeastSize {
  readonly size: WireSize;
  /** For conductors of another size system: see `isNoThinner`. */
  readonly strands: Strands;
  /** How far the core may come out of its sheath; null where that does not matter. */
  readonly tail: Metres | null;
  readonly says: string;
  readonly source: Citation;
}

/** A conductor, as far as its least size goes. */
export interface LeastSizeInput {
  readonly current: CurrentKind;
  readonly sheathed: boolean;
  /** Length of the conductor; unknown where left out, and then the stricter case holds. */
  readonly length?: Metres;
  /** What it is, where that lets it be thinner. */
  readonly use?: SmallUse;
}

/**
 * The least size that a rule set allows for the sake of strength.
 *
 * @param rules `leastSize` of a rule set
 * @returns null where the set names none for such a conductor
 * @example
 * const alone = { current: ["DC"], use: "alone", longerThan: metres(0.2), size: metricSize(1), says: "a conductor by itself", source: cite("iso-10133-2012", "7.7", "read") }
 * leastSize({ strands: "class 5", cases: [alone] }, { current: "DC", sheathed: false, length: metres(3) })?.size.label //=> "1 mm²"
 * leastSize({ strands: "class 5", cases: [alone] }, { current: "DC", sheathed: false, length: metres(0.1) }) //=> null
 */
export function leastSize(rules: LeastSizeRules, given: LeastSizeInput): LeastSize | null {
  const { strands, cases } = rules;
  const uses: readonly LeastSizeCase["use"][] = [
    ...(given.use === undefined ? [] : [given.use]),
    given.sheathed ? "sheath" : "alone",
  ];
  for (const use of uses) {
    const found = cases.find(
      (one) =>
        one.use === use &&
        one.current.includes(given.current) &&
        (one.shorterThan === undefined || (given.length !== undefined && given.length < one.shorterThan)) &&
        (one.longerThan === undefined || given.length === undefined || given.length > one.longerThan),
    );
    if (found !== undefined) {
      const { size, tail = null, says, source } = found;
      return { size, strands, tail, says, source };
    }
  }
  return null;
}
