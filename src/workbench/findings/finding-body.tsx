import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import "./findings.css";
import type { Finding } from "../../rules/index.ts";
import type { Bench, FindingKey } from "../contract.ts";
import { circuitOf, openCurves } from "../faults/place.ts";
import { StatusShape, statusOf, statusWords } from "../look/status-shape.tsx";
import { useBench } from "../use-bench.ts";
import { changesOf, effectOf } from "./cure-words.ts";
import { CureList, isPencilled, noCure } from "./cure-list.tsx";
import { asSentence, becauseOf, clauseText, keyText, lineOf, placeName, thingOf } from "./finding-words.ts";
import { NowThenTable } from "./now-then.tsx";
import { StatesLink } from "./states-link.tsx";
import { useCures } from "./use-cures.ts";
import { WaiveForm } from "./waive-form.tsx";

/**
 * An open note: what could happen, what is, and a cure in pencil with now and then. The cure is looked for while the note is open; closing it gives the
 * search up and rubs its pencil out.
 */
export function FindingBody({ bench, finding }: { readonly bench: Bench; readonly finding: Finding }) {
  const { text, units, readOnly, plan } = useBench(bench);
  const inTime = plan !== null && finding.rule.startsWith("protection/") ? circuitOf(plan, finding.about) : null;
  const status = statusOf(finding);
  const line = lineOf(text, finding);
  const clause = clauseText(finding);
  const id = `note-${keyText(finding)}`.replace(/[^A-Za-z0-9_-]/g, "_");
  const [isWaiving, setWaiving] = useState(false);
  const more = (
    <>
      <button
        type="button"
        class="button"
        onClick={() => {
          bench.why(keyText(finding));
        }}
      >
        Why
      </button>
      {inTime === null ? null : (
        <button
          type="button"
          class="link"
          onClick={() => {
            openCurves(bench, inTime);
          }}
        >
          In time<span class="unseen">: curves of {inTime}</span>
        </button>
      )}
      <StatesLink bench={bench} finding={finding} />
      {readOnly || isWaiving ? null : (
        <button
          type="button"
          class="link"
          onClick={() => {
            setWaiving(true);
          }}
        >
          Waive …
        </button>
      )}
    </>
  );
  return (
    <div class="findings-body">
      <h3 id={id}>
        <StatusShape status={status} label={`${statusWords[status]}:`} /> {finding.title}
      </h3>
      <p>{asSentence(finding.danger, units)}</p>
      <p>{becauseOf(finding, units)}</p>
      <p class="dim findings-source">
        {finding.rule} · {placeName(finding.about)}
        {line === null ? null : (
          <>
            {" · "}
            <LineLink bench={bench} finding={finding} line={line} />
          </>
        )}
        {clause === "" ? null : ` · ${clause}`}
      </p>
      {finding.needs.length === 0 ? null : (
        <p>
          It would help most to know{" "}
          {finding.needs
            .slice(0, 3)
            .map((n) => n.fact.replace(/,$/, ""))
            .join(", then ")}
          .
        </p>
      )}
      {finding.outcome === "fail" && !readOnly ? (
        <OpenCure bench={bench} finding={finding}>
          {more}
        </OpenCure>
      ) : (
        <div class="findings-deeds">{more}</div>
      )}
      {isWaiving ? (
        <WaiveForm
          bench={bench}
          finding={{ rule: finding.rule, about: finding.about }}
          onClose={() => {
            setWaiving(false);
          }}
        />
      ) : null}
    </div>
  );
}

/** To the line of the plan. */
export function LineLink({
  bench,
  finding,
  line,
}: {
  readonly bench: Bench;
  readonly finding: Finding;
  readonly line: number;
}) {
  return (
    <button
      type="button"
      class="link"
      onClick={() => {
        bench.select(thingOf(finding.about));
        bench.showText(true);
      }}
    >
      line {line}
    </button>
  );
}

/** The best cure, put in pencil as soon as it is found; the others when asked for. */
function OpenCure({
  bench,
  finding,
  children,
}: {
  readonly bench: Bench;
  readonly finding: Finding;
  /** What else can be done, after Apply. */
  readonly children: ComponentChildren;
}) {
  const { pencil, units } = useBench(bench);
  const { rule, about } = finding;
  const found = useCures(bench, finding, true);
  const [showsOthers, setShowsOthers] = useState(false);
  const [problem, setProblem] = useState("");
  const cures = found.is === "done" && found.search.is === "edits" ? found.search.cures : [];
  const [first] = cures;

  useEffect(() => {
    if (first === undefined) return;
    // What somebody else is trying is not wiped away.
    const { pencil: there } = bench.state;
    if (there !== null && there.is !== "cure") return;
    let isGone = false;
    bench.pencilCure({ rule, about }, 0).then(
      (outcome) => {
        if (!isGone) setProblem(outcome.ok ? "" : `${outcome.message}. ${outcome.hint}`);
      },
      () => undefined,
    );
    return () => {
      isGone = true;
    };
  }, [bench, rule, about, first]);
  useEffect(
    () => () => {
      if (bench.state.pencil?.is === "cure") bench.rubOut();
    },
    [bench, rule, about],
  );

  const search = found.is === "done" ? found.search : null;
  if (search === null || search.is !== "edits" || first === undefined)
    return (
      <div class="findings-open-cure">
        <p class="dim">
          {found.is === "searching"
            ? "Looking for a cure …"
            : search === null || search.is === "edits"
              ? "No cure was looked for."
              : noCure(search, units)}
        </p>
        <div class="findings-deeds">{children}</div>
      </div>
    );
  const others = cures.length - 1;
  const key: FindingKey = { rule, about };
  const compared = isPencilled(bench, first) ? (pencil?.comparison?.rows ?? []) : [];
  return (
    <div class="findings-open-cure">
      {showsOthers ? (
        <CureList bench={bench} finding={key} search={search} />
      ) : (
        <>
          <p class="findings-cure">
            Cure: {first.says}
            {pencil?.is === "cure" ? <span class="findings-pencil"> in pencil</span> : null}
          </p>
          <NowThenTable rows={changesOf(first, compared, units)} label={`cure: ${first.says}`} />
          <p class="dim">{effectOf(first, key, units)}</p>
        </>
      )}
      {problem === "" ? null : (
        <p class="findings-problem" role="alert">
          {problem}
        </p>
      )}
      <div class="findings-deeds">
        {showsOthers ? null : (
          <button
            type="button"
            class="button main"
            disabled={pencil?.is !== "cure"}
            onClick={() => {
              bench.ink();
            }}
          >
            Apply cure
          </button>
        )}
        {children}
        {others < 1 ? null : (
          <button
            type="button"
            class="link"
            aria-expanded={showsOthers}
            onClick={() => {
              setShowsOthers(!showsOthers);
            }}
          >
            {showsOthers ? "Only the first" : `${others} ${others === 1 ? "other" : "others"}`}
          </button>
        )}
      </div>
    </div>
  );
}
