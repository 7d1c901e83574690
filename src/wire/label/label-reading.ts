import type { Span } from "../../diagnostic.ts";
import type { WireMake } from "../make/wire-make.ts";

/** Where a label was met; it decides between readings, and the reading says that it did. */
export type LabelContext = "boat" | "building" | "vehicle" | "cord" | "metric" | "order";

/** The contexts, in the order in which lists show them. */
export const labelContexts = [
  "boat",
  "building",
  "vehicle",
  "cord",
  "metric",
  "order",
] as const satisfies readonly LabelContext[];

/** A fact of a make that a label can tell. */
export type LabelFact =
  | "family"
  | "size"
  | "cores"
  | "runs"
  | "stranding"
  | "metal"
  | "plating"
  | "type"
  | "volts"
  | "temperatureC"
  | "fitness"
  | "colours"
  | "form"
  | "outsideMm"
  | "quantity";

/** What is ordered: `50 m red` is 50 m. */
export interface OrderQuantity {
  readonly value: number;
  readonly unit: "m" | "ft" | "reel" | "piece";
  /** m; null where it is counted in pieces. */
  readonly metres: number | null;
}

/** One way in which a label can be meant. */
export interface WireReading {
  readonly make: WireMake;
  readonly quantity: OrderQuantity | null;
  /** Which characters said so, by fact; first inclusive, second not. A fact that follows from the type points at the type. */
  readonly from: Readonly<Partial<Record<LabelFact, readonly Span[]>>>;
  /** What decided where the characters alone do not: the context, or a habit of the trade, each a short sentence. */
  readonly by: readonly string[];
  /** The same in words that nobody can misread, in a sentence. */
  readonly says: string;
  /** A label that reads exactly as this and nothing else; null: only the context tells them apart. */
  readonly exactLabel: string | null;
  /** What misleads in this label, graver first, each a sentence. */
  readonly traps: readonly string[];
}

/** Why a label was not read, or what is odd in one that was. */
export interface LabelProblem {
  readonly id: LabelProblemId;
  readonly at: Span;
  readonly message: string;
  /** The next step. */
  readonly hint: string;
}

export type LabelProblemId =
  | "nothing-written"
  | "too-long"
  | "not-a-label"
  | "not-a-size"
  | "letter-for-digit"
  | "look-alike"
  | "made-by-a-spreadsheet"
  | "markup"
  | "other-thing"
  | "parts-disagree"
  | "colour-not-kept"
  | "word-not-known";

/** What came of a label: exactly one meaning, several with the question that settles them, or none with the reason. */
export type LabelReading =
  | {
      readonly verdict: "exact";
      readonly readings: readonly [WireReading];
      /** Readings that the context ruled out; each says what it would have been. */
      readonly ruledOut: readonly WireReading[];
      readonly problems: readonly LabelProblem[];
    }
  | {
      readonly verdict: "ambiguous";
      readonly readings: readonly [WireReading, WireReading, ...WireReading[]];
      /** What to ask or to look at, in one sentence that ends with a question mark. */
      readonly question: string;
      readonly problems: readonly LabelProblem[];
    }
  | {
      readonly verdict: "rejected";
      readonly readings: readonly [];
      readonly problems: readonly [LabelProblem, ...LabelProblem[]];
    };
