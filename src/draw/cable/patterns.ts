import type { CoreInk } from "../scene.ts";

/** How a colour is told apart without colour: lines at some angles, or dots. */
export interface Pattern {
  /** Of its lines, degrees, 0 across and 90 upright; empty: none. */
  readonly angles: readonly number[];
  /** Between lines, mm on paper. */
  readonly pitch: number;
  /** mm on, mm off; null: solid lines. Nought on: dots. */
  readonly dash: readonly [on: number, off: number] | null;
  /** What is seen on the colour. */
  readonly ink: "BK" | "WH";
}

const lines = (angles: readonly number[], ink: Pattern["ink"], pitch = 1, dash: Pattern["dash"] = null): Pattern => ({
  angles,
  pitch,
  dash,
  ink,
});

/**
 * The pattern of each colour. Where heraldry has a hatching it is that one: red upright, blue level, green falling, violet rising, yellow dotted, white
 * empty; black is full.
 *
 * @source hatching of Petra Sancta, 1638, as engravers and stampmakers use it; light blue, brown, orange, grey, pink, turquoise and tan by choice
 */
export const patterns: Readonly<Record<CoreInk, Pattern>> = {
  BK: lines([], "WH"),
  WH: lines([], "BK"),
  RD: lines([90], "WH"),
  BU: lines([0], "WH"),
  LBU: lines([0], "BK", 1.5),
  GN: lines([45], "WH"),
  VT: lines([-45], "WH"),
  YE: lines([0], "BK", 0.8, [0, 0.8]),
  BN: lines([45, -45], "WH", 1.2),
  OG: lines([90], "BK", 1, [0.9, 0.7]),
  GY: lines([0], "BK", 1, [0.9, 0.7]),
  PK: lines([45], "BK", 1, [0.9, 0.7]),
  TQ: lines([0, 90], "BK", 1.2),
  TN: lines([-45], "BK", 1, [0.9, 0.7]),
};
