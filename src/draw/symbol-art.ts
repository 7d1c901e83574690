import type { Anchor, Point, Shape } from "./scene.ts";
import type { Box } from "./shape-box.ts";

/** Of the pen on an A4 one-line, mm. */
export const SYMBOL_PEN = 0.25;
/** Between a symbol and its designation, mm. */
export const LABEL_GAP = 1.25;

/** A place where a wire meets a symbol. */
export interface SymbolPort {
  readonly name: string;
  readonly role: string;
  readonly at: Point;
  /** Unit vector away from the symbol. */
  readonly out: Point;
}

/** A graphical symbol on paper, mm; as found its origin is [0, 0] and its supply on top. */
export interface SymbolArt {
  readonly key: string;
  readonly name: string;
  /** Letters that begin its designation, such as `FC`; `-`: it has none. */
  readonly className: string;
  /** Whether it turns as a whole, stays upright while its ports go round it, or never turns. */
  readonly turns: "free" | "ports" | "none";
  readonly shapes: readonly Shape[];
  /** Which shapes form a sign that stays upright, as texts do. */
  readonly signs: readonly (readonly number[])[];
  readonly ports: readonly SymbolPort[];
  /** Top left and bottom right corner of its lines, texts and ports; a pen adds half its width. */
  readonly box: Box;
  /** Where its designation stands: `at` is on the middle of the capitals' height. */
  readonly label: { readonly at: Point; readonly anchor: Anchor } | null;
}
