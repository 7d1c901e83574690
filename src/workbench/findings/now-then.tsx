import type { NowThen } from "./cure-words.ts";

/** What is, and what would be. */
export function NowThenTable({ rows, label }: { readonly rows: readonly NowThen[]; readonly label: string }) {
  if (rows.length === 0) return null;
  return (
    <table class="findings-change" role="table" aria-label={label}>
      <thead class="unseen">
        <tr>
          <th scope="col">what</th>
          <th scope="col">now</th>
          <th scope="col">then</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, now, then }, i) => (
          <tr key={`${name} ${i}`} role="row">
            <th scope="row" role="rowheader">
              {name}
            </th>
            <td role="cell">{now === "" ? null : now}</td>
            <td role="cell" class="findings-then">
              <span aria-hidden>→ </span>
              {then}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
