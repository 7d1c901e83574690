import type { Judged } from "./judge-answer.ts";

/** What the learner has said to a step. */
export interface Said {
  readonly given: number | string;
  readonly judged: Judged;
  /** The first answer that could be read was right; later ones change nothing in it. */
  readonly known: boolean;
}

/** Whether a step has an answer that could be read. */
export const isAnswered = (said: Said | undefined): boolean => said !== undefined && said.judged.outcome !== "unread";

/**
 * Which steps were not known before they were told: answered otherwise, only later, or not at all.
 *
 * @returns their places, in order
 */
export const stepsToRepeat = (ids: readonly string[], said: Readonly<Record<string, Said>>): readonly number[] =>
  ids.flatMap((id, at) => (said[id]?.known === true ? [] : [at]));
