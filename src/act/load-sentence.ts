import type { Span } from "../diagnostic.ts";

/** A load as one sentence says it. Texts are figures with the person's own unit, as they go into a plan. */
export interface LoadSentence {
  readonly name: string;
  /** Kind of part, by the words of the name: `light`, `outlet`, `load`. */
  readonly kind: string;
  /** Amps or watts while it runs. */
  readonly running: string | null;
  /** Amps or watts while it starts, and for how long. */
  readonly starting: string | null;
  readonly startTime: string | null;
  /** Least volts while it runs, and while it starts. */
  readonly runsAbove: string | null;
  readonly startsAbove: string | null;
  /** Volts that were said of the supply or of its figures. */
  readonly volts: string | null;
  readonly count: number | null;
  readonly alwaysOn: boolean;
  readonly critical: boolean;
  /** Turned by a motor. */
  readonly motor: boolean;
  readonly duty: "continuous" | "intermittent" | null;
  /** One way. */
  readonly length: string | null;
  /** What follows the word `note`. */
  readonly note: string | null;
  /** How it was understood where another reading is possible. */
  readonly remarks: readonly string[];
}

/** One thing that was not understood, and where it stands in the sentence. */
export interface SentenceProblem {
  readonly at: Span;
  readonly message: string;
  readonly hint: string;
}

export type LoadReading =
  | { readonly ok: true; readonly load: LoadSentence }
  | { readonly ok: false; readonly problems: readonly SentenceProblem[] };
