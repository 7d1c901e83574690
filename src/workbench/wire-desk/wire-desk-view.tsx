import { useEffect, useState } from "preact/hooks";
import type { QuestionText } from "../../size/question-text.ts";
import type { Bench, Units } from "../contract.ts";
import { unitsSay } from "../settings/units-menu.tsx";
import { useBench } from "../use-bench.ts";
import { AnswerCard } from "./answer-card.tsx";
import { dropLimitSays } from "./answer-says.ts";
import { keepQuestion, lastQuestion, onQuestion } from "./last-question.ts";
import { PutInPlan } from "./put-in-plan.tsx";
import { formOf, questionOf, sampleQuestions, type Blank, type QuestionForm } from "./question-form.ts";
import { questionFromHash, questionToHash } from "./question-link.ts";
import { RestsOn } from "./rests-on.tsx";
import { Sentence } from "./sentence.tsx";
import { useAnswer } from "./use-answer.ts";
import { WhyLadder } from "./why-ladder.tsx";
import { LessonDesk } from "./name/lesson-desk.tsx";
import { layName } from "./name/last-name.ts";
import { NameDesk } from "./name/name-desk.tsx";
import "./wire-desk.css";

const PREFIX = "desk";

/** The question to begin with: that of the address, else the last one, else a sample. */
function firstForm(units: Units): QuestionForm {
  const [sample] = sampleQuestions(units);
  return formOf(questionFromHash(location.hash) ?? lastQuestion() ?? sample ?? { load: "" });
}

/**
 * Questions without a plan. Which wire for this load? The sentence's blanks are fields, and the answer follows each of them. What does this name mean? The
 * reading follows each letter, with all that is known of the wire.
 */
export function WireDeskView({ bench }: { readonly bench: Bench }) {
  const { units } = useBench(bench);
  const [form, setForm] = useState(() => firstForm(units));
  const [why, setWhy] = useState(false);
  const [isTaught, setTaught] = useState(false);
  const question = questionOf(form, units);
  const asked = useAnswer(bench, question);
  const { answer } = asked;

  useEffect(() => {
    keepQuestion(question);
  }, [JSON.stringify(question)]);
  useEffect(() => {
    const lay = (laid: QuestionText): void => {
      setForm(formOf(laid));
    };
    const fromAddress = (): void => {
      const found = questionFromHash(location.hash);
      if (found !== null) lay(found);
    };
    addEventListener("hashchange", fromAddress);
    const end = onQuestion(lay);
    return () => {
      removeEventListener("hashchange", fromAddress);
      end();
    };
  }, []);

  const filling = {
    form,
    problems: asked.problems,
    prefix: PREFIX,
    onChange: (change: Partial<QuestionForm>): void => {
      setForm((before) => ({ ...before, ...change }));
    },
  };
  return (
    <main class="desk" aria-label="Wire desk">
      <nav class="desk-jump" aria-label="On this desk">
        {jumps.map((name) => (
          <button
            key={name}
            type="button"
            class="link"
            onClick={() => {
              jumpTo(name);
            }}
          >
            {name}
          </button>
        ))}
      </nav>
      <div class="desk-ask">
        {isTaught ? (
          <LessonDesk
            bench={bench}
            onRead={(text) => {
              layName({ text, context: null });
            }}
            onClose={() => {
              setTaught(false);
            }}
          />
        ) : (
          <>
            <div class="desk-left">
              <header class="desk-head">
                <h2>Which wire for this load?</h2>
                <p class="dim">
                  Nothing here changes a plan until you put it there. Figures: {unitsSay(units)}. Empty blanks are
                  assumed, and listed.
                </p>
              </header>
              <StockSwitch form={form} units={units} onChange={filling.onChange} />
              <Sentence
                filling={filling}
                units={units}
                dropLimit={answer === null ? "…" : dropLimitSays(answer, units)}
              />
              <Samples
                units={units}
                onPick={(sample) => {
                  setForm(formOf(sample));
                }}
              />
              <p>
                <a class="link" href={`#${questionToHash(question)}`}>
                  Link to this question
                </a>
              </p>
            </div>
            <div class="desk-right">
              <section class="desk-card" aria-label="Answer" aria-busy={asked.working}>
                <AnswerCard asked={asked} units={units}>
                  {answer !== null && (
                    <div class="desk-deeds">
                      <button
                        type="button"
                        class="button"
                        aria-expanded={why}
                        onClick={() => {
                          setWhy(!why);
                        }}
                      >
                        {why ? "Hide why" : "Why"}
                      </button>
                      {answer.size !== null && <LookAtIt label={answer.size.label} />}
                      {asked.problems.length === 0 && asked.broken === null && (
                        <PutInPlan bench={bench} question={question} answer={answer} />
                      )}
                    </div>
                  )}
                </AnswerCard>
                {why && answer !== null && <WhyLadder answer={answer} units={units} />}
              </section>
              {answer !== null && <RestsOn answer={answer} units={units} onBlank={focusBlank} />}
            </div>
          </>
        )}
      </div>
      <NameDesk
        bench={bench}
        answered={answer?.size?.label ?? null}
        isTaught={isTaught}
        onTeach={() => {
          setTaught(true);
        }}
      />
    </main>
  );
}

/** Reads the size of the answer as a name: the wire drawn, named and converted. */
function LookAtIt({ label }: { readonly label: string }) {
  return (
    <button
      type="button"
      class="button"
      onClick={() => {
        layName({ text: label, context: null });
      }}
    >
      Look at {label}
    </button>
  );
}

/** Regions that lie far below where there is one column. */
const jumps = ["What does this name mean?", "Size ladder", "Cut through"] as const;

/** To a region, or to the field that it follows from while it is not there. */
function jumpTo(name: (typeof jumps)[number]): void {
  const region = document.querySelector<HTMLElement>(`.desk section[aria-label="${name}"]`);
  const to = name === jumps[0] ? null : region;
  to?.scrollIntoView();
  if (to !== null) to.tabIndex = -1;
  (to ?? document.getElementById("name-text"))?.focus({ preventScroll: to !== null });
}

function focusBlank(blank: Blank): void {
  document.getElementById(`${PREFIX}-${blank}`)?.focus();
}

/** By which system wire is bought: it changes what there is to choose from. */
function StockSwitch({
  form,
  units,
  onChange,
}: {
  readonly form: QuestionForm;
  readonly units: Units;
  readonly onChange: (change: Partial<QuestionForm>) => void;
}) {
  const usual = form.rules.startsWith("us-") || units.sizes === "AWG" ? "AWG" : "mm²";
  const now = form.stock.trim() === "" ? usual : form.stock;
  return (
    <div class="desk-switch" role="group" aria-label="Sizes to choose from">
      <span class="dim">Sizes</span>
      {(["mm²", "AWG"] as const).map((system) => (
        <button
          key={system}
          type="button"
          class="button"
          aria-pressed={now === system}
          onClick={() => {
            onChange({ stock: system });
          }}
        >
          {system}
        </button>
      ))}
    </div>
  );
}

function Samples({ units, onPick }: { readonly units: Units; readonly onPick: (question: QuestionText) => void }) {
  const names = ["lamp or charger", "fridge that starts", "long lighting run", "in the engine space"];
  return (
    <div class="desk-samples" role="group" aria-label="Samples to begin with">
      <span class="dim">Begin with</span>
      {sampleQuestions(units).map((question, i) => (
        <button
          key={names[i]}
          type="button"
          class="link"
          onClick={() => {
            onPick(question);
          }}
        >
          {names[i]}
        </button>
      ))}
    </div>
  );
}
