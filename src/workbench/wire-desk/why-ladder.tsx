import { isVerified, printTrust } from "../../explain/trust.ts";
import type { Answer } from "../../size/answer.ts";
import type { Constraint } from "../../size/index.ts";
import type { Units } from "../contract.ts";
import { inSentence, printSize } from "../look/print-in-units.ts";
import { StatusShape, type Status } from "../look/status-shape.tsx";
import { constraintWords, figuresOf } from "./answer-says.ts";

const statusOf: Readonly<Record<Constraint["outcome"], Status>> = {
  met: "pass",
  "not met": "fail",
  "cannot tell": "unknown",
  "not stated": "note",
  "not judged yet": "note",
};

/** The reasons: what each limit asks for by itself, with its figures and where it comes from. */
export function WhyLadder({ answer, units }: { readonly answer: Answer; readonly units: Units }) {
  const judged = answer.constraints.filter(({ outcome }) => outcome !== "not judged yet");
  const rest = answer.constraints.filter(({ outcome }) => outcome === "not judged yet");
  return (
    <section class="desk-why" aria-label="Why">
      <h3>What each limit asks for by itself</h3>
      <p class="dim">
        The size is the least that meets all of them: the one that asks for most decides. {supplySays(answer)}
      </p>
      <table class="desk-ladder">
        <thead>
          <tr>
            <th scope="col">limit</th>
            <th scope="col">asks for</th>
            <th scope="col">figures</th>
            <th scope="col">source</th>
          </tr>
        </thead>
        <tbody>
          {judged.map((constraint) => (
            <Row key={constraint.id} constraint={constraint} answer={answer} units={units} />
          ))}
        </tbody>
      </table>
      {rest.length > 0 && <p class="dim">Not judged here: {rest.map(({ id }) => constraintWords[id]).join(", ")}.</p>}
    </section>
  );
}

const supplySays = ({ make, rules }: Answer): string => `${make.metal}, ${make.strands}; rules ${rules}.`;

function Row({
  constraint,
  answer,
  units,
}: {
  readonly constraint: Constraint;
  readonly answer: Answer;
  readonly units: Units;
}) {
  const { id, outcome, alone, source, trust } = constraint;
  const decides = id === answer.deciding;
  const figures = inSentence(figuresOf(constraint, answer, units), units);
  return (
    <tr class={decides ? "desk-decides" : ""}>
      <th scope="row">
        <StatusShape status={statusOf[outcome]} label={outcome} /> {constraintWords[id]}
        {decides && <span> ◀ decides</span>}
      </th>
      <td data-head="asks for">
        {alone !== null
          ? printSize(alone, { ...units, sizes: alone.label.endsWith("mm²") ? "mm²" : "AWG" })
          : outcome === "not met"
            ? "nothing on sale"
            : outcome === "not stated"
              ? "nothing: not stated"
              : "–"}
      </td>
      <td data-head="figures">{figures}</td>
      <td data-head="source">
        {outcome === "not stated" ? "" : source}
        {trust !== null && !isVerified(trust) && <span class="desk-trust"> ({printTrust(trust)})</span>}
      </td>
    </tr>
  );
}
