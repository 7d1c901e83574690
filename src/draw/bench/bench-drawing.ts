import type { Gravity } from "../one-line/index.ts";
import type { Scene } from "../scene.ts";
import type { StateView } from "./read-state.ts";

export interface BenchOptions {
  readonly variant: "iec" | "na";
  /** Operating state that is shown; null, or one that the plan does not have: contacts at rest, nothing grey. */
  readonly state: string | null;
  /** What is on and how contacts stand, where it is no state of the plan. */
  readonly view?: Omit<StateView, "bladeOf">;
  /** Whether figures say what they are and free ways have a ring, for who edits the drawing. */
  readonly handles?: boolean;
}

/** mm. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The mark of findings about a thing; mm, of its middle. Where two things share a row they share a mark. */
export interface BenchMark {
  readonly about: string;
  readonly gravity: Gravity;
  readonly x: number;
  readonly y: number;
}

/** The one-line that the page works on. Plain data. */
export interface BenchDrawing {
  readonly scene: Scene;
  /** What each thing of the plan takes up, with its captions, by key path. */
  readonly places: Readonly<Record<string, Place>>;
  /** From top to bottom, then from left to right. */
  readonly marks: readonly BenchMark[];
  /** What there is no place for on the drawing, in words. */
  readonly notDrawn: readonly string[];
}

/** CSS pixels of a millimetre, where a drawing fills the desk of the page: 940 px. */
export const PX_PER_MM = 940 / 176;
