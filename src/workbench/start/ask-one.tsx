import { useEffect, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import { Headline, Spoken } from "../wire-desk/answer-card.tsx";
import { constraintWords, dropSays } from "../wire-desk/answer-says.ts";
import { FigureBlank, SentenceLine, WordBlank } from "../wire-desk/blank.tsx";
import { lastQuestion, layQuestion } from "../wire-desk/last-question.ts";
import { formOf, questionOf, restSays, sampleQuestions, ways, type QuestionForm } from "../wire-desk/question-form.ts";
import { useAnswer } from "../wire-desk/use-answer.ts";
import { printAmps } from "../look/print-in-units.ts";
import { Card } from "./card.tsx";

/** One question, answered while it is typed. */
export function AskOne({ bench }: { readonly bench: Bench }) {
  const { units } = useBench(bench);
  const samples = sampleQuestions(units);
  const [form, setForm] = useState<QuestionForm>(() => formOf(lastQuestion() ?? samples[0] ?? { load: "" }));
  const [sample, setSample] = useState(0);
  // Feet are put into the sample while nobody has changed it.
  const [touched, setTouched] = useState(() => lastQuestion() !== null);
  useEffect(() => {
    const [first] = sampleQuestions(units);
    if (!touched && first !== undefined) setForm(formOf(first));
  }, [units.lengths]);
  const question = questionOf(form, units);
  const asked = useAnswer(bench, question);
  const { answer, problems, broken, working } = asked;
  const filling = {
    form,
    problems,
    prefix: "start-ask",
    onChange: (change: Partial<QuestionForm>): void => {
      setTouched(true);
      setForm((before) => ({ ...before, ...change }));
    },
  };
  const rest = restSays(form);
  const open = (): void => {
    layQuestion(question);
    bench.go("wire-desk");
  };
  return (
    <Card number={1} title="Ask one question" says="No plan needed. The answer comes with its reason.">
      <div class="desk-sentence">
        <SentenceLine filling={filling} blanks={["load", "volts", "length"]}>
          Which wire for <FigureBlank filling={filling} blank="load" label="load, amps or watts" assumed="W or A" /> at{" "}
          <FigureBlank filling={filling} blank="volts" label="nominal volts" assumed="12 V" after="," />{" "}
          <FigureBlank filling={filling} blank="length" label="length of the run" assumed="m or ft" /> away,{" "}
          <WordBlank
            filling={filling}
            blank="way"
            label="how the length is meant"
            words={ways.map((w) => [w, w])}
            after="?"
          />
        </SentenceLine>
        {rest !== "" && <p class="dim start-rest">As asked before: {rest}.</p>}
      </div>
      <div class={`start-answer${problems.length > 0 || working ? " desk-stale" : ""}`}>
        {broken !== null ? (
          <p>The desk broke on this question: {broken}. Change a blank to ask again.</p>
        ) : answer === null ? (
          <p class="dim">{problems.length > 0 ? "" : "working …"}</p>
        ) : (
          <>
            <Headline answer={answer} units={units} before={problems.length > 0} />
            {answer.outcome === "chosen" && (
              <p class="dim">
                loses {dropSays(answer, units)}
                {answer.deciding !== null && <> · decided by {constraintWords[answer.deciding]}</>}
                {answer.device !== null && answer.device.most !== null && (
                  <> · fuse of {printAmps(answer.device.most, units)} at most</>
                )}
              </p>
            )}
          </>
        )}
      </div>
      <Spoken asked={asked} units={units} />
      <div class="start-deeds">
        <button type="button" class="button main" onClick={open}>
          Open the wire desk
        </button>
        <button
          type="button"
          class="link"
          onClick={() => {
            const next = (sample + 1) % samples.length;
            const other = samples[next];
            if (other === undefined) return;
            setSample(next);
            filling.onChange(formOf(other));
          }}
        >
          Another question
        </button>
      </div>
    </Card>
  );
}
