import type { Trust } from "../../explain/index.ts";
import type { LabelContext, LabelProblem } from "../../wire/label/label-reading.ts";
import type { LadderSystem } from "../../wire/convert/index.ts";
import type { NameStanding } from "../../wire/name/all-names.ts";
import type { NameUse } from "../../wire/name/wire-name.ts";
import type { Carried } from "./carried.ts";
import type { FactSaid } from "./fact-words.ts";
import type { LabelPiece } from "./label-pieces.ts";
import type { Running } from "./running.ts";

/** One way in which a label can be meant, ready to show. */
export interface ShownReading {
  readonly says: string;
  readonly pieces: readonly LabelPiece[];
  readonly facts: readonly FactSaid[];
  /** What decided where the characters alone do not. */
  readonly by: readonly string[];
  readonly traps: readonly string[];
  /** Reads as this and nothing else; null: only the context tells them apart. */
  readonly exactLabel: string | null;
}

/** One of several meanings, with what it is chosen by. */
export interface ReadingToChoose extends ShownReading {
  /** Contexts in which the label as typed reads as this alone. */
  readonly contexts: readonly LabelContext[];
  /** Drawn small, in the same scale as the others. */
  readonly small: ShownDrawing | null;
}

/** A drawing as text, and what it shows. */
export interface ShownDrawing {
  readonly svg: string;
  /** Of the drawing, mm. */
  readonly width: number;
  readonly height: number;
  readonly says: string;
}

/** A cut through a wire or cable. */
export interface ShownSection extends ShownDrawing {
  /** How many times its size it is drawn. */
  readonly times: number;
  /** What the label does not tell and was drawn as usual. */
  readonly assumed: readonly { readonly about: string; readonly says: string; readonly trust: Trust }[];
}

/** A name under which the wire is met, and how it stands to it. */
export interface ShownName {
  readonly label: string;
  readonly standing: NameStanding;
  /** What it says, what else it may be, or what is other. */
  readonly says: string;
  /** What it is used for; empty: nobody should. */
  readonly uses: readonly NameUse[];
  /** Whose way of naming it is. */
  readonly dialects: readonly string[];
  readonly trap: string | null;
}

/** The sizes next to the wire's own in one system. */
export interface Neighbour {
  readonly system: LadderSystem;
  readonly down: NeighbourSize | null;
  /** One with the same area; the wire's own size is not told. */
  readonly same: NeighbourSize | null;
  readonly up: NeighbourSize | null;
  /** The wire is itself of this system. */
  readonly isOwn: boolean;
}

export interface NeighbourSize {
  /** Reads as that size alone. */
  readonly label: string;
  /** Its metal over that of the wire; 1 is the same. */
  readonly ratio: number;
  /** What misleads in this size; empty: nothing. */
  readonly note: string;
}

/** What a size is in another system. */
export interface ShownConversion {
  readonly to: LadderSystem;
  /** Reads as that size alone; null: there is none. */
  readonly label: string | null;
  /** A sentence: what is gained, or lost, by what. */
  readonly says: string;
  /** It has less metal. */
  readonly isLess: boolean;
  /** The next smaller one, and why it was not taken; null: there is none. */
  readonly smaller: string | null;
  /** Graver first. */
  readonly cautions: readonly string[];
  /** The published list that was used or has the very pair, and what others say. */
  readonly pairing: string | null;
  readonly otherPairs: readonly string[];
  readonly trust: Trust;
}

/** A part that goes on or round the wire. */
export interface ShownFit {
  readonly what: string;
  readonly says: string;
  readonly trust: Trust;
  readonly source: string;
}

/** All that is shown of one wire. */
export interface WireSheet {
  /** As it can stand in a plan: `wire` of single wires, `cable` of what has cores; null: nothing exact can. */
  readonly forPlan: { readonly field: "wire" | "cable"; readonly label: string } | null;
  /** The same wire with nothing left to the context; the label as read where there is no such. */
  readonly exactLabel: string;
  readonly names: readonly ShownName[];
  readonly carried: Carried | null;
  readonly running: Running | null;
  /** What the figures take for granted. */
  readonly assumed: readonly string[];
  readonly fits: readonly ShownFit[];
  readonly neighbours: readonly Neighbour[];
  readonly conversion: ShownConversion | null;
  readonly section: ShownSection | null;
}

/** What the wire desk shows of a label. */
export type WireCard = {
  /** The size ladder, with the size marked where all readings have the same. */
  readonly ladder: ShownDrawing;
  readonly problems: readonly LabelProblem[];
} & (
  | {
      readonly verdict: "exact";
      readonly reading: ShownReading;
      /** What else it would have been elsewhere. */
      readonly ruledOut: readonly string[];
      readonly sheet: WireSheet;
    }
  | { readonly verdict: "ambiguous"; readonly question: string; readonly readings: readonly ReadingToChoose[] }
  | { readonly verdict: "rejected"; readonly pieces: readonly RefusedPiece[] }
);

/** A stretch of a label that was refused, and whether a problem is there. */
export interface RefusedPiece {
  readonly text: string;
  readonly isWrong: boolean;
}
