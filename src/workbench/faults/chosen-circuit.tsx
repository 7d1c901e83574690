import { useEffect, useRef } from "preact/hooks";
import type { Bench } from "../contract.ts";
import { useBench } from "../use-bench.ts";
import type { FaultsAnswer } from "../worker/fault-answers.ts";
import { CircuitPanel } from "./circuit-panel.tsx";
import { CurvesPanel } from "./curves-panel.tsx";
import type { FaultTab } from "./place.ts";
import { useCircuitFaults } from "./use-faults.ts";

/** The circuit in hand: its faults, or when its devices open. Where there is one column, its faults stand above the list. */
export function ChosenCircuit({
  bench,
  answer,
  circuit,
  part,
  onTab,
}: {
  readonly bench: Bench;
  readonly answer: FaultsAnswer;
  readonly circuit: string | null;
  readonly part: "faults" | "curves";
  readonly onTab: (tab: FaultTab) => void;
}) {
  const { selection, units } = useBench(bench);
  const { answer: own, fresh } = useCircuitFaults(bench, circuit);
  const panel = useRef<HTMLElement>(null);
  const before = useRef(selection);
  useEffect(() => {
    if (before.current !== selection) panel.current?.scrollIntoView({ block: "nearest" });
    before.current = selection;
  }, [selection]);
  if (circuit === null) return <p class="dim">No circuit of direct current that a source reaches.</p>;
  const row = answer.circuits.find((c) => c.circuit === circuit);
  const choices = answer.circuits.map((c) => c.circuit);
  return (
    <section
      class={`faults-chosen${part === "curves" ? " is-wide" : ""}`}
      aria-label={`Faults of ${circuit}`}
      aria-busy={!fresh}
      ref={panel}
    >
      <header>
        <label>
          <span class="unseen">Circuit</span>
          <select
            class="field"
            value={circuit}
            onChange={(event) => {
              bench.select(`circuits.${event.currentTarget.value}`);
            }}
          >
            {(choices.includes(circuit) ? choices : [circuit, ...choices]).map((id) => (
              <option key={id} value={id}>
                {id}
              </option>
            ))}
          </select>
        </label>
        <h3>{row === undefined ? circuit : `${row.from} → ${row.to}`}</h3>
        <div class="faults-deeds">
          {part === "faults" ? (
            <button
              type="button"
              class="button"
              onClick={() => {
                bench.select(`circuits.${circuit}`);
                onTab("curves");
              }}
            >
              Curves in time
            </button>
          ) : (
            <button
              type="button"
              class="button"
              onClick={() => {
                bench.select(`circuits.${circuit}`);
                onTab("map");
              }}
            >
              Its faults
            </button>
          )}
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.why(circuit);
            }}
          >
            Why its size
          </button>
          <button
            type="button"
            class="link"
            onClick={() => {
              bench.select(`circuits.${circuit}`);
              bench.go("one-line");
            }}
          >
            On the one-line
          </button>
        </div>
      </header>
      {own === null || own.circuit !== circuit ? (
        <p class="dim">{fresh ? `${circuit} is not of direct current, or no source reaches it.` : "working …"}</p>
      ) : part === "faults" ? (
        <CircuitPanel key={circuit} own={own} units={units} />
      ) : (
        <CurvesPanel bench={bench} own={own} units={units} />
      )}
    </section>
  );
}
