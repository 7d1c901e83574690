import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { ActRequest } from "../../act/index.ts";
import type { Bench, KeyPath } from "../contract.ts";

/** A figure that is being typed over, where it is drawn; px of the drawing. */
export interface OpenFigure {
  readonly about: KeyPath;
  /** `length`, `size`, `load`, `device`; `add-load` at a free way; `insert` in a line. */
  readonly field: string;
  /** As it stands there. */
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

const asks: Readonly<Record<string, readonly [label: string, example: string]>> = {
  length: ["length, one way", "6.1 m"],
  size: ["size; empty: chosen", "2.5 mm²"],
  device: ["fuse or breaker", "10 A"],
  load: ["current or power", "4.3 A"],
  name: ["name", "fridge"],
  "add-load": ["load to add here", "kettle 8 A, 4.2 m"],
  insert: ["device to insert", "fuse, 0.12 m"],
};

/** Typed over on the drawing: Enter makes it one step, Esc leaves it as it was. */
export function FigureField({
  bench,
  figure,
  isFar = false,
  onClose,
}: {
  readonly bench: Bench;
  readonly figure: OpenFigure;
  /** It stands near the right edge, so it grows to the left. */
  readonly isFar?: boolean;
  readonly onClose: (back: boolean) => void;
}) {
  const { field, x, y } = figure;
  const input = useRef<HTMLInputElement>(null);
  const [text, setText] = useState(figure.text);
  const [problem, setProblem] = useState<{ readonly message: string; readonly hint: string } | null>(null);
  const id = useId();
  useEffect(() => {
    input.current?.focus();
    input.current?.select();
  }, [figure.about, figure.field]);
  const gone = useRef(false);
  useEffect(
    () => () => {
      gone.current = true;
    },
    [],
  );
  const [label, example] = asks[field] ?? [field, ""];
  const both = field === "length" ? outAndBack(text) : null;

  const isAsItWas = (): boolean => text.trim() === figure.text && field !== "insert";
  /** @param back whether the focus goes back to the drawing */
  const apply = async (back: boolean): Promise<void> => {
    if (isAsItWas()) {
      onClose(back);
      return;
    }
    const outcome = await bench.act(requestOf(figure, text));
    if (outcome.ok) {
      if (!gone.current) onClose(back);
    } else if (gone.current) bench.say(`${label}: ${outcome.message}; ${outcome.hint}`, "assertive");
    else setProblem(outcome);
  };
  return (
    <form
      class={isFar ? "figure-field figure-field-far" : "figure-field"}
      style={{ left: `${x}px`, top: `${y}px` }}
      onSubmit={(event) => {
        event.preventDefault();
        void apply(true);
      }}
      onClick={(event) => {
        event.stopPropagation();
      }}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key === "Escape") onClose(true);
      }}
    >
      <label class="figure-label" for={id}>
        {label}
      </label>
      <input
        id={id}
        ref={input}
        class="field"
        value={text}
        placeholder={example}
        autocomplete="off"
        spellcheck={false}
        size={field === "add-load" ? 28 : 12}
        aria-invalid={problem !== null}
        aria-describedby={`${id}-says`}
        onInput={(event) => {
          setText(event.currentTarget.value);
          setProblem(null);
        }}
        onBlur={() => {
          // Whoever goes on to something else has said what he wanted; a half-typed load or device is left.
          if (problem !== null || gone.current) return;
          if (isAsItWas() || field === "insert" || field === "add-load") onClose(false);
          else void apply(false);
        }}
      />
      <p id={`${id}-says`} class="figure-says" role={problem === null ? undefined : "alert"}>
        {problem === null
          ? (both ?? "Enter: one step · Esc: as it was")
          : `${problem.message}${problem.hint === "" ? "" : `; ${problem.hint}`}`}
      </p>
    </form>
  );
}

function requestOf({ about, field }: OpenFigure, text: string): ActRequest {
  if (field === "add-load") return { do: "add-load", at: about, text };
  if (field !== "insert") return { do: "set-figure", about, field, text };
  // `fuse 10 A, 0.12 m`: what stands behind the comma is how far along the conductor.
  const [what = "", distance] = text.split(/,\s+(?=\d)/);
  return { do: "insert-device", circuit: about, text: what, ...(distance === undefined ? {} : { distance }) };
}

/** Both ways of counting a run, while it is typed. */
function outAndBack(text: string): string | null {
  const read = /^\s*(\d+(?:[.,]\d+)?)\s*(m|ft)\s*$/.exec(text);
  if (read === null) return null;
  const [, figure = "", unit = ""] = read;
  const twice = String(Math.round(200 * Number(figure.replace(",", "."))) / 100);
  return `${figure} ${unit} one way, ${figure.includes(",") ? twice.replace(".", ",") : twice} ${unit} out and back`;
}
