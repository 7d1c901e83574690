import { useState } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import type { StateAtAnswer } from "../worker/position-answers.ts";
import { listed } from "./signs-of.ts";

/** Writes the positions into the plan as a state of it. */
export function WriteState({ bench, written }: { readonly bench: Bench; readonly written: StateAtAnswer["written"] }) {
  const { plan, readOnly } = useBench(bench);
  const [name, setName] = useState("");
  const [says, setSays] = useState<string | null>(null);
  const key = name.trim();
  const write = async (): Promise<void> => {
    if (key === "") {
      setSays("A state needs a name: `alongside`.");
      return;
    }
    if (plan?.states.some(({ id }) => id.toLowerCase() === key.toLowerCase()) === true) {
      setSays(`There is a state of that name: ${key}.`);
      return;
    }
    const outcome = await bench.act({
      do: "apply-edits",
      edits: [{ do: "add", path: ["states"], key, value: { entries: written.entries } }],
      step: `state ${key} added`,
      select: `states.${key}`,
    });
    setSays(outcome.ok ? `${key} is in the plan.` : [outcome.message, outcome.hint].filter((w) => w !== "").join("; "));
    if (outcome.ok) {
      setName("");
      bench.setState(key);
    }
  };
  if (readOnly) return null;
  return (
    <form
      class="states-write"
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      <label>
        Write it into the plan as{" "}
        <input
          class="field"
          value={name}
          maxLength={60}
          onInput={(event) => {
            setName(event.currentTarget.value);
          }}
        />
      </label>
      <button type="submit" class="button">
        Write the state
      </button>
      {written.unsaid.length === 0 ? null : (
        <p class="dim">
          A state of a plan has no words for {listed(written.unsaid)}: it leaves them as they usually stand.
        </p>
      )}
      {says === null ? null : <p role="status">{says}</p>}
    </form>
  );
}
