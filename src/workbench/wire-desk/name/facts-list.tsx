import type { FactSaid, LabelPiece } from "../../../act/wire-card/index.ts";
import type { LabelFact } from "../../../wire/label/label-reading.ts";
import type { Units } from "../../contract.ts";
import { inSentence } from "../../look/print-in-units.ts";

/** The characters that told a fact, as they stand. */
const charactersOf = (pieces: readonly LabelPiece[], fact: LabelFact): string =>
  pieces
    .filter(({ facts }) => facts.includes(fact))
    .map(({ text }) => text.trim())
    .filter((text) => text !== "")
    .join(" … ");

/** What a label tells, fact by fact, each with the characters that told it; then what it does not tell. */
export function FactsList({
  facts,
  pieces,
  units,
  lit,
  onLight,
}: {
  readonly facts: readonly FactSaid[];
  readonly pieces: readonly LabelPiece[];
  readonly units: Units;
  readonly lit: readonly LabelFact[];
  readonly onLight: (facts: readonly LabelFact[]) => void;
}) {
  const missing = facts.filter(({ says }) => says === null).map(({ name }) => name);
  return (
    <>
      <ul class="name-facts">
        {facts.map(({ fact, name, says }) => {
          if (says === null) return null;
          const from = charactersOf(pieces, fact);
          return (
            <li key={fact}>
              <button
                type="button"
                class={`name-fact${lit.includes(fact) ? " name-lit" : ""}`}
                onFocus={() => {
                  onLight([fact]);
                }}
                onBlur={() => {
                  onLight([]);
                }}
                onPointerEnter={() => {
                  onLight([fact]);
                }}
                onPointerLeave={() => {
                  onLight([]);
                }}
              >
                <span class="dim">{name} </span>
                <b>{inSentence(says, units)}</b>
                <span class="unseen">{from === "" ? ", not from the label itself" : `, from ${from}`}</span>
              </button>
            </li>
          );
        })}
      </ul>
      {missing.length > 0 && <p class="dim">Not stated: {missing.join(", ")}.</p>}
    </>
  );
}
