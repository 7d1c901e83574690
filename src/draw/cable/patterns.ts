import { colourLooks, type ColourPattern } from "../../wire/colour/index.ts";
import type { CoreInk } from "../scene.ts";

/** How a colour is told apart without colour: lines at some angles, broken ones, or dots. */
export interface Pattern {
  /** Of its lines, degrees, 0 across and 90 upright; empty: none. */
  readonly angles: readonly number[];
  /** Between lines, mm on paper. */
  readonly pitch: number;
  /** mm on, mm off, nought on for dots; null: solid lines. */
  readonly dash: readonly [on: number, off: number] | null;
}

const lines = (angles: readonly number[], pitch = 1, dash: Pattern["dash"] = null): Pattern => ({
  angles,
  pitch,
  dash,
});
const broken = (angle: number, pitch = 1): Pattern => lines([angle], pitch, [0.9, 0.7]);
const dots = (pitch: number): Pattern => lines([0], pitch, [0, pitch]);
const [WIDE, CLOSE] = [1.5, 0.65];

/** The lines of each pattern; where one is drawn without lines, letters tell it from others. */
export const patterns: Readonly<Record<ColourPattern, Pattern>> = {
  full: lines([]),
  empty: lines([]),
  outline: lines([]),
  halves: lines([]),
  circles: lines([]),
  upright: lines([90]),
  level: lines([0]),
  falling: lines([45]),
  rising: lines([-45]),
  dotted: dots(0.8),
  "crossed slanting": lines([45, -45], 1.2),
  "crossed square": lines([0, 90], 1.2),
  "upright broken": broken(90),
  "level broken": broken(0),
  "falling broken": broken(45),
  "rising broken": broken(-45),
  "level wide": lines([0], WIDE),
  "level close": lines([0], CLOSE),
  "falling wide": lines([45], WIDE),
  "falling close": lines([45], CLOSE),
  "level broken wide": broken(0, WIDE),
  "level broken close": broken(0, CLOSE),
  "dotted wide": dots(1.2),
  "dotted close": dots(0.55),
  metal: lines([-45], CLOSE),
};

/** Colours on which white lines are seen better than black ones. */
const DARK: readonly CoreInk[] = ["BK", "BN", "RD", "GN", "BU", "VT", "DBU", "DGN", "DGY"];

/** The pattern of a colour, and what its lines are drawn in. */
export const patternOf = (ink: CoreInk): Pattern & { readonly pen: "BK" | "WH" } => ({
  ...patterns[colourLooks[ink].pattern],
  pen: DARK.includes(ink) ? "WH" : "BK",
});

/** Whether letters are those of a colour that has an ink. */
export const isCoreInk = (letters: string): letters is CoreInk => Object.hasOwn(colourLooks, letters);
