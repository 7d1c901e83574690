import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { KeyPath, Outcome } from "../contract.ts";
import { keyFor } from "../settings/keys.ts";
import { mayAct } from "../settings/typing.ts";
import { CellField } from "./cell-field.tsx";
import { CellText } from "./cell-text.tsx";
import { moveBy, type Place } from "./grid-keys.ts";
import { rowWindow, WINDOWED_ABOVE } from "./row-window.ts";
import { nextOrder, type Order } from "./sort-rows.ts";
import type { CellEdit, ColumnHead, Table, TableRow } from "./table.ts";

export interface GridProps {
  readonly table: Table;
  /** Sorted and filtered. */
  readonly rows: readonly TableRow[];
  /** The same rows as they would be with what stands in pencil. */
  readonly inPencil: ReadonlyMap<string, TableRow> | null;
  readonly order: Order | null;
  readonly onOrder: (order: Order | null) => void;
  readonly selection: KeyPath | null;
  readonly onSelect: (row: TableRow) => void;
  readonly onWhy: (row: TableRow) => void;
  /** Null: nothing can be changed here. */
  readonly onEdit: ((edit: CellEdit, text: string) => Promise<Outcome>) | null;
}

/** A schedule as a grid: one stop for Tab, arrows from cell to cell, Enter or F2 types over a figure, W asks why. */
export function Grid(props: GridProps) {
  const { table, rows, inPencil, order, onOrder, selection, onSelect, onWhy, onEdit } = props;
  const { columns } = table;
  const scroll = useRef<HTMLDivElement>(null);
  const grid = useRef<HTMLTableElement>(null);
  const wantsFocus = useRef(false);
  const [view, setView] = useState({ top: 0, height: 600, row: 33 });
  const [active, setActive] = useState<{ readonly id: string | null; readonly column: number }>({
    id: null,
    column: 0,
  });
  const [editing, setEditing] = useState<Place | null>(null);

  const found = rows.findIndex((r) => r.id === active.id);
  const at: Place = { row: active.id === HEAD ? -1 : Math.max(0, found), column: active.column };
  const isWindowed = rows.length > WINDOWED_ABOVE;
  const seen = rowWindow(rows.length, view.top, view.height, view.row);
  // Whoever is in a cell keeps it, wherever the wheel goes.
  const isHeld =
    isWindowed && at.row >= 0 && (editing !== null || grid.current?.contains(document.activeElement) === true);
  const first = isHeld ? Math.min(seen.first, at.row) : seen.first;
  const end = isHeld ? Math.max(seen.end, at.row + 1) : seen.end;

  useLayoutEffect(() => {
    const box = scroll.current;
    const row = grid.current?.querySelector<HTMLElement>("tr[data-row]")?.offsetHeight ?? view.row;
    if (
      box !== null &&
      isWindowed &&
      (box.clientHeight !== view.height || (editing === null && row !== view.row && row > 0))
    )
      setView({ top: box.scrollTop, height: box.clientHeight, row });
  });
  useLayoutEffect(() => {
    if (!wantsFocus.current) return;
    wantsFocus.current = false;
    focusOn(grid.current, at);
  });

  const goTo = (to: Place): void => {
    wantsFocus.current = true;
    setActive({ id: to.row < 0 ? HEAD : (rows[to.row]?.id ?? null), column: to.column });
    const box = scroll.current;
    if (isWindowed && box !== null && to.row >= 0) {
      const [top, bottom] = [to.row * view.row, (to.row + 1) * view.row];
      const head = grid.current?.tHead?.offsetHeight ?? 0;
      if (top < box.scrollTop) box.scrollTop = top;
      else if (bottom > box.scrollTop + box.clientHeight - head) box.scrollTop = bottom - box.clientHeight + head;
    }
  };
  const open = (row: TableRow, column: number): void => {
    onSelect(row);
    const place = { row: rows.indexOf(row), column };
    setActive({ id: row.id, column });
    if (onEdit !== null && row.cells[column]?.edit !== undefined) setEditing(place);
    else wantsFocus.current = true;
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.altKey || event.metaKey || editing !== null) return;
    const to = moveBy(event, at, { rows: rows.length, columns: columns.length, page: 10 });
    const row = rows[at.row];
    if (to !== null) goTo(to);
    else if (row === undefined || event.ctrlKey) return;
    else if (event.key === "Enter" || event.key === "F2") open(row, at.column);
    else if (event.key === " ") onSelect(row);
    else if (asksWhy(event) && row.subject !== null) onWhy(row);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div
      class="schedules-scroll"
      ref={scroll}
      {...(isWindowed
        ? {
            onScroll: (event) => {
              const { scrollTop, clientHeight } = event.currentTarget;
              // Drawn anew only when the rows beyond the edge are nearly used up.
              if (Math.abs(scrollTop - view.top) > 5 * view.row)
                setView({ ...view, top: scrollTop, height: clientHeight });
            },
          }
        : {})}
    >
      <table
        ref={grid}
        class={`schedules-table${isWindowed ? " is-windowed" : ""}`}
        role="grid"
        aria-label={table.title}
        aria-rowcount={rows.length + 1}
        aria-colcount={columns.length}
        aria-readonly="true"
        onKeyDown={onKeyDown}
        onFocusIn={(event) => {
          const place = placeOf(event.target);
          const id = place === null ? null : place.row < 0 ? HEAD : (rows[place.row]?.id ?? null);
          if (place !== null && (id !== active.id || place.column !== active.column))
            setActive({ id, column: place.column });
        }}
      >
        {isWindowed ? <Widths columns={columns} rows={rows} /> : null}
        <thead>
          <tr aria-rowindex={1}>
            {columns.map((column, i) => (
              <Head
                key={column.id}
                column={column}
                place={i}
                order={order}
                isActive={at.row === -1 && at.column === i}
                onOrder={(next) => {
                  setActive({ id: HEAD, column: i });
                  onOrder(next);
                }}
              />
            ))}
          </tr>
        </thead>
        <tbody>
          {first > 0 ? <Space height={first * view.row} columns={columns.length} /> : null}
          {rows.slice(first, end).map((row, i) => {
            const place = first + i;
            const isSelected = row.about !== null && row.about === selection;
            return (
              <tr
                key={row.id}
                data-row={place}
                aria-rowindex={place + 2}
                aria-selected={isSelected}
                class={isSelected ? "is-selected" : ""}
              >
                {row.cells.map((cell, c) => {
                  const column = columns[c];
                  const Tag = column?.isName === true ? "th" : "td";
                  const isEdited = editing?.row === place && editing.column === c && active.id === row.id;
                  const canEdit = onEdit !== null && cell.edit !== undefined;
                  return (
                    <Tag
                      key={column?.id ?? c}
                      {...(Tag === "th" ? { scope: "row" } : {})}
                      data-column={c}
                      class={`${column?.isNumber === true ? "num" : ""}${canEdit ? " is-editable" : ""}`}
                      tabIndex={at.row === place && at.column === c ? 0 : -1}
                      {...(canEdit ? { "aria-readonly": "false" } : {})}
                      onClick={() => {
                        open(row, c);
                      }}
                    >
                      {isEdited && cell.edit !== undefined && onEdit !== null ? (
                        <CellField
                          edit={cell.edit}
                          onCommit={(text) => onEdit(cell.edit ?? NO_EDIT, text)}
                          onClose={(byKey) => {
                            wantsFocus.current = byKey;
                            setEditing(null);
                          }}
                        />
                      ) : (
                        <CellText cell={cell} then={inPencil?.get(row.id)?.cells[c]} />
                      )}
                    </Tag>
                  );
                })}
              </tr>
            );
          })}
          {end < rows.length ? <Space height={(rows.length - end) * view.row} columns={columns.length} /> : null}
          {rows.length === 0 ? (
            <tr aria-rowindex={2}>
              <td class="schedules-empty" colSpan={columns.length} tabIndex={at.row >= 0 ? 0 : -1} data-column={0}>
                {table.rows.length === 0 ? table.empty : "No row holds these words."}
              </td>
            </tr>
          ) : null}
        </tbody>
      </table>
    </div>
  );
}

/** The head in place of a row's name; no row can have it. */
const HEAD = "\u0000head";

function asksWhy(event: KeyboardEvent): boolean {
  const key = keyFor(event, "schedules");
  return key?.does === "why" && mayAct(key, event.target);
}

const NO_EDIT: CellEdit = { about: "plan", field: "", text: "", label: "" };

function focusOn(grid: HTMLTableElement | null, { row, column }: Place): void {
  const line = row < 0 ? grid?.tHead?.rows[0] : grid?.querySelector(`tr[data-row="${row}"]`);
  const cell = line?.querySelector<HTMLElement>(`[data-column="${column}"]`);
  cell?.focus();
}

/** The cell that holds an element of the grid. */
function placeOf(target: EventTarget | null): Place | null {
  const cell = target instanceof Element ? target.closest<HTMLElement>("[data-column]") : null;
  if (cell === null) return null;
  return {
    row: Number(cell.closest<HTMLElement>("tr[data-row]")?.dataset["row"] ?? -1),
    column: Number(cell.dataset["column"]),
  };
}

function Head({
  column,
  place,
  order,
  isActive,
  onOrder,
}: {
  readonly column: ColumnHead;
  readonly place: number;
  readonly order: Order | null;
  readonly isActive: boolean;
  readonly onOrder: (order: Order | null) => void;
}) {
  const own = order?.column === place ? order : null;
  return (
    <th
      scope="col"
      class={column.isNumber === true ? "num" : ""}
      {...(column.least === undefined ? {} : { style: { minWidth: `${column.least}rem` } })}
      {...(own === null ? {} : { "aria-sort": own.down ? "descending" : "ascending" })}
    >
      <button
        type="button"
        class="schedules-head"
        data-column={place}
        tabIndex={isActive ? 0 : -1}
        {...(column.says === undefined ? {} : { "aria-label": `${column.head}: ${column.says}`, title: column.says })}
        onClick={() => {
          onOrder(nextOrder(order, place));
        }}
      >
        {column.head}
        <span class="schedules-order" aria-hidden>
          {own === null ? "" : own.down ? "▼" : "▲"}
        </span>
      </button>
    </th>
  );
}

/** Columns of a long table keep their widths while rows come and go. */
function Widths({ columns, rows }: { readonly columns: readonly ColumnHead[]; readonly rows: readonly TableRow[] }) {
  const widths = useMemo(
    () =>
      columns.map(({ head }, c) =>
        Math.min(
          32,
          rows.reduce((n, r) => Math.max(n, r.cells[c]?.text.length ?? 0), head.length + 2),
        ),
      ),
    [columns, rows],
  );
  return (
    <colgroup>
      {widths.map((width, c) => (
        <col key={columns[c]?.id ?? c} style={{ width: `${width + 3}ch` }} />
      ))}
    </colgroup>
  );
}

const Space = ({ height, columns }: { readonly height: number; readonly columns: number }) => (
  <tr aria-hidden class="schedules-space">
    <td colSpan={columns} style={{ height: `${height}px` }} />
  </tr>
);
