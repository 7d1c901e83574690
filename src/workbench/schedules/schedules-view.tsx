import { useMemo, useState } from "preact/hooks";
import "./schedules.css";
import type { Bench } from "../contract.ts";
import { Tabs } from "../look/tabs.tsx";
import { useFaults } from "../faults/use-faults.ts";
import { useBench } from "../use-bench.ts";
import { Cards } from "./cards.tsx";
import { printDelimited } from "./delimited-text.ts";
import { Grid } from "./grid.tsx";
import { makeTable } from "./make-table.ts";
import { filterRows, sortRows, type Order } from "./sort-rows.ts";
import { scheduleIds, scheduleTitles, type ScheduleId } from "./table.ts";
import { useNarrow } from "./use-narrow.ts";

/** Everything of the plan as tables: read, sorted, filtered, typed over, copied. */
export function SchedulesView({ bench }: { readonly bench: Bench }) {
  const { plan, pencil, units, selection, readOnly, working, broken } = useBench(bench);
  const [which, setWhich] = useState<ScheduleId>("circuits");
  const [orders, setOrders] = useState<Partial<Record<ScheduleId, Order | null>>>({});
  const [filter, setFilter] = useState("");
  const isNarrow = useNarrow();
  const order = orders[which] ?? null;
  // Figures of an older text are not shown beside those of this one.
  const { answer, fresh } = useFaults(bench);
  const studied = fresh ? answer : null;

  const table = useMemo(
    () => (plan === null ? null : makeTable(which, plan, units, studied)),
    [which, plan, units, studied],
  );
  const inPencil = useMemo(
    () =>
      pencil === null || pencil.plan === null
        ? null
        : new Map(makeTable(which, pencil.plan, units, studied).rows.map((r) => [r.id, r])),
    [which, pencil, units, studied],
  );
  const rows = useMemo(
    () => (table === null ? [] : filterRows(sortRows(table.rows, order), filter)),
    [table, order, filter],
  );

  const copy = (form: "tabs" | "commas"): void => {
    if (table === null) return;
    navigator.clipboard.writeText(printDelimited(table.columns, rows, form)).then(
      () => {
        bench.say(`${table.title}, ${countRows(rows.length)} copied`);
      },
      () => {
        bench.say("the browser does not let the page copy; select the table and copy it by hand");
      },
    );
  };

  return (
    <section class={`schedules${working ? " is-late" : ""}`} aria-labelledby="schedules-title">
      <h2 id="schedules-title">Schedules</h2>
      <Tabs name="schedules" ids={scheduleIds} titles={scheduleTitles} which={which} onChoose={setWhich} />
      <div
        class="schedules-panel"
        role="tabpanel"
        id="schedules-panel"
        aria-labelledby={`schedules-tab-${which}`}
        aria-busy={working}
      >
        {table === null ? (
          <p class="dim">{broken ?? "Reading the plan …"}</p>
        ) : (
          <>
            <div class="schedules-tools">
              <label>
                <span class="dim">Filter </span>
                <input
                  class="field"
                  type="search"
                  value={filter}
                  onInput={(event) => {
                    setFilter(event.currentTarget.value);
                  }}
                />
              </label>
              <p class="dim" role="status">
                {rows.length === table.rows.length
                  ? countRows(rows.length)
                  : `${rows.length} of ${countRows(table.rows.length)}`}
                {working ? ", working …" : ""}
                {inPencil === null ? "" : `, in pencil: ${pencil?.says ?? ""}`}
              </p>
              <span class="schedules-copy">
                <button
                  type="button"
                  class="link"
                  onClick={() => {
                    copy("tabs");
                  }}
                >
                  Copy as TSV
                </button>
                <button
                  type="button"
                  class="link"
                  onClick={() => {
                    copy("commas");
                  }}
                >
                  Copy as CSV
                </button>
              </span>
            </div>
            <Shown
              key={which}
              isNarrow={isNarrow}
              table={table}
              rows={rows}
              inPencil={inPencil}
              order={order}
              onOrder={(next) => {
                setOrders({ ...orders, [which]: next });
              }}
              selection={selection}
              onSelect={(row) => {
                if (row.about !== null) bench.select(row.about);
              }}
              onWhy={(row) => {
                if (row.subject !== null) bench.why(row.subject);
              }}
              onEdit={
                readOnly
                  ? null
                  : (edit, text) => bench.act({ do: "set-figure", about: edit.about, field: edit.field, text })
              }
            />
            {table.notes.map((note) => (
              <p key={note} class="dim schedules-note">
                {note}
              </p>
            ))}
            {isNarrow ? null : (
              <p class="dim schedules-note">
                Enter or F2 types over a figure, Esc gives the old one back, W asks why. Figures that can be typed over
                are underlined.
              </p>
            )}
          </>
        )}
      </div>
    </section>
  );
}

function Shown({ isNarrow, ...props }: Parameters<typeof Grid>[0] & { readonly isNarrow: boolean }) {
  return isNarrow ? <Cards {...props} /> : <Grid {...props} />;
}

const countRows = (n: number): string => `${n} ${n === 1 ? "row" : "rows"}`;
