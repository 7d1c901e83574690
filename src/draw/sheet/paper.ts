import type { Point } from "../scene.ts";
import type { Box } from "../shape-box.ts";

export type PaperName = "A4" | "A3" | "Letter";

/** A sheet of paper, its frame and the fields along it; mm. */
export interface Paper {
  readonly name: PaperName;
  readonly width: number;
  readonly height: number;
  readonly frame: Box;
  /** Fields across and down. */
  readonly zones: readonly [across: number, down: number];
}

const FILING = 20;
const EDGE = 10;
/** Length of a field, counted from the middle; those at the ends take what remains. */
const FIELD = 50;

const paper = (name: PaperName, width: number, height: number, zones: Paper["zones"]): Paper => ({
  name,
  width,
  height,
  frame: [
    [FILING, EDGE],
    [width - EDGE, height - EDGE],
  ],
  zones,
});

/** @source ISO 5457, sizes and margins, from memory; Letter takes the same margins by choice */
export const papers: Readonly<Record<PaperName, Paper>> = {
  A4: paper("A4", 210, 297, [4, 6]),
  A3: paper("A3", 420, 297, [8, 6]),
  Letter: paper("Letter", 215.9, 279.4, [4, 6]),
};

/** Where the fields of one side end, mm from its beginning. */
export function fieldEnds(length: number, count: number): number[] {
  const middle = length / 2;
  return Array.from({ length: count }, (_, i) => (i === count - 1 ? length : middle + FIELD * (i + 1 - count / 2)));
}

/** Letters of the fields down: without I and O. */
export const LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/**
 * The field of a sheet in which a point lies.
 *
 * @example
 * zoneOf(papers.A4, [30, 20]) //=> "A1"
 * zoneOf(papers.A4, [199, 280]) //=> "F4"
 */
export function zoneOf({ frame: [[x1, y1], [x2, y2]], zones: [across, down] }: Paper, [x, y]: Point): string {
  const find = (ends: readonly number[], at: number): number => {
    const i = ends.findIndex((end) => at <= end);
    return i < 0 ? ends.length - 1 : i;
  };
  const column = find(fieldEnds(x2 - x1, across), x - x1);
  return `${LETTERS[find(fieldEnds(y2 - y1, down), y - y1)] ?? ""}${column + 1}`;
}
