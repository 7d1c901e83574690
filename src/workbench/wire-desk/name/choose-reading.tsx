import type { Ref } from "preact";
import type { ReadingToChoose } from "../../../act/wire-card/index.ts";
import type { Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";
import { StatusShape } from "../../look/status-shape.tsx";
import type { NamedLabel } from "../question-link.ts";
import { chosenLabel } from "./chosen-label.ts";
import { contextWords } from "./name-field.tsx";

/** A name that has several meanings: the question that settles it, and one button a meaning. */
export function ChooseReading({
  question,
  readings,
  label,
  units,
  list,
  onChoose,
}: {
  readonly question: string;
  readonly readings: readonly ReadingToChoose[];
  readonly label: NamedLabel;
  readonly units: Units;
  readonly list: Ref<HTMLUListElement>;
  readonly onChoose: (label: NamedLabel) => void;
}) {
  return (
    <div class="name-choose">
      <p class="name-question">
        <StatusShape status="unknown" />{" "}
        <span>
          <span class="dim">ask: which? </span>
          {inSentence(question, units)}
        </span>
      </p>
      {readings.some(({ small }) => small !== null) && <p class="dim">All are drawn in one scale.</p>}
      <ul ref={list} class="name-choices">
        {readings.map((reading) => {
          const chosen = chosenLabel(reading, label);
          const says = inSentence(reading.says, units);
          return (
            <li key={reading.says}>
              <button
                type="button"
                class="name-choice"
                aria-disabled={chosen === null}
                onClick={() => {
                  if (chosen !== null) onChoose(chosen);
                }}
              >
                {reading.small === null ? (
                  <span class="name-choice-none" aria-hidden="true" />
                ) : (
                  <span
                    class="name-choice-drawn"
                    aria-hidden="true"
                    // Our own drawing: what it writes is escaped there.
                    dangerouslySetInnerHTML={{ __html: reading.small.svg }}
                  />
                )}
                <span class="name-choice-words">
                  <b>{says}</b>
                  <span class="dim">
                    {chosen === null
                      ? "No label tells it apart: look at the cable."
                      : reading.exactLabel !== null
                        ? `reads without doubt as ${reading.exactLabel}`
                        : `so read on ${contextWords(chosen.context)}`}
                  </span>
                  {reading.traps.map((trap) => (
                    <span key={trap}>{inSentence(trap, units)}</span>
                  ))}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
