import { decimalText } from "../../../quantity/decimal-text.ts";
import type { LessonQuestion } from "../../../wire/lesson/lesson-step.ts";

/** What came of an answer; `unread`: it is no number. */
export interface Judged {
  readonly outcome: "known" | "not yet" | "unread";
  readonly says: string;
}

/** A number as people type it: a comma or a point, a unit behind it or none. */
const NUMBER = /^\s*(\d{1,6}(?:[.,]\d{1,6})?)\s*(?:mm²|mm2|mm|%|percent)?\s*$/u;

/**
 * Judges what the learner says to a question, before anything is told.
 *
 * @param given index of a choice, or the text of a number
 * @example
 * judgeAnswer({ kind: "number", asks: "", answer: 10, unit: "mm²", within: 0.05, because: "Twice." }, "9").says //=> "9 mm² is 10 % below. Twice."
 */
export function judgeAnswer(question: LessonQuestion, given: number | string): Judged {
  if (question.kind === "choice") {
    const choice = typeof given === "number" ? question.choices[given] : undefined;
    if (choice === undefined) return { outcome: "unread", says: "Choose one first." };
    return { outcome: choice.right ? "known" : "not yet", says: choice.because };
  }
  const written = NUMBER.exec(String(given))?.[1];
  if (written === undefined)
    return { outcome: "unread", says: `A number in ${question.unit} is wanted here, as in 12 or 2.5.` };
  const value = Number(written.replace(",", "."));
  const off = value / question.answer - 1;
  const near = Math.abs(off) <= question.within;
  const share = decimalText(100 * Math.abs(off), { decimals: 0 });
  const measured = share === "0" ? "is it" : `is ${share} % ${off < 0 ? "below" : "above"}`;
  return {
    outcome: near ? "known" : "not yet",
    says: `${written} ${question.unit} ${measured}${near && share !== "0" ? ", near enough" : ""}. ${question.because}`,
  };
}
