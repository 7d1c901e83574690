import type { LabelContext, LabelFact } from "../label/label-reading.ts";

/** Whose way of naming wire: the trade of a region, or that of boats or vehicles. */
export type NameDialect = "north american" | "boat" | "european" | "british" | "australian" | "japanese" | "vehicle";

/** The dialects, in the order in which lists show them. */
export const nameDialects = [
  "north american",
  "boat",
  "european",
  "british",
  "australian",
  "japanese",
  "vehicle",
] as const satisfies readonly NameDialect[];

/** What a name is for. */
export type NameUse =
  /** All that a shop needs, so that nothing else can be sent. */
  | "order"
  /** Size, cores, type and the colour of a single wire. */
  | "drawing"
  /** The shortest that no one can read as another wire. */
  | "sleeve"
  /** As it is called across a workshop; mostly needs the trap that goes with it. */
  | "spoken";

/** The uses, in the order in which lists show them. */
export const nameUses = ["order", "drawing", "sleeve", "spoken"] as const satisfies readonly NameUse[];

/** What a name is asked for. */
export interface NameWish {
  readonly dialect: NameDialect;
  readonly use: NameUse;
}

/** A name that a make has. */
export interface WireName {
  readonly label: string;
  /** What the label says, in words that nobody can misread. */
  readonly says: string;
  /** Why the label misleads, in a sentence; null: nothing known. */
  readonly trap: string | null;
  /** Facts of the make that reading the label gives back, alone or in its context. A spoken name gives its size and cores, to people. */
  readonly states: readonly LabelFact[];
  /** Facts of the make that this label leaves out: have them told beside it. */
  readonly leavesOut: readonly LabelFact[];
  /** Where the label has to stand to be read so; null: anywhere. */
  readonly context: LabelContext | null;
}

/** Why a dialect has no name for a make. */
export interface NoWireName {
  readonly label: null;
  /** A sentence; says what is asked for instead, where there is such a name. */
  readonly reason: string;
}

/** What the place tells where a dialect is spoken; null: nothing that a label leans on. */
export const contextOf: Readonly<Record<NameDialect, LabelContext | null>> = {
  "north american": "building",
  boat: "boat",
  european: "metric",
  british: "metric",
  australian: null,
  japanese: null,
  vehicle: "vehicle",
};
