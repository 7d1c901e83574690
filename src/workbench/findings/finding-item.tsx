import { useState } from "preact/hooks";
import type { Finding } from "../../rules/index.ts";
import type { Bench, FindingKey } from "../contract.ts";
import { StatusShape, statusOf, statusWords } from "../look/status-shape.tsx";
import { useBench } from "../use-bench.ts";
import { CureList } from "./cure-list.tsx";
import { LineLink } from "./finding-body.tsx";
import { asSentence, becauseOf, clauseText, figuresOf, keyText, lineOf, placeName, thingOf } from "./finding-words.ts";
import { StatesLink } from "./states-link.tsx";
import { useCures } from "./use-cures.ts";
import { WaiveForm } from "./waive-form.tsx";

/** One finding of the list: what could happen, what is and against what, its cures when asked for, and by which clause. */
export function FindingItem({
  bench,
  finding,
  isNow,
  level,
}: {
  readonly bench: Bench;
  readonly finding: Finding;
  /** J and K have come to it. */
  readonly isNow: boolean;
  readonly level: 3 | 4;
}) {
  const { text, units, readOnly } = useBench(bench);
  const [wantsCures, setWantsCures] = useState(false);
  const [isWaiving, setWaiving] = useState(false);
  const found = useCures(bench, finding, wantsCures);
  const status = statusOf(finding);
  const key: FindingKey = { rule: finding.rule, about: finding.about };
  const id = `finding-${keyText(finding)}`.replace(/[^A-Za-z0-9_-]/g, "_");
  const figures = figuresOf(finding, units);
  const clause = clauseText(finding);
  const line = lineOf(text, finding);
  const Heading = level === 3 ? "h3" : "h4";
  return (
    <article
      class={`findings-item${isNow ? " is-now" : ""}`}
      tabIndex={-1}
      aria-labelledby={id}
      data-finding={keyText(finding)}
    >
      <StatusShape status={status} />
      <div class="findings-words">
        <Heading id={id}>
          {finding.title}: {placeName(finding.about)} <span class="findings-status">{statusWords[status]}</span>
        </Heading>
        <p>{asSentence(finding.danger, units)}</p>
        <p>
          {becauseOf(finding, units)}
          {finding.state === null ? null : <span class="dim"> In the state {finding.state}.</span>}
        </p>
        {figures === null ? null : (
          <p class="findings-figures">
            <span class="unseen">measured </span>
            <b>{figures.measured}</b> <span aria-hidden>→</span> limit <b>{figures.limit}</b>
            {figures.margin === "" ? null : `, ${figures.margin}`}
          </p>
        )}
        {found.is === "done" ? <CureList bench={bench} finding={key} search={found.search} /> : null}
        <p class="dim findings-source">
          {[finding.rule, ...(clause === "" ? [] : [clause])].join(" · ")}
          {line === null ? null : (
            <>
              {" · "}
              <LineLink bench={bench} finding={finding} line={line} />
            </>
          )}
        </p>
        <div class="findings-deeds">
          {finding.outcome !== "fail" || readOnly || found.is === "done" ? null : (
            <button
              type="button"
              class="button"
              aria-busy={found.is === "searching"}
              onClick={() => {
                setWantsCures(!wantsCures);
              }}
            >
              {found.is === "searching" ? "Looking for cures …" : "Find cures"}
            </button>
          )}
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.why(keyText(finding));
            }}
          >
            Why<span class="unseen">: {finding.title}</span>
          </button>
          <StatesLink bench={bench} finding={finding} />
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.select(thingOf(finding.about));
              bench.openNote(key);
              bench.go("one-line");
            }}
          >
            On the sheet<span class="unseen">: {placeName(finding.about)}</span>
          </button>
          {readOnly || isWaiving ? null : (
            <button
              type="button"
              class="link"
              onClick={() => {
                setWaiving(true);
              }}
            >
              Waive …<span class="unseen"> {finding.title}</span>
            </button>
          )}
        </div>
        {isWaiving ? (
          <WaiveForm
            bench={bench}
            finding={key}
            onClose={() => {
              setWaiving(false);
            }}
          />
        ) : null}
      </div>
    </article>
  );
}
