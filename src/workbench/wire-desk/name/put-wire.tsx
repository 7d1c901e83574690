import { useEffect, useId, useState } from "preact/hooks";
import type { Bench } from "../../contract.ts";
import { useBench } from "../../use-bench.ts";

/** Writes the exact label into a circuit of the plan that is open: its `wire`, or its `cable` where the name is one of several conductors. */
export function PutWire({
  bench,
  field,
  label,
}: {
  readonly bench: Bench;
  readonly field: "wire" | "cable";
  readonly label: string;
}) {
  const { open, plan, readOnly, selection } = useBench(bench);
  const [chosen, setChosen] = useState<string | null>(null);
  const [said, setSaid] = useState({ text: "", done: false });
  const id = useId();
  // What was said was said of another name.
  useEffect(() => {
    setSaid({ text: "", done: false });
  }, [field, label]);
  useEffect(() => {
    setChosen(null);
  }, [selection]);
  if (!open || plan === null) return <p class="dim">No plan is open: open one to put this wire in a circuit of it.</p>;
  if (readOnly) return <p class="dim">This plan is open in another tab; here it is read only.</p>;
  const circuits = plan.things.filter(({ what }) => what === "circuit");
  const selected = circuits.find(({ about }) => about === (chosen ?? selection));
  const [first] = circuits;
  if (first === undefined) return <p class="dim">The plan has no circuit yet.</p>;
  const put = async (about: string, name: string): Promise<void> => {
    const outcome = await bench.act({ do: "set-figure", about, field, text: label });
    setSaid(
      outcome.ok
        ? { text: `${name}: ${field} is now ${label}. Undo takes it back.`, done: true }
        : { text: [outcome.message, outcome.hint].filter((words) => words !== "").join("; "), done: false },
    );
  };
  return (
    <form
      class="desk-put"
      onSubmit={(event) => {
        event.preventDefault();
        if (selected !== undefined) void put(selected.about, selected.id);
      }}
    >
      <label for={id}>
        {field} of the circuit
        <select
          id={id}
          class="field"
          value={selected?.about ?? ""}
          onChange={(event) => {
            setChosen(event.currentTarget.value);
          }}
        >
          {selected === undefined && <option value="">choose a circuit</option>}
          {circuits.map(({ about, id: name, says }) => (
            <option key={about} value={about}>
              {name}, {says}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" class="button main" aria-disabled={selected === undefined}>
        Put it in the plan
      </button>
      <p class="desk-said" role="status">
        {said.text}
        {said.done && (
          <>
            {" "}
            <button
              type="button"
              class="link"
              onClick={() => {
                bench.go("one-line");
              }}
            >
              See it on the one-line
            </button>
          </>
        )}
      </p>
    </form>
  );
}
