import type { ColourOnPaper } from "../../size/index.ts";
import { isCoreInk } from "../cable/patterns.ts";
import { inks } from "../inks.ts";
import type { Ink, Point, Shape, Stroke } from "../scene.ts";

/** Height of capitals, and from line to line, in units of the drawing: mm on A4. */
export const CAP = 1.8;
export const LINE = 2.9;
/** From conductor to conductor. */
export const PITCH = 5;

const WIRE = 0.45;
const CASED = 0.85;

/** How a function is told without colour: line solid, neutral broken, earth chained. */
export const dashOf = (fn: string): readonly number[] | null =>
  fn === "N" ? [4, 1.4] : fn === "PE" || fn === "pole" ? [6, 1, 0.9, 1] : null;

/** Insulation that paper would swallow gets an edge. */
function isPale(ink: Ink): boolean {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => Number.parseInt(inks[ink].light.slice(i, i + 2), 16));
  return 0.3 * r + 0.59 * g + 0.11 * b > 130;
}

/** Ink of a core whose colour is known; of several colours the first. */
const inkOf = (colour: ColourOnPaper | undefined): Ink => {
  const first = colour?.letters.split("/")[0] ?? "";
  // Green-yellow is one colour of two, drawn as its green.
  return first === "GNYE" ? "GN" : isCoreInk(first) ? first : "ink";
};

/** A conductor on its way. */
export function wireShapes(points: readonly Point[], fn: string, colour: ColourOnPaper | undefined): Shape[] {
  const ink = inkOf(colour);
  const dash = dashOf(fn);
  const line = (stroke: Stroke): Shape => ({
    is: "polyline",
    points,
    stroke: dash === null ? stroke : { ...stroke, dash },
  });
  if (!isPale(ink)) return [line({ ink, width: WIRE })];
  return [line({ ink: "ink", width: CASED }), line({ ink, width: WIRE })];
}

/** Letters of a function and its colour: `N BU`; in brackets where it is only proposed. */
export function coreText(fn: string, colour: ColourOnPaper | undefined): string {
  const name = fn === "pole" ? "PE" : fn;
  if (colour === undefined) return name;
  return colour.by === "plan" ? `${name} ${colour.letters}` : `${name} (${colour.letters})`;
}

export const thin = (points: readonly Point[], dash?: readonly number[]): Shape => ({
  is: "polyline",
  points,
  stroke: { ink: "ink", width: 0.25, ...(dash === undefined ? {} : { dash }) },
});

export const dot = (centre: Point): Shape => ({ is: "ellipse", centre, radii: [0.8, 0.8], fill: "ink" });

export const terminal = (centre: Point): Shape => ({
  is: "ellipse",
  centre,
  radii: [0.6, 0.6],
  fill: "paper",
  stroke: { ink: "ink", width: 0.2 },
});
