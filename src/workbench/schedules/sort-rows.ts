import type { TableRow } from "./table.ts";

/** Which column, and which way; null: as the schedule gives them. */
export interface Order {
  readonly column: number;
  readonly down: boolean;
}

const collator = new Intl.Collator("en", { numeric: true, sensitivity: "base" });

/**
 * Rows by one column: numbers by size, names as people count (`W9` before `W10`), equal rows as they stood, what has no value last whichever way.
 *
 * @param order null: as they stand
 */
export function sortRows(rows: readonly TableRow[], order: Order | null): readonly TableRow[] {
  if (order === null) return rows;
  const { column, down } = order;
  return [...rows].sort((a, b) => {
    const [x, y] = [a.cells[column]?.by ?? null, b.cells[column]?.by ?? null];
    if (x === null || y === null) return Number(x === null) - Number(y === null);
    const d = typeof x === "number" && typeof y === "number" ? x - y : collator.compare(String(x), String(y));
    return down ? -d : d;
  });
}

/** Rows in which every typed word stands, in any cell, whatever the capitals. */
export function filterRows(rows: readonly TableRow[], typed: string): readonly TableRow[] {
  const words = typed
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== "");
  if (words.length === 0) return rows;
  return rows.filter(({ cells }) => {
    const text = cells
      .map((c) => c.text)
      .join("\u0000")
      .toLowerCase();
    return words.every((w) => text.includes(w));
  });
}

/** The order after a press on a head: up, down, as given. */
export function nextOrder(order: Order | null, column: number): Order | null {
  if (order?.column !== column) return { column, down: false };
  return order.down ? null : { column, down: true };
}
