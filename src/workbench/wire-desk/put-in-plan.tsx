import { useEffect, useId, useState } from "preact/hooks";
import type { FreePlace } from "../../act/index.ts";
import type { Answer } from "../../size/answer.ts";
import type { QuestionText } from "../../size/question-text.ts";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";

/** `way 3 of nav panel`, `positive bus bar`. */
const placeSays = ({ name, way }: FreePlace): string => (way === null ? name : `way ${way} of ${name}`);

/** Makes a load of the question, at a way or bar of the plan that is open. */
export function PutInPlan({
  bench,
  question,
  answer,
}: {
  readonly bench: Bench;
  readonly question: QuestionText;
  readonly answer: Answer;
}) {
  const { open, plan, readOnly } = useBench(bench);
  const [at, setAt] = useState<string | null>(null);
  const [name, setName] = useState("");
  const [pins, setPins] = useState(false);
  const [said, setSaid] = useState("");
  const id = useId();
  // What was said was said of an earlier question.
  const key = JSON.stringify(question);
  useEffect(() => {
    setSaid("");
  }, [key]);
  if (!open || plan === null) {
    return <p class="dim">No plan is open: nothing is changed by what you ask here.</p>;
  }
  if (readOnly) return <p class="dim">This plan is open in another tab; here it is read only.</p>;
  // The desk answers for direct current.
  const dcPlaces = plan.freePlaces.filter(({ current }) => current === "DC");
  const first = dcPlaces.find(({ way }) => way !== null) ?? dcPlaces[0];
  if (first === undefined) {
    return <p class="dim">The plan has no panel, bar or battery that a load could be put at.</p>;
  }
  const place = dcPlaces.find((p) => p.at === at) ?? first;
  const size = answer.size?.label;
  const put = async (): Promise<void> => {
    setSaid("");
    const outcome = await bench.act({
      do: "put-question-in-plan",
      question,
      at: place.at,
      ...(name.trim() === "" ? {} : { name: name.trim() }),
      ...(pins && size !== undefined ? { wire: size } : {}),
    });
    setSaid(outcome.ok ? `Put at ${placeSays(place)}. Undo takes it back.` : `${outcome.message}; ${outcome.hint}`);
  };
  return (
    <form
      class="desk-put"
      onSubmit={(event) => {
        event.preventDefault();
        void put();
      }}
    >
      <label for={`${id}-name`}>
        called
        <input
          id={`${id}-name`}
          class="field"
          value={name}
          placeholder="name of the load"
          maxLength={60}
          autocomplete="off"
          onInput={(event) => {
            setName(event.currentTarget.value);
          }}
        />
      </label>
      <label for={`${id}-at`}>
        at
        <select
          id={`${id}-at`}
          class="field"
          value={place.at}
          onChange={(event) => {
            setAt(event.currentTarget.value);
          }}
        >
          {dcPlaces.map((one) => (
            <option key={one.at} value={one.at}>
              {placeSays(one)}
            </option>
          ))}
        </select>
      </label>
      {size !== undefined && (
        <label class="desk-pin">
          <input
            type="checkbox"
            checked={pins}
            onChange={(event) => {
              setPins(event.currentTarget.checked);
            }}
          />
          pin {size}; else the plan chooses
        </label>
      )}
      <button type="submit" class="button main">
        Put it in the plan
      </button>
      <p class="desk-said" role="status">
        {said}
        {said.startsWith("Put at") && (
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
