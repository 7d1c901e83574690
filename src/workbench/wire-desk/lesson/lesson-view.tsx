import { useEffect, useRef, useState } from "preact/hooks";
import type { LessonStep } from "../../../wire/lesson/lesson-step.ts";
import { StatusShape } from "../../look/status-shape.tsx";
import { judgeAnswer } from "./judge-answer.ts";
import { isAnswered, stepsToRepeat, type Said } from "./steps-to-repeat.ts";
import "./lesson.css";

/** A step with its pictures drawn. */
export interface DrawnStep extends LessonStep {
  /** SVG of our own pen, each with what it shows. */
  readonly drawn: readonly { readonly svg: string; readonly says: string }[];
}

/** How wire is named, a step at a time: it tells, asks, and only then shows the figure. */
export function LessonView({
  steps,
  onRead,
  onClose,
}: {
  readonly steps: readonly DrawnStep[];
  /** Reads a label on the desk. */
  readonly onRead: (label: string) => void;
  readonly onClose: () => void;
}) {
  const [at, setAt] = useState(0);
  const [said, setSaid] = useState<Readonly<Record<string, Said>>>({});
  const heading = useRef<HTMLHeadingElement>(null);
  const step = steps[at];
  useEffect(() => {
    heading.current?.focus();
  }, [at]);
  if (step === undefined) return null;
  const answered = Object.values(said).filter(({ judged }) => judged.outcome !== "unread");
  const known = answered.filter((one) => one.known).length;
  const go = (by: number) => () => {
    setAt(Math.max(0, Math.min(steps.length - 1, at + by)));
  };
  return (
    <section class="lesson" aria-label="How wire is named">
      <header class="lesson-head">
        <p class="dim">
          How wire is named, step {at + 1} of {steps.length}
          {answered.length > 0 && `; known before it was told: ${known} of ${answered.length}`}
        </p>
        <button type="button" class="link" onClick={onClose}>
          Back to the desk
        </button>
      </header>
      <h3 tabIndex={-1} ref={heading}>
        {step.title}
      </h3>
      {step.tells.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <Ask
        key={step.id}
        step={step}
        said={said[step.id] ?? null}
        onSay={(given) => {
          const judged = judgeAnswer(step.question, given);
          const before = said[step.id];
          const first = before === undefined || before.judged.outcome === "unread";
          setSaid({ ...said, [step.id]: { given, judged, known: first ? judged.outcome === "known" : before.known } });
        }}
      />
      {isAnswered(said[step.id]) && <Told step={step} onRead={onRead} />}
      {at === steps.length - 1 && isAnswered(said[step.id]) && <Again steps={steps} said={said} onStep={setAt} />}
      <nav class="lesson-way" aria-label="Steps">
        <button type="button" class="button" disabled={at === 0} onClick={go(-1)}>
          Before
        </button>
        <button
          type="button"
          class={isAnswered(said[step.id]) ? "button main" : "button"}
          disabled={at === steps.length - 1}
          onClick={go(1)}
        >
          Next
        </button>
      </nav>
    </section>
  );
}

/** At the end of the way: which steps to take once more. */
function Again({
  steps,
  said,
  onStep,
}: {
  readonly steps: readonly DrawnStep[];
  readonly said: Readonly<Record<string, Said>>;
  readonly onStep: (at: number) => void;
}) {
  const again = stepsToRepeat(
    steps.map(({ id }) => id),
    said,
  );
  return (
    <section class="lesson-again" aria-label="To repeat">
      {again.length === 0 ? (
        <p>All of it was known before it was told.</p>
      ) : (
        <>
          <p>Not known before it was told:</p>
          <ul>
            {again.map((at) => (
              <li key={at}>
                <button
                  type="button"
                  class="link"
                  onClick={() => {
                    onStep(at);
                  }}
                >
                  {at + 1} {steps[at]?.title}
                </button>
                {!isAnswered(said[steps[at]?.id ?? ""]) && <span class="dim"> (not answered)</span>}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Ask({
  step,
  said,
  onSay,
}: {
  readonly step: LessonStep;
  readonly said: Said | null;
  readonly onSay: (given: number | string) => void;
}) {
  const { question } = step;
  const [given, setGiven] = useState<number | string>(said?.given ?? "");
  return (
    <form
      class="lesson-ask"
      onSubmit={(event) => {
        event.preventDefault();
        onSay(given);
      }}
    >
      {question.kind === "choice" ? (
        <fieldset>
          <legend>{question.asks}</legend>
          {question.choices.map(({ says }, i) => (
            <label key={says}>
              <input
                type="radio"
                name={step.id}
                checked={given === i}
                onChange={() => {
                  setGiven(i);
                }}
              />
              {says}
            </label>
          ))}
        </fieldset>
      ) : (
        <label class="lesson-number">
          <span>{question.asks}</span>
          <span>
            <input
              class="field"
              inputMode="decimal"
              autocomplete="off"
              size={8}
              value={String(given)}
              onInput={(event) => {
                setGiven(event.currentTarget.value);
              }}
            />{" "}
            {question.unit}
          </span>
        </label>
      )}
      <button type="submit" class="button">
        Answer
      </button>
      <p class={`lesson-said${said === null ? "" : ` lesson-${said.judged.outcome.replace(" ", "-")}`}`} role="status">
        {said !== null && (
          <>
            {said.judged.outcome !== "unread" && (
              <StatusShape status={said.judged.outcome === "known" ? "pass" : "fail"} />
            )}{" "}
            {said.judged.outcome === "known" ? "Known. " : said.judged.outcome === "not yet" ? "Not so. " : ""}
            {said.judged.says}
          </>
        )}
      </p>
    </form>
  );
}

/** What is shown once an answer was given: the rule, the pictures, what the figures rest on. */
function Told({ step, onRead }: { readonly step: DrawnStep; readonly onRead: (label: string) => void }) {
  const labels = step.picture?.is === "cuts" ? step.picture.labels : [];
  return (
    <div class="lesson-told">
      <p class="lesson-keep">{step.keep}</p>
      {step.drawn.length > 0 && (
        <div class="lesson-pictures">
          {step.drawn.map(({ svg, says }) => (
            // Made by our own pen, which escapes every text.
            <figure key={says} role="img" aria-label={says} dangerouslySetInnerHTML={{ __html: svg }} />
          ))}
        </div>
      )}
      {labels.length > 0 && (
        <p class="lesson-labels">
          <span class="dim">Read on the desk:</span>{" "}
          {labels.map((label) => (
            <button
              key={label}
              type="button"
              class="link"
              onClick={() => {
                onRead(label);
              }}
            >
              {label}
            </button>
          ))}
        </p>
      )}
      <p class="dim">Rests on: {step.rests.join("; ")}.</p>
    </div>
  );
}
