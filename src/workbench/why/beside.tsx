import { isVerified, printTrust } from "../../explain/trust.ts";
import type { Explanation, LeansOn } from "../../why/explanation.ts";
import type { Bench } from "../contract.ts";
import { inSentence } from "../look/print-in-units.ts";
import { StatusShape, type Status } from "../look/status-shape.tsx";
import { useBench } from "../use-bench.ts";
import { assumedOf, thingIn } from "./subject-of.ts";

/** Beside the working: what would change the answer, what it leans on, by which clause, what to mind, what to ask next. */
export function Beside({
  bench,
  explanation,
  isLooking,
}: {
  readonly bench: Bench;
  readonly explanation: Explanation;
  /** What would change it is still looked for. */
  readonly isLooking: boolean;
}) {
  const { leansOn, ladder, cautions, further } = explanation;
  const decider = ladder.find((r) => r.decides);
  return (
    <aside class="why-beside" aria-label="what it leans on">
      <Changes bench={bench} explanation={explanation} isLooking={isLooking} />
      {leansOn.length === 0 ? null : (
        <section>
          <h3>Leans on</h3>
          <Leans bench={bench} leans={leansOn.filter((l) => l.kind !== "table")} />
          <Tables bench={bench} leans={leansOn.filter((l) => l.kind === "table")} />
        </section>
      )}
      {decider === undefined || decider.source === "" ? null : (
        <section>
          <h3>Clause</h3>
          <p>
            {decider.source}
            {decider.trust === null ? "" : `, ${printTrust(decider.trust)}`}
          </p>
        </section>
      )}
      {cautions.length === 0 ? null : (
        <section>
          <h3>Mind</h3>
          {cautions.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </section>
      )}
      {further.length === 0 ? null : (
        <section>
          <h3>Ask further</h3>
          <ul class="why-further">
            {further.map((subject) => (
              <li key={subject}>
                <button
                  type="button"
                  class="link"
                  onClick={() => {
                    bench.why(subject);
                  }}
                >
                  {subject}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </aside>
  );
}

function Leans({ bench, leans }: { readonly bench: Bench; readonly leans: readonly LeansOn[] }) {
  if (leans.length === 0) return null;
  // What is missing weighs most.
  const sorted = [...leans].sort((a, b) => Number(b.kind === "missing") - Number(a.kind === "missing"));
  return (
    <ul class="why-leans">
      {sorted.map((lean, i) => (
        <Lean key={i} bench={bench} lean={lean} />
      ))}
    </ul>
  );
}

/** So many tables stand open; more are folded, and said how far they can be leaned on. */
const MOST_OPEN = 3;

function Tables({ bench, leans }: { readonly bench: Bench; readonly leans: readonly LeansOn[] }) {
  if (leans.length <= MOST_OPEN) return <Leans bench={bench} leans={leans} />;
  const unsure = leans.filter((l) => l.trust !== null && !isVerified(l.trust)).length;
  return (
    <details>
      <summary>
        {leans.length} published sources{unsure === 0 ? "" : `, ${unsure} not read in the document`}
      </summary>
      <Leans bench={bench} leans={leans} />
    </details>
  );
}

function Changes({
  bench,
  explanation,
  isLooking,
}: {
  readonly bench: Bench;
  readonly explanation: Explanation;
  readonly isLooking: boolean;
}) {
  const { units } = useBench(bench);
  const { changes, ladder } = explanation;
  if (ladder.length === 0 && changes.length === 0) return null;
  return (
    <section aria-busy={isLooking}>
      <h3>What would change it</h3>
      {isLooking ? <p class="dim">Trying other values …</p> : null}
      {!isLooking && changes.length === 0 ? <p class="dim">No single figure that was tried.</p> : null}
      {changes.length === 0 ? null : (
        <table class="why-table" aria-label="what would change it">
          <thead class="unseen">
            <tr>
              <th scope="col">when</th>
              <th scope="col">then</th>
            </tr>
          </thead>
          <tbody>
            {changes.map(({ when, then }) => (
              <tr key={when}>
                <td>{inSentence(when, units)}</td>
                <td class="num">
                  <b>{inSentence(then, units)}</b>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

const shapeOf = ({ kind, trust }: LeansOn): Status =>
  kind === "assumption" || kind === "missing" ? "unknown" : trust !== null && !isVerified(trust) ? "warn" : "pass";

const kindWords: Readonly<Record<LeansOn["kind"], string>> = {
  plan: "from the plan",
  assumption: "assumed",
  table: "from a table",
  missing: "missing",
};

function Lean({ bench, lean }: { readonly bench: Bench; readonly lean: LeansOn }) {
  const { plan, units } = useBench(bench);
  const { kind, says, line, pin, trust } = lean;
  const things = plan?.things ?? [];
  const about = kind === "assumption" && plan !== null ? assumedOf(says, plan) : (thingIn(says, things)?.about ?? null);
  const show = (): void => {
    if (about !== null) bench.select(about);
    bench.showText(true);
  };
  return (
    <li>
      <StatusShape status={shapeOf(lean)} label={`${kindWords[kind]}:`} size={16} />
      <span>
        {inSentence(says, units)}
        {kind === "table" && trust !== null ? <span class="dim">, {printTrust(trust)}</span> : null}
        {kind === "assumption" ? (
          <span class="dim">, assumed{trust !== null && !isVerified(trust) ? `, ${printTrust(trust)}` : ""}</span>
        ) : null}
        {line === null ? null : (
          <>
            {": "}
            <button type="button" class="link" onClick={show}>
              plan, line {line}
            </button>
          </>
        )}
        {pin === "" || kind === "plan" ? null : (
          <>
            . Write <code>{pin}: …</code>{" "}
            <button
              type="button"
              class="link"
              onClick={() => {
                show();
                bench.say(`write \`${pin}: …\`${about === null ? "" : ` at ${about.replace(/^[a-z]+\./, "")}`}`);
              }}
            >
              {kind === "missing" ? "Give it" : "Pin it"}
              <span class="unseen">: {says}</span>
            </button>
          </>
        )}
      </span>
    </li>
  );
}
