import type { ColourLetters } from "../wire/colour/index.ts";

/**
 * A drawing as plain data, before it is SVG or PDF: shapes in millimetres on paper, gathered under the thing of the plan that they stand for.
 * Ink is named by its role, so that one scene serves paper, screen and grey print.
 */

/** Millimetres; x to the right, y down, from the top left corner of the paper. */
export type Point = readonly [x: number, y: number];

/** Insulation, by the letters of its colour, which are no role: each is drawn with a pattern of its own as well. */
export type CoreInk = ColourLetters;

/** What a cable is made of beside coloured insulation. */
export type MatterInk = "copper" | "tin" | "aluminium" | "sheath" | "filler";

/** What a line or a text is drawn in, by role. */
export type Ink =
  | CoreInk
  | MatterInk
  | "ink"
  | "ink2"
  | "frame"
  | "hair"
  | "paper"
  | "fail"
  | "warn"
  | "pass"
  | "unknown"
  | "focus"
  /** Copper and symbols through which nothing flows in the state shown. */
  | "idle"
  /** The band under copper that is as wide as its current; it says nothing alone. */
  | "flow";

export interface Stroke {
  readonly ink: Ink;
  /** mm. */
  readonly width: number;
  /** mm on, mm off, …; none: solid. */
  readonly dash?: readonly number[];
}

/** How a shape is drawn; neither stroke nor fill: it is not seen. */
export interface Look {
  readonly stroke?: Stroke;
  readonly fill?: Ink;
}

export type Anchor = "start" | "middle" | "end";

/** Which figure or name of its thing a text is, for who edits a drawing. */
export type Field = "number" | "name" | "size" | "length" | "device" | "load" | "rating";

export interface TextShape {
  readonly is: "text";
  /** Of the anchor, on the baseline. */
  readonly at: Point;
  readonly text: string;
  /** Height of capitals, mm. */
  readonly capMm: number;
  readonly weight: "regular" | "semibold";
  readonly anchor: Anchor;
  readonly ink: Ink;
  /** Absent: it is only read. */
  readonly field?: Field;
}

export type Shape =
  | ({ readonly is: "polyline"; readonly points: readonly Point[]; readonly closed?: boolean } & Look)
  | ({
      readonly is: "rectangle";
      readonly from: Point;
      readonly to: Point;
      /** Of its corners, mm. */
      readonly radius?: number;
    } & Look)
  | ({ readonly is: "ellipse"; readonly centre: Point; readonly radii: readonly [x: number, y: number] } & Look)
  | ({
      readonly is: "arc";
      readonly from: Point;
      readonly to: Point;
      readonly radius: number;
      /** As in the arcs of SVG. */
      readonly large: boolean;
      readonly sweep: boolean;
    } & Look)
  | TextShape;

/** What an item is, which says what it may not touch: a wire may meet a symbol at its port, a text may meet nothing. */
export type ItemRole = "flow" | "symbol" | "wire" | "bar" | "caption" | "frame" | "mark" | "table" | "sheet";

/** One thing on the paper. */
export interface Item {
  readonly role: ItemRole;
  /** Key path in the plan, such as `circuits.W13` or `parts.fridge`; null: it stands for nothing in the plan. */
  readonly about: string | null;
  /** What a reader who cannot see it is told; empty: nothing, it repeats what another item says. */
  readonly name: string;
  readonly shapes: readonly Shape[];
}

export interface Scene {
  /** Of the paper, mm. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** What it shows, in a sentence. */
  readonly says: string;
  /** From the back to the front. */
  readonly items: readonly Item[];
}
