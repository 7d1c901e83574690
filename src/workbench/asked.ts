/** What page and worker both call things by. */
import type { Answer } from "../size/answer.ts";
import type { QuestionProblem } from "../size/question.ts";

/** Key path of a thing of the plan: `circuits.W13`, `parts.fridge`. */
export type KeyPath = string;

/** A finding by its identity. */
export interface FindingKey {
  readonly rule: string;
  readonly about: KeyPath;
}

/** What a wire-desk question comes to. */
export type Sized =
  | { readonly ok: true; readonly answer: Answer }
  | { readonly ok: false; readonly problems: readonly QuestionProblem[] };
