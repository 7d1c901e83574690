import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Answer } from "../../size/answer.ts";
import type { Units } from "../contract.ts";
import { inSentence, otherSize, printAmps, printSize, printTemperature, printVolts } from "../look/print-in-units.ts";
import { StatusShape } from "../look/status-shape.tsx";
import { decidedSays, dropLimitSays, dropSays, fuseBand, oneDownSays, spokenAnswer, wireSays } from "./answer-says.ts";
import type { Asked } from "./use-answer.ts";

/** Size, fuse and what decided, as large as it matters. Used on the desk and on the page of the start. */
export function AnswerCard({
  asked,
  units,
  children,
}: {
  readonly asked: Asked;
  readonly units: Units;
  readonly children?: ComponentChildren;
}) {
  const { answer, problems, working, broken } = asked;
  const waits = problems.length > 0 || broken !== null;
  return (
    <div class={`desk-answer${waits || working ? " desk-stale" : ""}`}>
      <p class="desk-status">
        {broken !== null
          ? `The desk broke on this question: ${broken}. It is kept; change a blank to ask again.`
          : problems.length > 0
            ? `The answer waits for ${problems.length === 1 ? "one blank" : `${problems.length} blanks`} of the sentence.`
            : answer === null || working
              ? "working …"
              : ""}
      </p>
      {answer !== null && (
        <>
          <Headline answer={answer} units={units} before={waits} />
          {answer.outcome === "chosen" && <Rows answer={answer} units={units} />}
        </>
      )}
      {children}
      <Spoken asked={asked} units={units} />
    </div>
  );
}

/** The size in large, the other system's beside it, and the fuse. */
export function Headline({
  answer,
  units,
  before = false,
}: {
  readonly answer: Answer;
  readonly units: Units;
  /** It answers an earlier wording of the question. */
  readonly before?: boolean;
}) {
  if (answer.outcome === "cannot tell") {
    return (
      <p class="desk-none">
        <StatusShape status="unknown" /> Cannot tell: {answer.cannotTell.join("; ")}.
      </p>
    );
  }
  if (answer.size === null) {
    return (
      <p class="desk-none">
        <StatusShape status="fail" /> No size on sale is enough: {decidedSays(answer, units) ?? "see why"}.
      </p>
    );
  }
  const metric = answer.size.label.endsWith("mm²");
  return (
    <p class="desk-headline">
      <span class="desk-size">
        {before && <span class="unseen">before: </span>}
        {printSize(answer.size, { ...units, sizes: metric ? "mm²" : "AWG" })}
      </span>
      <span class="dim">{otherSize(answer.size, units)}</span>
      {answer.device !== null && (
        <span class="desk-fuse">
          fuse <b>{printAmps(answer.device.chosen, units)}</b>
        </span>
      )}
    </p>
  );
}

function Rows({ answer, units }: { readonly answer: Answer; readonly units: Units }) {
  const rows: readonly (readonly [name: string, says: string | null])[] = [
    ["decided by", decidedSays(answer, units)],
    ["one size down", oneDownSays(answer, units)],
    [
      "running",
      `${printAmps(answer.amps, units)}, loses ${dropSays(answer, units)}; limit ${dropLimitSays(answer, units)}`,
    ],
    ["at the load", `${printVolts(answer.loadVolts, units)}${startSays(answer, units)}`],
    ["out and back", wireSays(answer, units)],
    ["fuse band", `${fuseBand(answer, units)}${answer.device === null ? "" : `; ${answer.device.familyName}`}`],
    ["metal", `${printTemperature(answer.conductorC, units)} at this current`],
  ];
  return (
    <dl class="desk-rows">
      {rows.map(([name, says]) =>
        says === null ? null : (
          <div key={name} class="desk-row">
            <dt>{name}</dt>
            <dd>{inSentence(says, units)}</dd>
          </div>
        ),
      )}
    </dl>
  );
}

const startSays = ({ startVolts }: Answer, units: Units): string =>
  startVolts === null ? "" : `, ${printVolts(startVolts, units)} at the start`;

/** Read aloud once typing rests. */
const REST = 600;

export function Spoken({ asked, units }: { readonly asked: Asked; readonly units: Units }) {
  const [said, setSaid] = useState("");
  const { answer, fresh, problems } = asked;
  const now =
    problems.length > 0
      ? problems.map(({ message }) => message).join("; ")
      : answer !== null && fresh
        ? spokenAnswer(answer, units)
        : "";
  useEffect(() => {
    if (now === "") return undefined;
    const timer = setTimeout(() => {
      setSaid(now);
    }, REST);
    return () => {
      clearTimeout(timer);
    };
  }, [now]);
  return (
    <p class="unseen" role="status">
      {said}
    </p>
  );
}
