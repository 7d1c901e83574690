import { OutcomeMark } from "../look/outcome-mark.tsx";
import { StatusShape } from "../look/status-shape.tsx";
import type { Cell } from "./table.ts";

/** What stands in a cell; where the pencil would change it, the other figure behind an arrow. */
export function CellText({ cell, then }: { readonly cell: Cell; readonly then?: Cell | undefined }) {
  const changes = then !== undefined && then.text !== cell.text;
  return (
    <>
      {cell.status === undefined ? null : <StatusShape status={cell.status} size={16} />}
      {cell.outcome === undefined ? null : <OutcomeMark outcome={cell.outcome} />}
      <span class={changes ? "schedules-now" : ""}>{cell.text}</span>
      {changes ? (
        <span class="schedules-then">
          <span aria-hidden> → </span>
          <span class="unseen">, in pencil </span>
          {then.text}
        </span>
      ) : null}
      {cell.more === undefined || cell.more === "" ? null : <small class="schedules-more">{cell.more}</small>}
    </>
  );
}
