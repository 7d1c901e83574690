import { printCitation, type Citation } from "../../explain/index.ts";
import { decimalText } from "../../quantity/decimal-text.ts";

/** An answer that the learner may choose, and what it tells. */
export interface LessonChoice {
  readonly says: string;
  readonly right: boolean;
  /** Why it is right, or what would have to be true for it to be. */
  readonly because: string;
}

/** What the learner answers before the figure is shown: one of a few, or a number of their own. */
export type LessonQuestion =
  | { readonly kind: "choice"; readonly asks: string; readonly choices: readonly LessonChoice[] }
  | {
      readonly kind: "number";
      readonly asks: string;
      readonly answer: number;
      readonly unit: string;
      /** So near counts as known, as a share of the answer. */
      readonly within: number;
      readonly because: string;
    };

/** What is drawn beside a step: cuts through labels, or the ladder with a size marked. */
export type LessonPicture =
  | { readonly is: "cuts"; readonly labels: readonly string[] }
  | { readonly is: "ladder"; readonly marked: string }
  | null;

/** One step of the way: what it tells, what it asks, what the figures rest on. Every figure in it is computed. */
export interface LessonStep {
  readonly id: string;
  readonly title: string;
  /** Paragraphs, read before the question. */
  readonly tells: readonly string[];
  readonly question: LessonQuestion;
  /** Said after the answer: the rule to take along. */
  readonly keep: string;
  readonly picture: LessonPicture;
  readonly rests: readonly string[];
}

/** A figure in a sentence, to three figures where not told otherwise. */
export const figure = (x: number, figures = 3): string => decimalText(x, { figures });

/** A share as whole percent. */
export const percent = (share: number): string => `${decimalText(100 * share, { decimals: 0 })} %`;

/** Names of what a step rests on. */
export const rests = (...citations: readonly Citation[]): readonly string[] => [
  ...new Set(citations.map((c) => (c.edition === "" ? `${c.document}: ${c.clause}` : printCitation(c)))),
];

export const right = (says: string, because: string): LessonChoice => ({ says, right: true, because });
export const wrong = (says: string, because: string): LessonChoice => ({ says, right: false, because });
/** The right one does not always stand first: where it stands follows from the words of the question. */
export function choose(asks: string, ...choices: readonly LessonChoice[]): LessonQuestion {
  const first = asks.length % choices.length;
  return { kind: "choice", asks, choices: [...choices.slice(first), ...choices.slice(0, first)] };
}

/** A size that the lesson speaks of and the tables must have. */
export function known<T>(size: T | null): T {
  if (size === null) throw new Error("the lesson speaks of a size that no table has");
  return size;
}
