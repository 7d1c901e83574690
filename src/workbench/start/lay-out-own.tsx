import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import { Chips, RulesQuestion, SentenceQuestion } from "./question-fields.tsx";
import {
  countryOf,
  examplesFor,
  newPlanOf,
  nextQuestion,
  questions,
  type Answers,
  type QuestionId,
} from "./lay-out.ts";

const asks: Readonly<Record<QuestionId, string>> = {
  what: "What is it?",
  there: "What is there already?",
  battery: "Which battery?",
  shore: "Power from the shore or the grid?",
  rules: "Which rules?",
  load: "What is the first load?",
};

/** Six plain questions one after the other, then a plan with its first circuit. */
export function LayOutOwn({ bench }: { readonly bench: Bench }) {
  const { units } = useBench(bench);
  const [answers, setAnswers] = useState<Answers>({});
  const [done, setDone] = useState<readonly QuestionId[]>([]);
  const [country, setCountry] = useState(() => countryOf(navigator.language));
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState("");
  const body = useRef<HTMLDivElement>(null);
  const now = nextQuestion(done) ?? "load";
  const examples = examplesFor(answers.what, units.lengths === "ft");

  // Whoever has answered one question stands in the next.
  useLayoutEffect(() => {
    if (done.length === 0) return;
    const first = body.current?.querySelector<HTMLElement>("[data-first]");
    first?.focus();
    if (first instanceof HTMLInputElement) first.select();
  }, [now, done.length]);

  const lay = async (all: Answers): Promise<void> => {
    setBusy(true);
    setFault("");
    const outcome = await bench.newPlan(newPlanOf(all));
    setBusy(false);
    if (!outcome.ok) setFault([outcome.message, outcome.hint].filter((words) => words !== "").join("; "));
  };
  const answer = (question: QuestionId, said: Answers): void => {
    const all = { ...answers, ...said };
    setAnswers(all);
    setFault("");
    const through = [...done.filter((one) => one !== question), question];
    if (nextQuestion(through) === null) void lay(all);
    else setDone(through);
  };
  const back = (question: QuestionId): void => {
    setFault("");
    setDone(done.filter((one) => questions.indexOf(one) < questions.indexOf(question)));
  };

  return (
    <>
      {done.length > 0 && <Answered done={done} answers={answers} country={country} onBack={back} />}
      <div
        class="start-question"
        ref={body}
        role="group"
        aria-label={`Question ${questions.indexOf(now) + 1} of ${questions.length}: ${asks[now]}`}
      >
        <h3>
          {asks[now]}{" "}
          <span class="dim start-count">
            {questions.indexOf(now) + 1} of {questions.length}
          </span>
        </h3>
        {now === "what" && (
          <Chips
            all={["boat", "van", "cabin"]}
            says={(what) => what}
            onPick={(what) => {
              answer("what", { what });
            }}
          />
        )}
        {now === "there" && (
          <Chips
            all={["nothing", "old wiring"]}
            says={(there) => (there === "nothing" ? "nothing yet" : "old wiring to check")}
            onPick={(there) => {
              answer("there", { there });
            }}
          />
        )}
        {now === "battery" && (
          <SentenceQuestion
            key="battery"
            label="battery: chemistry, volts, amp-hours"
            value={answers.battery ?? examples.battery}
            hint="Chemistry, volts and amp-hours, as on its label. Type over it."
            deed="Next question"
            onAnswer={(battery) => {
              answer("battery", { battery });
            }}
          />
        )}
        {now === "shore" && (
          <Chips
            all={["none", "230 V", "120 V"]}
            says={(shore) => shore}
            onPick={(shore) => {
              answer("shore", { shore });
            }}
          />
        )}
        {now === "rules" && (
          <RulesQuestion
            what={answers.what ?? "boat"}
            country={country}
            onCountry={setCountry}
            onAnswer={(rules) => {
              answer("rules", { rules, ...(country === null ? {} : { country }) });
            }}
          />
        )}
        {now === "load" && (
          <SentenceQuestion
            key="load"
            label="first load: name, watts or amps, start, length one way"
            value={answers.load ?? examples.load}
            hint="Name, watts or amps, what it takes to start, and how far it is away, one way."
            deed={busy ? "Laying out …" : "Lay it out"}
            fault={fault}
            onAnswer={(load) => {
              if (!busy) answer("load", { load });
            }}
          />
        )}
      </div>
      <div class="start-deeds">
        <button
          type="button"
          class="link"
          onClick={() => {
            void lay(answers);
          }}
        >
          {done.length === 0 ? "Skip, empty sheet" : "Skip the rest"}
        </button>
        {fault !== "" && now !== "load" && (
          <p class="start-fault" role="alert">
            {fault}
          </p>
        )}
      </div>
    </>
  );
}

/** What was answered, each to be taken back. */
function Answered({
  done,
  answers,
  country,
  onBack,
}: {
  readonly done: readonly QuestionId[];
  readonly answers: Answers;
  readonly country: string | null;
  readonly onBack: (question: QuestionId) => void;
}) {
  const said = (question: QuestionId): string => {
    const text = answers[question] ?? "left open";
    if (question === "there") return text === "nothing" ? "nothing there yet" : "old wiring";
    if (question === "shore") return text === "none" ? "no shore" : `shore ${text}`;
    return question === "rules" && country !== null ? `${country}, ${text}` : text;
  };
  return (
    <ul class="start-answered" aria-label="Answered">
      {questions
        .filter((question) => done.includes(question))
        .map((question) => (
          <li key={question}>
            <button
              type="button"
              class="link"
              aria-label={`change: ${said(question)}`}
              onClick={() => {
                onBack(question);
              }}
            >
              {said(question)}
            </button>
          </li>
        ))}
    </ul>
  );
}
