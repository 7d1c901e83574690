import { useEffect, useMemo, useState } from "preact/hooks";
import "./faults.css";
import "../schedules/schedules.css";
import type { Bench } from "../contract.ts";
import { OutcomeMark, outcomeMeans, outcomeWords } from "../look/outcome-mark.tsx";
import { Tabs } from "../look/tabs.tsx";
import { Cards } from "../schedules/cards.tsx";
import { Grid } from "../schedules/grid.tsx";
import { sortRows, type Order } from "../schedules/sort-rows.ts";
import type { TableRow } from "../schedules/table.ts";
import { useNarrow } from "../schedules/use-narrow.ts";
import { useBench } from "../use-bench.ts";
import type { FaultsAnswer } from "../worker/fault-answers.ts";
import { BanksPanel } from "./banks-panel.tsx";
import { ChosenCircuit } from "./chosen-circuit.tsx";
import { byGravity, faultTable, type FaultTableId } from "./fault-tables.ts";
import { circuitOf, faultTabs, readTab, TAB_EVENT, tabTitles, writeTab, type FaultTab } from "./place.ts";
import { useFaults } from "./use-faults.ts";

/** What a short anywhere draws, who sees it and when that opens: as a map of all circuits, and in time for one. */
export function FaultsView({ bench }: { readonly bench: Bench }) {
  const { plan, operatingState, pencil, broken, working, selection } = useBench(bench);
  const { answer, fresh } = useFaults(bench);
  const [tab, setTab] = useState<FaultTab>(readTab);
  useEffect(() => {
    const follow = (): void => {
      setTab(readTab());
    };
    addEventListener(TAB_EVENT, follow);
    return () => {
      removeEventListener(TAB_EVENT, follow);
    };
  }, []);
  const choose = (to: FaultTab): void => {
    writeTab(to);
    setTab(to);
  };
  const isLate = working || !fresh;
  // With nothing chosen, the one whose faults end gravest.
  const circuit = (plan === null ? null : circuitOf(plan, selection)) ?? (answer === null ? null : (byGravity(answer.circuits)[0]?.circuit ?? null)); // prettier-ignore
  return (
    <section class={`faults${isLate ? " is-late" : ""}`} aria-labelledby="faults-title">
      <header class="faults-head">
        <h2 id="faults-title">Faults</h2>
        <p class="dim">
          {answer === null ? null : countEnds(answer)}
          {pencil === null ? "" : " Figures are of the plan in ink."}
        </p>
      </header>
      <Tabs name="faults" ids={faultTabs} titles={tabTitles} which={tab} onChoose={choose} />
      <div
        class="faults-panel"
        role="tabpanel"
        id="faults-panel"
        aria-labelledby={`faults-tab-${tab}`}
        aria-busy={isLate}
      >
        {answer === null ? (
          <p class="dim">{broken ?? (fresh ? "No fault current was worked out." : "working …")}</p>
        ) : tab === "banks" ? (
          <BanksPanel banks={answer.banks} />
        ) : tab === "curves" ? (
          <ChosenCircuit bench={bench} answer={answer} circuit={circuit} part="curves" onTab={choose} />
        ) : tab === "map" ? (
          <div class="faults-map">
            <div class="faults-list">
              <FaultGrid bench={bench} id="map" answer={answer} circuit={circuit} state={operatingState} />
              <Legend />
            </div>
            <ChosenCircuit bench={bench} answer={answer} circuit={circuit} part="faults" onTab={choose} />
          </div>
        ) : (
          <FaultGrid key={tab} bench={bench} id={tab} answer={answer} circuit={circuit} state={operatingState} />
        )}
        {answer === null || answer.notStudied.length === 0 ? null : (
          <p class="dim faults-note">{sentence(answer.notStudied.join("; "))}</p>
        )}
        <p class="dim faults-note">
          Direct current only. Loads, arcs and the heating of wires while a fault lasts are left out. No certificate: a
          licensed person decides.
        </p>
      </div>
    </section>
  );
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

const ends = ["cleared", "limited", "too small", "not proven", "not seen"] as const;

/** `12 circuits cleared, 3 limited, 13 not proven.` */
function countEnds({ circuits }: FaultsAnswer): string {
  const counted = ends.flatMap((end) => {
    const count = circuits.filter(({ outcome }) => outcome === end).length;
    return count === 0 ? [] : [`${count} ${outcomeWords[end]}`];
  });
  return counted.length === 0 ? "No fault current." : `Faults of ${circuits.length} circuits: ${counted.join(", ")}.`;
}

function FaultGrid({
  bench,
  id,
  answer,
  circuit,
  state,
}: {
  readonly bench: Bench;
  readonly id: FaultTableId;
  readonly answer: FaultsAnswer;
  /** In hand. */
  readonly circuit: string | null;
  readonly state: string | null;
}) {
  const { units, selection } = useBench(bench);
  const [order, setOrder] = useState<Order | null>(null);
  const isNarrow = useNarrow();
  const table = useMemo(() => faultTable(id, answer, state, units), [id, answer, state, units]);
  const rows = useMemo(() => sortRows(table.rows, order), [table, order]);
  const props = {
    table,
    rows,
    inPencil: null,
    order,
    onOrder: setOrder,
    selection: id === "map" && circuit !== null ? `circuits.${circuit}` : selection,
    onSelect: (row: TableRow) => {
      if (row.about !== null) bench.select(row.about);
    },
    onWhy: () => undefined,
    onEdit: null,
  };
  return (
    <>
      {isNarrow ? <Cards {...props} /> : <Grid {...props} />}
      {table.notes.map((note) => (
        <p key={note} class="dim faults-note">
          {note}
        </p>
      ))}
    </>
  );
}

const Legend = () => (
  <details class="faults-legend">
    <summary>What the letters say</summary>
    <dl>
      {ends.map((end) => (
        <div key={end}>
          <dt>
            <OutcomeMark outcome={end} /> {outcomeWords[end]}
          </dt>
          <dd class="dim">{outcomeMeans[end]}</dd>
        </div>
      ))}
    </dl>
  </details>
);
