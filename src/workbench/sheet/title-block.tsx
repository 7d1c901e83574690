import { notJudgedYet } from "../look/judged-words.ts";
import { StatusShape, type Status } from "../look/status-shape.tsx";
import { unjudgedIn } from "../../draw/one-line/drawn-finding.ts";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";

/** What the sheet is of, by which rules it was judged, how it stands, and what nobody looked at. */
export function TitleBlock({ bench }: { readonly bench: Bench }) {
  const { plan, drawing, fileName, working, pencil } = useBench(bench);
  if (plan === null) return null;
  const { tally, findings } = pencil?.plan ?? plan;
  const unjudged = unjudgedIn(findings);
  const errors = plan.diagnostics.filter(({ level }) => level === "error").length;
  const counts: readonly (readonly [Status, number, string])[] = [
    ["pass", tally.pass, "pass"],
    ["fail", tally.must, "must"],
    ["warn", tally.should, "should"],
    ["unknown", tally.cannotTell, "cannot tell"],
    ["note", tally.note, tally.note === 1 ? "note" : "notes"],
  ];
  return (
    <section class="title-block" aria-label="Title block">
      <dl>
        <div class="title-wide">
          <dt>title</dt>
          <dd>{plan.name === "" ? "Plan without a name" : plan.name}, one-line</dd>
        </div>
        <div>
          <dt>rules</dt>
          <dd>{plan.rules.length === 0 ? "none named" : [...new Set(plan.rules)].join(", ")}</dd>
        </div>
        <div>
          <dt>drawn from</dt>
          <dd>
            {fileName ?? "this browser"}
            {plan.planRevision === "" ? "" : `, rev ${plan.planRevision}`}
          </dd>
        </div>
      </dl>
      <p class={`title-tally${working ? " dim" : ""}${pencil === null ? "" : " in-pencil"}`}>
        {plan.judged === "yes" ? null : <span>{notJudgedYet(plan)}</span>}
        {counts
          .filter(() => plan.judged === "yes")
          .filter(([status, count]) => count > 0 || status === "pass" || status === "fail")
          .map(([status, count, word]) => (
            <span key={status}>
              <StatusShape status={status} size={16} /> <strong>{count}</strong> {word}
            </span>
          ))}
        {tally.waived > 0 ? <span>{tally.waived} waived</span> : null}
        {working ? <span>working …</span> : null}
      </p>
      {errors > 0 ? (
        <p class="title-caution title-error">
          <StatusShape status="fail" size={14} /> {errors} {errors === 1 ? "error" : "errors"} in the{" "}
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.go("text");
            }}
          >
            text
          </button>
          : what hangs on {errors === 1 ? "it" : "them"} is neither drawn nor judged.
        </p>
      ) : null}
      {plan.openEnds.map(({ about, says }) => (
        <p class="title-caution" key={about}>
          Open end:{" "}
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.select(about);
            }}
          >
            {says}
          </button>
        </p>
      ))}
      {(drawing?.notDrawn ?? []).map((says) => (
        <p class="title-caution" key={says}>
          Not drawn: {says}
        </p>
      ))}
      {unjudged.map((says) => (
        <p class="title-caution" key={says}>
          {says}
        </p>
      ))}
      <p class="title-caution">
        Not checked: joints as made, local law. No certificate: a licensed person decides, above all on mains voltage.
      </p>
    </section>
  );
}
