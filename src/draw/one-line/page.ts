import type { Columns } from "./columns.ts";
import type { Hand } from "./draw-line.ts";
import type { PartView } from "./part-view.ts";

/** What everything that is drawn on one page shares: the hand, the columns, and where modules lie on paper. */
export interface Page {
  readonly hand: Hand;
  readonly columns: Columns;
  /** mm of a module across and down. */
  readonly x: (modules: number) => number;
  readonly y: (modules: number) => number;
  /** No caption of a line into the root goes beyond, modules. */
  readonly edge?: number;
  /** Middle of what stands left of the root alone; else its usual column. */
  readonly near?: number;
  /** The panel that is its root: its main device stands in the line to it. */
  readonly panel?: PartView;
}
