import { useId, useState } from "preact/hooks";
import type { NewPlanAnswers } from "../../act/index.ts";
import { ruleSetWords } from "../wire-desk/sentence.tsx";
import { countries, proposeRules } from "./lay-out.ts";

/** A few answers, one of which is tapped; arrows walk among them. */
export function Chips<T extends string>({
  all,
  says,
  onPick,
}: {
  readonly all: readonly T[];
  readonly says: (one: T) => string;
  readonly onPick: (one: T) => void;
}) {
  const walk = (event: KeyboardEvent): void => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    const { currentTarget, target } = event;
    if (step === undefined || !(currentTarget instanceof HTMLElement)) return;
    event.preventDefault();
    const chips = [...currentTarget.querySelectorAll("button")];
    const at = chips.findIndex((chip) => chip === target);
    chips[(at + step + chips.length) % chips.length]?.focus();
  };
  return (
    <div class="start-chips" role="group" aria-label="answers" onKeyDown={walk}>
      {all.map((one, i) => (
        <button
          key={one}
          type="button"
          class="button start-chip"
          {...(i === 0 ? { "data-first": true } : {})}
          onClick={() => {
            onPick(one);
          }}
        >
          {says(one)}
        </button>
      ))}
    </div>
  );
}

/** An answer in one line of plain words; Enter gives it. */
export function SentenceQuestion({
  label,
  value,
  hint,
  deed,
  fault = "",
  onAnswer,
}: {
  readonly label: string;
  readonly value: string;
  readonly hint: string;
  readonly deed: string;
  readonly fault?: string;
  readonly onAnswer: (text: string) => void;
}) {
  const [text, setText] = useState(value);
  const id = useId();
  return (
    <form
      class="start-form"
      onSubmit={(event) => {
        event.preventDefault();
        onAnswer(text);
      }}
    >
      <input
        class="field"
        type="text"
        data-first
        aria-label={label}
        aria-describedby={`${id}-hint`}
        aria-invalid={fault !== ""}
        value={text}
        maxLength={200}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        onInput={(event) => {
          setText(event.currentTarget.value);
        }}
      />
      <p id={`${id}-hint`} class="dim">
        {hint} Left empty it stays open.
      </p>
      {fault !== "" && (
        <p class="start-fault" role="alert">
          {fault}
        </p>
      )}
      <div>
        <button type="submit" class="button main">
          {deed}
        </button>
      </div>
    </form>
  );
}

/** Rules by the country, to be kept or changed. */
export function RulesQuestion({
  what,
  country,
  onCountry,
  onAnswer,
}: {
  readonly what: NewPlanAnswers["what"];
  readonly country: string | null;
  readonly onCountry: (country: string | null) => void;
  readonly onAnswer: (rules: string) => void;
}) {
  const proposed = proposeRules(what, country);
  const [other, setOther] = useState<string | null>(null);
  const rules = other ?? proposed;
  return (
    <form
      class="start-form"
      onSubmit={(event) => {
        event.preventDefault();
        onAnswer(rules);
      }}
    >
      <label class="start-pair">
        <span>Country</span>
        <select
          class="field"
          value={country ?? ""}
          onChange={(event) => {
            const { value } = event.currentTarget;
            onCountry(value === "" ? null : value);
            setOther(null);
          }}
        >
          <option value="">another one</option>
          {countries.map(({ code, name }) => (
            <option key={code} value={code}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label class="start-pair">
        <span>Rules</span>
        <select
          class="field"
          value={rules}
          onChange={(event) => {
            setOther(event.currentTarget.value);
          }}
        >
          {ruleSetWords.map(([id, name]) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <div>
        <button type="submit" class="button main" data-first>
          {rules === proposed ? "Keep these rules" : "Take these rules"}
        </button>
      </div>
    </form>
  );
}
