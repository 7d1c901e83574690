import { useState } from "preact/hooks";
import type { Bench } from "../contract.ts";

/** A plan without parts begins with what everything is fed from. */
export function FirstSource({ bench }: { readonly bench: Bench }) {
  const [problem, setProblem] = useState("");
  const begin = async (battery: string): Promise<void> => {
    const outcome = await bench.act({ do: "new-plan", answers: { what: "boat", battery } });
    setProblem(outcome.ok ? "" : [outcome.message, outcome.hint].filter((words) => words !== "").join("; "));
  };
  return (
    <div class="sheet-empty">
      <h2>Name a source to begin</h2>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const field = event.currentTarget.elements.namedItem("battery");
          if (field instanceof HTMLInputElement) void begin(field.value);
        }}
      >
        <p>
          <label>
            Battery: chemistry, volts and amp-hours, as on its label
            <br />
            <input
              class="field"
              name="battery"
              placeholder="LiFePO4 12 V 200 Ah"
              size={32}
              autocomplete="off"
              aria-invalid={problem !== ""}
            />
          </label>{" "}
          <button type="submit" class="button main">
            Begin
          </button>
        </p>
        <p role="alert">{problem}</p>
      </form>
      <p>
        <button
          type="button"
          class="link"
          onClick={() => {
            bench.go("text");
          }}
        >
          Write it in the text instead
        </button>{" "}
        <button
          type="button"
          class="link"
          onClick={() => {
            bench.go("start");
          }}
        >
          Begin with six questions
        </button>
      </p>
    </div>
  );
}
