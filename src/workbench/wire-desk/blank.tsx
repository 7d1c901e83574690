import type { ComponentChildren } from "preact";
import type { QuestionProblem } from "../../size/question.ts";
import { readingsOf } from "./ask-back.ts";
import { blankOf, type Blank, type QuestionForm } from "./question-form.ts";
import "./wire-desk.css";

/** What a blank needs to know to be filled in. */
export interface Filling {
  readonly form: QuestionForm;
  readonly problems: readonly QuestionProblem[];
  readonly onChange: (change: Partial<QuestionForm>) => void;
  /** Before the ids of the fields, so that two sentences may stand on one page. */
  readonly prefix: string;
}

const idOf = (prefix: string, blank: Blank): string => `${prefix}-${blank}`;

const problemsOf = ({ problems }: Filling, blank: Blank): readonly QuestionProblem[] =>
  problems.filter(({ field }) => blankOf(field) === blank);

/** A figure of the sentence that can be typed over. Empty it shows what is assumed instead, with a dashed line. */
export function FigureBlank({
  filling,
  blank,
  label,
  assumed = "",
  after = "",
}: {
  readonly filling: Filling;
  readonly blank: Blank;
  readonly label: string;
  readonly assumed?: string;
  /** A sign that never stands at the start of a line. */
  readonly after?: string;
}) {
  const { form, onChange, prefix } = filling;
  const text = form[blank];
  const id = idOf(prefix, blank);
  const wrong = problemsOf(filling, blank).length > 0;
  const input = (
    <input
      id={id}
      class={`blank desk-blank${text.trim() === "" ? " desk-assumed" : ""}${wrong ? " desk-wrong" : ""}`}
      type="text"
      value={text}
      placeholder={assumed}
      size={Math.min(24, Math.max(3, text.length, text === "" ? assumed.length : 0))}
      maxLength={60}
      aria-label={text === "" && assumed !== "" ? `${label}; empty: ${assumed}` : label}
      aria-invalid={wrong}
      {...(wrong ? { "aria-describedby": `${id}-problems` } : {})}
      autocomplete="off"
      autocapitalize="off"
      spellcheck={false}
      onInput={(event) => {
        onChange({ [blank]: event.currentTarget.value });
      }}
    />
  );
  return <Glued after={after}>{input}</Glued>;
}

/** What must not be parted by the end of a line. */
function Glued({ after, children }: { readonly after: string; readonly children: ComponentChildren }) {
  return (
    <span class="desk-glued">
      {children}
      {after}
    </span>
  );
}

/** A word of the sentence out of a few. */
export function WordBlank<B extends Blank>({
  filling,
  blank,
  label,
  words,
  after = "",
}: {
  readonly filling: Filling;
  readonly blank: B;
  readonly label: string;
  /** Values and what they are called; the empty value stands for what is assumed. */
  readonly words: readonly (readonly [value: QuestionForm[B], says: string])[];
  readonly after?: string;
}) {
  const { form, onChange, prefix } = filling;
  const value: string = form[blank];
  const known = words.some(([one]) => one === value);
  const wrong = problemsOf(filling, blank).length > 0;
  const id = idOf(prefix, blank);
  return (
    <Glued after={after}>
      <select
        id={id}
        class={`blank desk-blank desk-word${value === "" ? " desk-assumed" : ""}${wrong ? " desk-wrong" : ""}`}
        aria-label={label}
        aria-invalid={wrong}
        {...(wrong ? { "aria-describedby": `${id}-problems` } : {})}
        value={value}
        onChange={(event) => {
          const picked = event.currentTarget.value;
          const found = words.find(([one]) => one === picked);
          if (found !== undefined) onChange({ [blank]: found[0] });
        }}
      >
        {!known && <option value={value}>{value}</option>}
        {words.map(([one, says]) => (
          <option key={one} value={one}>
            {says}
          </option>
        ))}
      </select>
    </Glued>
  );
}

/** A line of the sentence, and under it what is wrong with its blanks. */
export function SentenceLine({
  filling,
  blanks,
  children,
}: {
  readonly filling: Filling;
  readonly blanks: readonly Blank[];
  readonly children: ComponentChildren;
}) {
  return (
    <div class="desk-line">
      <div class="desk-words">{children}</div>
      {blanks.map((blank) => (
        <BlankProblems key={blank} filling={filling} blank={blank} />
      ))}
    </div>
  );
}

function BlankProblems({ filling, blank }: { readonly filling: Filling; readonly blank: Blank }) {
  const problems = problemsOf(filling, blank);
  if (problems.length === 0) return null;
  const text = filling.form[blank];
  const readings = readingsOf(blank, text);
  const id = idOf(filling.prefix, blank);
  return (
    <div class="desk-problem" id={`${id}-problems`}>
      {problems.map(({ message, hint }) => (
        <p key={message}>
          {message}
          {readings.length === 0 && hint !== "" && <>; {hint}</>}
        </p>
      ))}
      {readings.length > 0 && (
        <p class="desk-readings">
          {readings.map((reading) => (
            <button
              key={reading}
              type="button"
              class="button"
              onClick={() => {
                filling.onChange({ [blank]: reading });
                document.getElementById(id)?.focus();
              }}
            >
              {reading}
            </button>
          ))}
        </p>
      )}
    </div>
  );
}
