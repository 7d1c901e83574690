import { useState } from "preact/hooks";
import { CellField } from "./cell-field.tsx";
import { CellText } from "./cell-text.tsx";
import type { GridProps } from "./grid.tsx";
import type { TableRow } from "./table.ts";

/** So many cards at first; more when asked for. */
const AT_FIRST = 60;

/** A schedule on a narrow page: one card a row, the figures that matter in the hand, each to be pressed and typed over. */
export function Cards({ table, rows, inPencil, selection, onSelect, onWhy, onEdit }: GridProps) {
  const [shown, setShown] = useState(AT_FIRST);
  if (rows.length === 0)
    return <p class="schedules-empty">{table.rows.length === 0 ? table.empty : "No row holds these words."}</p>;
  return (
    <>
      <ul class="schedules-cards" aria-label={table.title}>
        {rows.slice(0, shown).map((row) => (
          <Card
            key={row.id}
            table={table}
            row={row}
            then={inPencil?.get(row.id)}
            isSelected={row.about !== null && row.about === selection}
            onSelect={onSelect}
            onWhy={onWhy}
            onEdit={onEdit}
          />
        ))}
      </ul>
      {shown < rows.length ? (
        <button
          type="button"
          class="button"
          onClick={() => {
            setShown(shown + 2 * AT_FIRST);
          }}
        >
          Show more: {rows.length - shown} left
        </button>
      ) : null}
    </>
  );
}

function Card({
  table,
  row,
  then,
  isSelected,
  onSelect,
  onWhy,
  onEdit,
}: Pick<GridProps, "table" | "onSelect" | "onWhy" | "onEdit"> & {
  readonly row: TableRow;
  readonly then: TableRow | undefined;
  readonly isSelected: boolean;
}) {
  const [editing, setEditing] = useState<number | null>(null);
  const name = table.columns.findIndex((c) => c.isName);
  const title = row.cells[name]?.text ?? row.id;
  return (
    <li class={`schedules-card${isSelected ? " is-selected" : ""}`}>
      <h3>
        {row.about === null ? (
          title
        ) : (
          <button
            type="button"
            class="schedules-title"
            aria-pressed={isSelected}
            onClick={() => {
              onSelect(row);
            }}
          >
            {title}
          </button>
        )}
      </h3>
      <dl>
        {table.columns.map((column, c) => {
          const cell = row.cells[c];
          if (column.onCard !== true || cell === undefined) return null;
          const { edit } = cell;
          return (
            <div key={column.id} class={column.id === "status" || column.isWide === true ? "is-wide" : ""}>
              <dt>{column.head}</dt>
              <dd>
                {edit === undefined || onEdit === null ? (
                  <CellText cell={cell} then={then?.cells[c]} />
                ) : editing === c ? (
                  <CellField
                    edit={edit}
                    onCommit={(text) => onEdit(edit, text)}
                    onClose={() => {
                      setEditing(null);
                    }}
                  />
                ) : (
                  <button
                    type="button"
                    class="schedules-figure"
                    onClick={() => {
                      onSelect(row);
                      setEditing(c);
                    }}
                  >
                    <CellText cell={cell} then={then?.cells[c]} />
                    <span class="unseen">, change the {edit.label}</span>
                  </button>
                )}
              </dd>
            </div>
          );
        })}
      </dl>
      {row.subject === null ? null : (
        <button
          type="button"
          class="link"
          onClick={() => {
            onWhy(row);
          }}
        >
          Why<span class="unseen"> {title}</span>
        </button>
      )}
    </li>
  );
}
