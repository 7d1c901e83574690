import type { QuestionText } from "../../size/question-text.ts";
import { recall, remember } from "../settings/small-memory.ts";
import { questionFromJson } from "./question-link.ts";

/** The question on the desk. Whoever asks one elsewhere, on the page of the start or in the ask field, puts it there. */
const listeners = new Set<(question: QuestionText) => void>();

/** The question that was asked last, on this visit or an earlier one; null: none. */
export function lastQuestion(): QuestionText | null {
  const text = recall("question");
  return text === null ? null : questionFromJson(text);
}

/** Remembers what was asked, without telling anybody. */
export const keepQuestion = (question: QuestionText): void => {
  remember("question", JSON.stringify(question));
};

/** Lays a question on the desk; if the desk is open, it changes to it. */
export function layQuestion(question: QuestionText): void {
  keepQuestion(question);
  for (const listener of listeners) listener(question);
}

/** Hears of questions that are laid on the desk from elsewhere; what it returns ends that. */
export function onQuestion(listener: (question: QuestionText) => void): () => void {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
}
