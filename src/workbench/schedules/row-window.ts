/** Tables with more rows than this are drawn only where they are seen. */
export const WINDOWED_ABOVE = 300;
/** Rows drawn beyond either edge, so that a fast wheel shows no gap. */
const OVERSCAN = 12;

export interface RowWindow {
  /** First row that is drawn, and the one behind the last. */
  readonly first: number;
  readonly end: number;
}

/**
 * Which rows of a long table are drawn.
 *
 * @param count of all rows
 * @param top of the view, px from the top of the first row
 * @param height of the view, px
 * @param rowHeight px, above 0; all rows are as high
 * @returns all rows of a short table
 */
export function rowWindow(count: number, top: number, height: number, rowHeight: number): RowWindow {
  if (count <= WINDOWED_ABOVE) return { first: 0, end: count };
  const seen = Math.ceil(height / rowHeight) + 2 * OVERSCAN;
  const first = Math.max(0, Math.min(Math.floor(top / rowHeight) - OVERSCAN, count - seen));
  return { first, end: Math.min(count, first + seen) };
}
