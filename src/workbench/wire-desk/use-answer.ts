import { useEffect, useRef, useState } from "preact/hooks";
import type { Answer } from "../../size/answer.ts";
import type { QuestionProblem } from "../../size/question.ts";
import type { QuestionText } from "../../size/question-text.ts";
import type { Bench } from "../contract.ts";

/** What has come of a question so far. */
export interface Asked {
  /** The last answer there was; null: none yet. */
  readonly answer: Answer | null;
  /** It is the answer to the question as it stands now. */
  readonly fresh: boolean;
  readonly problems: readonly QuestionProblem[];
  /** No answer for longer than a blink. */
  readonly working: boolean;
  /** The worker broke on this question: what it said. */
  readonly broken: string | null;
}

/** Figures that are older than this, in ms, are not shown as fresh. */
const LATE = 100;

const nothingYet: Asked = { answer: null, fresh: false, problems: [], working: false, broken: null };

/** Asks a question, and again with each change of it. Nothing waits for typing to end; what comes late is dropped. */
export function useAnswer(bench: Bench, question: QuestionText): Asked {
  const [asked, setAsked] = useState<Asked>(nothingYet);
  const latest = useRef(0);
  const key = JSON.stringify(question);
  useEffect(() => {
    const mine = ++latest.current;
    const isLatest = (): boolean => latest.current === mine;
    setAsked((before) => ({ ...before, fresh: false }));
    const late = setTimeout(() => {
      if (isLatest()) setAsked((before) => ({ ...before, working: true }));
    }, LATE);
    bench.size(question).then(
      (sized) => {
        if (!isLatest() || sized === null) return;
        clearTimeout(late);
        setAsked((before) =>
          sized.ok
            ? { answer: sized.answer, fresh: true, problems: [], working: false, broken: null }
            : { ...before, fresh: false, problems: sized.problems, working: false, broken: null },
        );
      },
      (error: unknown) => {
        if (!isLatest()) return;
        clearTimeout(late);
        const says = error instanceof Error ? error.message : String(error);
        setAsked((before) => ({ ...before, fresh: false, problems: [], working: false, broken: says }));
      },
    );
    return () => {
      clearTimeout(late);
      latest.current++;
    };
    // The question is told by its text: a new object with the same words asks nothing new.
  }, [bench, key]);
  return asked;
}
