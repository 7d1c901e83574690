/** A cell of a grid; row −1 is the head. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

export interface GridSize {
  readonly rows: number;
  readonly columns: number;
  /** Rows that a page key passes. */
  readonly page: number;
}

interface Key {
  readonly key: string;
  readonly ctrlKey: boolean;
}

/**
 * Where a key leads from a cell, as in every grid: arrows a step, Home and End along the row, with Ctrl to the first and last cell, pages up and down.
 *
 * @returns null: the key does not move
 */
export function moveBy({ key, ctrlKey }: Key, { row, column }: Place, size: GridSize): Place | null {
  const last = { row: size.rows - 1, column: size.columns - 1 };
  const to = (r: number, c: number): Place => ({
    row: Math.max(-1, Math.min(r, last.row)),
    column: Math.max(0, Math.min(c, last.column)),
  });
  switch (key) {
    case "ArrowDown":
      return to(row + 1, column);
    case "ArrowUp":
      return to(row - 1, column);
    case "ArrowRight":
      return to(row, column + 1);
    case "ArrowLeft":
      return to(row, column - 1);
    case "Home":
      return ctrlKey ? to(Math.min(0, last.row), 0) : to(row, 0);
    case "End":
      return ctrlKey ? to(last.row, last.column) : to(row, last.column);
    case "PageDown":
      return to(row + size.page, column);
    case "PageUp":
      return to(Math.max(0, row - size.page), column);
    default:
      return null;
  }
}
