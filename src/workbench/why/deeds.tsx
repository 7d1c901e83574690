import { useState } from "preact/hooks";
import type { CircuitDesign, SizeOnPaper } from "../../size/index.ts";
import type { Explanation } from "../../why/explanation.ts";
import type { Bench, Outcome } from "../contract.ts";
import { NowThenTable } from "../findings/now-then.tsx";
import { placeName } from "../findings/finding-words.ts";
import { inSentence } from "../look/print-in-units.ts";
import { useBench } from "../use-bench.ts";
import { neighbours } from "./subject-of.ts";
import { whyText } from "./why-text.ts";

/** What can be done about the answer: pin it, try the size beside it in pencil, take it along with its sources. */
export function Deeds({
  bench,
  explanation,
  circuit,
  onSale,
}: {
  readonly bench: Bench;
  readonly explanation: Explanation;
  readonly circuit: CircuitDesign | null;
  readonly onSale: readonly SizeOnPaper[];
}) {
  const { readOnly, units, plan } = useBench(bench);
  const [problem, setProblem] = useState("");
  const tell = (outcome: Outcome): void => {
    setProblem(outcome.ok ? "" : `${outcome.message}. ${outcome.hint}`);
  };
  const size = circuit?.size ?? null;
  const beside = size === null ? { smaller: null, larger: null } : neighbours(size, onSale);
  const about = circuit === null ? "" : `circuits.${circuit.id}`;
  const copy = (): void => {
    const heading = plan === null ? "" : `${plan.name}, revision ${plan.planRevision}`;
    navigator.clipboard.writeText(whyText(explanation, heading, units)).then(
      () => {
        bench.say("copied with its sources");
      },
      () => {
        bench.say("the browser does not let the page copy; select the text and copy it by hand");
      },
    );
  };
  return (
    <div class="why-deeds">
      {circuit === null || size === null || readOnly ? null : (
        <>
          {circuit.outcome === "pinned" ? (
            <button
              type="button"
              class="button"
              onClick={() => {
                void bench.act({ do: "unpin", about, what: "wire" }).then(tell);
              }}
            >
              Unpin {inSentence(size.label, units)}
            </button>
          ) : circuit.outcome === "chosen" ? (
            <button
              type="button"
              class="button main"
              onClick={() => {
                void bench.act({ do: "pin", about, what: "wire" }).then(tell);
              }}
            >
              Pin {inSentence(size.label, units)}
            </button>
          ) : null}
          {[beside.smaller, beside.larger].map((other) =>
            other === null ? null : (
              <button
                key={other.label}
                type="button"
                class="button"
                onClick={() => {
                  void bench
                    .pencilAct(
                      { do: "set-figure", about, field: "size", text: other.label },
                      `try: ${circuit.id} ${other.label}`,
                    )
                    .then(tell);
                }}
              >
                Try {inSentence(other.label, units)}
              </button>
            ),
          )}
        </>
      )}
      <button type="button" class="link" onClick={copy}>
        Copy with its sources
      </button>
      {problem === "" ? null : (
        <p class="why-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

/** What is tried, with now and then, until it is inked or rubbed out. */
export function Tried({ bench }: { readonly bench: Bench }) {
  const { pencil, units, readOnly } = useBench(bench);
  if (pencil === null) return null;
  const { comparison } = pencil;
  const rows = comparison === null ? [] : [...comparison.rows, ...comparison.others].filter((r) => r.changed);
  return (
    <section class="why-tried" aria-label={`in pencil: ${pencil.says}`} aria-busy={comparison === null}>
      <h3>
        {inSentence(pencil.says, units)} <span class="dim">in pencil</span>
      </h3>
      {comparison === null ? <p class="dim">Working it out …</p> : null}
      {comparison !== null && rows.length === 0 ? <p>No figure changes.</p> : null}
      <NowThenTable
        rows={rows.map((r) => ({
          name: r.about === "plan" ? r.label : `${placeName(r.about)}, ${r.label}`,
          now: inSentence(r.now, units),
          then: inSentence(r.then, units),
        }))}
        label={`in pencil: ${pencil.says}`}
      />
      {comparison === null ? null : <p>It {comparison.says}.</p>}
      <div class="why-deeds">
        {readOnly || pencil.step === null ? null : (
          <button type="button" class="button main" onClick={bench.ink}>
            Apply
          </button>
        )}
        <button type="button" class="link" onClick={bench.rubOut}>
          Rub out
        </button>
      </div>
    </section>
  );
}
