import { useEffect, useId, useMemo, useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { splicesBetween } from "../keep/splices-between.ts";
import { useBench } from "../use-bench.ts";
import { lineOfThing } from "./line-of-thing.ts";
import { changeInWords } from "./change-in-words.ts";
import "./text.css";

/** The foot of the page: the very line of text that the selection stands for, to be read and typed in. */
export function PlanLine({ bench }: { readonly bench: Bench }) {
  const { text, plan, selection, readOnly, said } = useBench(bench);
  const id = useId();
  const [isOut, setOut] = useState(false);
  const thing = selection === null ? undefined : plan?.things.find((t) => t.about === selection);
  const line = useMemo(() => (thing === undefined ? null : lineOfThing(text, thing)), [text, thing]);
  const words = line?.text.trimStart() ?? "";
  /** What is being typed, and the line that it is typed over; the blanks before it stay. */
  const [draft, setDraft] = useState<{ readonly of: string; readonly now: string } | null>(null);
  useEffect(() => {
    setDraft(null);
  }, [selection]);

  const apply = (): void => {
    if (draft === null || line === null) return;
    setDraft(null);
    if (draft.now === draft.of) return;
    if (words !== draft.of) {
      bench.say("the line changed meanwhile: it was left as it is", "assertive");
      return;
    }
    const now = draft.now.replace(/[\r\n]+/g, " ");
    const start = line.end - words.length;
    const step = `${thing?.id ?? "line"}: ${changeInWords(words, now)}`;
    const splices = splicesBetween(words, now).map((s) => ({ ...s, start: s.start + start, end: s.end + start }));
    bench.typed(splices, step);
    bench.say(step);
  };

  return (
    <footer class={`plan-line${isOut ? " plan-line-out" : ""}`} aria-label="Plan line">
      <button
        type="button"
        class="link plan-line-show"
        aria-expanded={isOut}
        onClick={() => {
          setOut(!isOut);
        }}
      >
        text
      </button>
      {line === null ? (
        <p class="plan-line-field dim">
          {selection === null
            ? "Select a wire or a part: its line of the plan stands here."
            : "This has no line of its own in the plan."}
        </p>
      ) : (
        <>
          <label class="plan-line-label" for={id}>
            Plan, line {line.number}
          </label>
          <input
            id={id}
            class="plan-line-field"
            value={draft?.now ?? words}
            readOnly={readOnly}
            spellcheck={false}
            autocomplete="off"
            autocapitalize="off"
            onFocus={() => {
              setDraft(draft ?? { of: words, now: words });
            }}
            onInput={(event) => {
              setDraft({ of: draft?.of ?? words, now: event.currentTarget.value });
            }}
            onKeyDown={(event) => {
              if (event.isComposing) return;
              if (event.key === "Enter") apply();
              else if (event.key === "Escape") setDraft({ of: words, now: words });
              else return;
              event.preventDefault();
              event.stopPropagation();
            }}
            onBlur={apply}
          />
        </>
      )}
      {draft !== null && line !== null && draft.now !== draft.of ? (
        <span class="plan-line-hint">Enter applies, Esc restores</span>
      ) : null}
      <p class="plan-line-said" title={said.text}>
        {said.text}
      </p>
    </footer>
  );
}
