import type { RefusedPiece } from "../../../act/wire-card/index.ts";
import type { LabelProblem } from "../../../wire/label/label-reading.ts";
import { StatusShape } from "../../look/status-shape.tsx";

/** A name that was not read: where it stopped, why, and what to do. */
export function ReadingRefused({
  id,
  problems,
  pieces,
}: {
  readonly id: string;
  readonly problems: readonly LabelProblem[];
  readonly pieces: readonly RefusedPiece[];
}) {
  return (
    <div class="name-refused" id={id}>
      <p class="name-marked">
        <span class="unseen">Not read: </span>
        {pieces.map(({ text, isWrong }, i) => (
          <span key={i} class={isWrong ? "name-wrong" : "name-mute"}>
            {text}
          </span>
        ))}
      </p>
      <ul class="name-problems">
        {problems.map(({ id: kind, message, hint }) => (
          <li key={`${kind} ${message}`}>
            <StatusShape status="fail" /> {message}
            {hint !== "" && <>; {hint}</>}.
          </li>
        ))}
      </ul>
    </div>
  );
}
