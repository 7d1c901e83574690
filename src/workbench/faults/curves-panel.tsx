import type { Bench, Units } from "../contract.ts";
import { printSheet } from "../look/print-sheet.ts";
import { StatusShape } from "../look/status-shape.tsx";
import type { CircuitFaultsAnswer, PairRow } from "../worker/fault-answers.ts";
import { printFault, someOf } from "./fault-words.ts";
import { becauseWords, verdictCell } from "./fault-tables.ts";

/** When the chain of devices that feeds a circuit opens, and whether of any two the right one does. */
export function CurvesPanel({
  bench,
  own,
  units,
}: {
  readonly bench: Bench;
  readonly own: CircuitFaultsAnswer;
  readonly units: Units;
}) {
  const { curves, circuit, pairs } = own;
  const print = async (): Promise<void> => {
    const sheet = await bench.curvesSheet(circuit);
    if (sheet !== null) printSheet([sheet]);
  };
  return (
    <div class="faults-curves">
      {curves === null ? (
        <p>
          No curves: no fault current of a battery can be told for {circuit}. They are drawn for circuits of direct
          current that a battery reaches.
        </p>
      ) : (
        <figure class="faults-figure">
          <div
            class="faults-frame"
            role="region"
            aria-label={`Time over current, ${circuit}`}
            // It may be wider than the page: the keyboard moves it too.
            tabIndex={0}
          >
            {/* Our own drawing: what it writes is escaped there. */}
            <div class="faults-drawn" dangerouslySetInnerHTML={{ __html: curves.svg }} />
          </div>
          <figcaption class="dim">{curves.says}</figcaption>
        </figure>
      )}
      <section class="faults-verdicts" aria-label="Devices in series">
        {curves === null ? null : (
          <button
            type="button"
            class="button"
            onClick={() => {
              void print();
            }}
          >
            Print the curves
          </button>
        )}
        <h3>Does the nearer alone open?</h3>
        {pairs.length === 0 ? (
          <p class="dim">No two devices of this chain stand in series.</p>
        ) : (
          <ul>
            {pairs.map((pair) => (
              <Verdict key={`${pair.downstream.name} ${pair.upstream.name}`} pair={pair} units={units} />
            ))}
          </ul>
        )}
      </section>
    </div>
  );
}

function Verdict({ pair, units }: { readonly pair: PairRow; readonly units: Units }) {
  const { status, text } = verdictCell(pair, units);
  const { upstream, downstream, lostToo, greatest, verdict } = pair;
  const reason = becauseWords(pair, units);
  return (
    <li>
      <StatusShape status={status} />
      <div>
        <b>
          {downstream.name} below {upstream.name}: {text}
        </b>
        <p>
          {downstream.what} below {upstream.what}, faults to {printFault(greatest, units)}.
        </p>
        <p class="dim">
          {reason.charAt(0).toUpperCase()}
          {reason.slice(1)}.
        </p>
        {verdict === "selective" || lostToo.length === 0 ? null : (
          <p>Dark for nothing if both open: {someOf(lostToo, 6)}.</p>
        )}
      </div>
    </li>
  );
}
