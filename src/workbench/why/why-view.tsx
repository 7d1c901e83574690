import { useEffect, useRef, useState } from "preact/hooks";
import "./why.css";
import type { Explained } from "../../why/index.ts";
import type { Bench } from "../contract.ts";
import { inSentence } from "../look/print-in-units.ts";
import { keyFor } from "../settings/keys.ts";
import { mayAct } from "../settings/typing.ts";
import { useBench } from "../use-bench.ts";
import { Beside } from "./beside.tsx";
import { Deeds, Tried } from "./deeds.tsx";
import { Ladder } from "./ladder.tsx";
import { circuitBeside, circuitOf, namesIn, sizesBeside } from "./subject-of.ts";
import { useExplained } from "./use-explained.ts";
import { Worked } from "./worked.tsx";

/** One value explained: the answer in a sentence, then what it is made of and what would change it. */
export function WhyView({ bench }: { readonly bench: Bench }) {
  const { whySubject, plan, units, working } = useBench(bench);
  const { explained, stage } = useExplained(bench, whySubject, plan?.revision ?? -1);
  const heading = useRef<HTMLHeadingElement>(null);

  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      const row = keyFor(event, "why");
      const by = row?.does === "next-value" ? 1 : row?.does === "previous-value" ? -1 : null;
      const { plan: now, whySubject: subject } = bench.state;
      if (row === null || by === null || now === null || event.defaultPrevented || !mayAct(row, event.target)) return;
      const next = circuitBeside(subject ?? "", now, by);
      if (next === null) return;
      event.preventDefault();
      bench.why(next);
    };
    addEventListener("keydown", listen);
    return () => {
      removeEventListener("keydown", listen);
    };
  }, [bench]);
  // Whoever follows a question hears the next one from its heading on.
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
  }, [whySubject, stage === "at once"]);

  if (whySubject === null) return <Unasked bench={bench} problem={null} />;
  if (stage === "at once")
    return (
      <section class="why" aria-labelledby="why-title" aria-busy="true">
        <header class="why-head">
          <p class="dim">Why</p>
          <h2 id="why-title">Why {whySubject}?</h2>
          <p class="dim">Working it out …</p>
        </header>
      </section>
    );
  if (explained === null || !explained.ok || plan === null) return <Unasked bench={bench} problem={explained} />;

  const { explanation } = explained;
  const circuit = circuitOf(explanation.subject, plan);
  const onSale = sizesBeside(circuit, plan);
  return (
    <div class="why-room">
      <section
        class={`why${circuit === null ? "" : " has-strip"}${working ? " is-late" : ""}`}
        aria-labelledby="why-title"
        aria-busy={working}
      >
        <header class="why-head">
          <p class="dim">
            Why
            {working ? ", working …" : ""}
          </p>
          <h2 id="why-title" tabIndex={-1} ref={heading}>
            {inSentence(explanation.question, units)}
          </h2>
          <p class="why-answer">{inSentence(explanation.answer, units)}</p>
        </header>
        {circuit === null ? null : (
          <Strip key={circuit.id} bench={bench} circuit={circuit.id} ends={`${circuit.from} → ${circuit.to}`} />
        )}
        <div class="why-main">
          <Ladder ladder={explanation.ladder} chosen={circuit?.size ?? null} onSale={onSale} units={units} />
          <Deeds bench={bench} explanation={explanation} circuit={circuit} onSale={onSale} />
          <Tried bench={bench} />
          <Worked sections={explanation.sections} units={units} />
        </div>
        <Beside bench={bench} explanation={explanation} isLooking={stage === "changes"} />
      </section>
    </div>
  );
}

/** The circuit as it is drawn, top down, on its own. */
function Strip({ bench, circuit, ends }: { readonly bench: Bench; readonly circuit: string; readonly ends: string }) {
  const { plan } = useBench(bench);
  const [drawn, setDrawn] = useState<Awaited<ReturnType<Bench["strip"]>>>(null);
  const revision = plan?.revision ?? -1;
  useEffect(() => {
    let isGone = false;
    bench.strip(circuit).then(
      (strip) => {
        if (!isGone) setDrawn(strip);
      },
      () => {
        if (!isGone) setDrawn(null);
      },
    );
    return () => {
      isGone = true;
    };
  }, [bench, circuit, revision]);
  return (
    <figure class="why-strip">
      <figcaption>
        <b>{circuit}</b>, {ends}
      </figcaption>
      {drawn === null ? null : (
        // The drawing is written by our own pen, which escapes every name.
        <div
          role="img"
          aria-label={bench.spoken(`circuits.${circuit}`)}
          dangerouslySetInnerHTML={{ __html: drawn.svg }}
        />
      )}
    </figure>
  );
}

/** Nothing is asked, or nothing here is called so: what is near, and a field to ask again. */
function Unasked({ bench, problem }: { readonly bench: Bench; readonly problem: Explained | null }) {
  const { plan, whySubject, broken } = useBench(bench);
  const near = problem !== null && !problem.ok ? namesIn(problem.hint) : [];
  const names = near.length > 0 ? near : (plan?.design.circuits.map((c) => c.id) ?? []).slice(0, MOST_NAMED);
  return (
    <section class="why" aria-labelledby="why-title">
      <header class="why-head">
        <p class="dim">Why</p>
        <h2 id="why-title">{whySubject === null ? "Why is what?" : `Why ${whySubject}?`}</h2>
        {whySubject === null ? (
          <p>Name a circuit, a part, a finding or a default; with a state, as `fridge@at anchor`, its figures there.</p>
        ) : (
          <p role="alert">
            {problem === null || problem.ok ? (broken ?? "No answer came. Ask again.") : `${problem.problem}.`}
          </p>
        )}
        <form
          class="why-deeds"
          onSubmit={(event) => {
            event.preventDefault();
            const asked = new FormData(event.currentTarget).get("subject");
            if (typeof asked === "string" && asked.trim() !== "") bench.why(asked.trim());
          }}
        >
          <label>
            <span class="unseen">What is asked about</span>
            <input class="field" name="subject" type="text" autocomplete="off" spellcheck={false} />
          </label>
          <button type="submit" class="button">
            Ask why
          </button>
        </form>
        {names.length === 0 ? null : (
          <>
            <p>{near.length > 0 ? "Did you mean" : "Such as"}</p>
            <ul class="why-further">
              {names.map((name) => (
                <li key={name}>
                  <button
                    type="button"
                    class="link"
                    onClick={() => {
                      bench.why(name);
                    }}
                  >
                    {name}
                  </button>
                </li>
              ))}
            </ul>
          </>
        )}
      </header>
    </section>
  );
}

/** So many names are offered where none is near. */
const MOST_NAMED = 12;
