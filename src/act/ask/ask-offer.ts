import type { QuestionText } from "../../size/question-text.ts";
import type { ActRequest, KeyPath } from "../request.ts";

/** What the page shows; views carry these names. */
export type ViewId =
  | "one-line"
  | "circuits"
  | "layout"
  | "loom"
  | "states"
  | "schedules"
  | "energy"
  | "kit"
  | "labels"
  | "test-sheet"
  | "wire-desk"
  | "faults"
  | "findings"
  | "list"
  | "text"
  | "pack"
  | "start"
  | "units"
  | "keys";

interface Said {
  /** What the offer does, in words: `why W13 is 2.5 mm²`. */
  readonly says: string;
  /** What it is about in a few words more: `PNL:1 → fridge, 2.5 mm²`. Empty: nothing. */
  readonly more: string;
}

/** One line of the list under the ask field. */
export type AskOffer = Said &
  (
    | { readonly kind: "go"; readonly about: KeyPath; readonly line?: number }
    /** `needs`: the offer is complete when this is typed behind it; until then it is shown and does nothing. */
    | { readonly kind: "act"; readonly request: ActRequest }
    | { readonly kind: "needs"; readonly needs: string; readonly text: string }
    | { readonly kind: "why"; readonly about: KeyPath }
    | { readonly kind: "view"; readonly view: ViewId }
    /** When the devices of a circuit open. */
    | { readonly kind: "curves"; readonly about: KeyPath }
    | { readonly kind: "question"; readonly question: QuestionText }
    /** A label of wire, to be read on the wire desk. */
    | { readonly kind: "name"; readonly label: string }
    | { readonly kind: "what-if"; readonly whatIf: WhatIf }
    /** Something that the page itself does. */
    | { readonly kind: "page"; readonly command: "undo" | "redo" | "save" | "save-as" | "open" | "rub-out" | "new" }
    /** What cannot be done, and why. */
    | { readonly kind: "told"; readonly message: string; readonly hint: string }
  );

/** A plan that is only thought of. */
export interface WhatIf {
  /** State in which it is; null: the moment at which every load is judged, with the banks at their lowest. */
  readonly state: string | null;
  /** Charge of the banks, 0…1. */
  readonly battery?: number;
  readonly engine?: boolean;
}

/** What the page knows while somebody asks. */
export interface AskContext {
  /** What is selected. */
  readonly selected?: KeyPath | null;
  /** State in the strip. */
  readonly state?: string | null;
  /** Edits of the cure whose note is open, for `apply`. */
  readonly cure?: Extract<ActRequest, { readonly do: "apply-edits" }> | null;
  /** The finding whose note is open, for `waive`. */
  readonly finding?: Extract<ActRequest, { readonly do: "waive" }>["finding"] | null;
  /** So many offers at most; else 8. */
  readonly most?: number;
}
