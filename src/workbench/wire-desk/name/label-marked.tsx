import type { LabelPiece } from "../../../act/wire-card/index.ts";
import type { LabelFact } from "../../../wire/label/label-reading.ts";

/** A label with the stretches that told something; those of the facts that are looked at stand out. */
export function LabelMarked({
  pieces,
  lit,
  onLight,
}: {
  readonly pieces: readonly LabelPiece[];
  readonly lit: readonly LabelFact[];
  readonly onLight: (facts: readonly LabelFact[]) => void;
}) {
  return (
    <p class="name-marked">
      <span class="unseen">The label as read: </span>
      {pieces.map(({ text, facts }, i) => (
        <span
          key={i}
          class={`name-piece${facts.length === 0 ? " name-mute" : ""}${facts.some((f) => lit.includes(f)) ? " name-lit" : ""}`}
          onPointerEnter={() => {
            onLight(facts);
          }}
          onPointerLeave={() => {
            onLight([]);
          }}
        >
          {text}
        </span>
      ))}
    </p>
  );
}
