import type { Point, Shape } from "../scene.ts";
import type { Box } from "../shape-box.ts";
import { TEXT_CAP, words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";

/** A label that wants to stand at a line. */
export interface LabelWish {
  readonly text: string;
  readonly weight: "regular" | "semibold";
  /** Its line, in pieces; the best places first. */
  readonly line: readonly (readonly Point[])[];
}

export interface PlacedLabel {
  readonly box: Box;
  /** To its line; drawn before all words, so that it runs through none. */
  readonly leader: readonly Shape[];
  readonly words: readonly Shape[];
}

const CAP = TEXT_CAP;
/** Between a line and its label, and about a label. */
const GAP = 1.5;
const PAD = 0.5;
/** A row of the column beside the plot. */
const ROW = 3.9;

const overlaps = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box): boolean =>
  ax1 < bx2 && bx1 < ax2 && ay1 < by2 && by1 < ay2;
const within = ([[ax1, ay1], [ax2, ay2]]: Box, [[x1, y1], [x2, y2]]: Box): boolean =>
  ax1 >= x1 && ax2 <= x2 && ay1 >= y1 && ay2 <= y2;

function crosses([[x1, y1], [x2, y2]]: Box, from: Point, to: Point): boolean {
  // Most lines are elsewhere.
  if (Math.max(from[0], to[0]) < x1 || Math.min(from[0], to[0]) > x2) return false;
  if (Math.max(from[1], to[1]) < y1 || Math.min(from[1], to[1]) > y2) return false;
  let [start, end] = [0, 1];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  for (const [step, room] of [
    [-dx, from[0] - x1],
    [dx, x2 - from[0]],
    [-dy, from[1] - y1],
    [dy, y2 - from[1]],
  ] as const) {
    // prettier-ignore
    if (step === 0) {
      if (room < 0) return false;
    } else if (step < 0) start = Math.max(start, room / step);
    else end = Math.min(end, room / step);
  }
  return start <= end;
}

/** Points along a line, from its beginning, every so many mm. */
function along(pieces: readonly (readonly Point[])[], every: number): Point[] {
  return pieces.flatMap((piece) =>
    piece.slice(0, -1).flatMap((from, i): Point[] => {
      const to = piece[i + 1] ?? from;
      const steps = Math.max(1, Math.round(Math.hypot(to[0] - from[0], to[1] - from[1]) / every));
      return Array.from({ length: steps }, (_, k) => [
        from[0] + ((to[0] - from[0]) * (k + 0.5)) / steps,
        from[1] + ((to[1] - from[1]) * (k + 0.5)) / steps,
      ]);
    }),
  );
}

/**
 * Finds a place for each label: at its line, over nothing else where there is such a place, and never over another label; else in the column beside
 * the plot, with a leader.
 *
 * @param inside where labels at lines may stand
 * @param column beside the plot, for those that find no room at their line
 * @param others lines that have no label here, and are better not written over
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  inside: Box,
  column: Box,
  others: readonly (readonly Point[])[] = [],
): readonly PlacedLabel[] {
  const lines = [...wishes.flatMap(({ line }) => line), ...others].flatMap((piece) => piece.slice(0, -1).map((from, i) => [from, piece[i + 1] ?? from] as const)); // prettier-ignore
  const boxes: Box[] = [];
  const free = (box: Box): boolean => !boxes.some((other) => overlaps(box, other));
  return wishes.map((wish): PlacedLabel => {
    const width = textWidth(wish.text, CAP, wish.weight) + 2 * PAD;
    const height = CAP + 2 * PAD + 0.5; // what hangs below the line of writing
    let best: { readonly box: Box; readonly at: Point; readonly cost: number } | null = null;
    for (const [rank, [x, y]] of along(wish.line, 4).entries()) {
      // Further along the line nothing can be better.
      if (best !== null && rank >= (best as { readonly cost: number }).cost) break; // the compiler does not follow the loop
      const corners: readonly Point[] = [
        [x + GAP, y - height / 2],
        [x - GAP - width, y - height / 2],
        [x + GAP, y - GAP - height],
        [x - width / 2, y - GAP - height],
        [x - GAP - width, y + GAP],
        [x + GAP, y + GAP],
      ];
      for (const [side, corner] of corners.entries()) {
        const box: Box = [corner, [corner[0] + width, corner[1] + height]];
        if (!within(box, inside) || !free(box)) continue;
        const over = lines.filter(([from, to]) => crosses(box, from, to)).length;
        const cost = over * 12 + rank + side * 0.2;
        if (best === null || cost < best.cost) best = { box, at: [x, y], cost };
      }
    }
    const found = best as { readonly box: Box; readonly at: Point } | null; // assigned in the loops, which the compiler does not follow
    const placed = found === null ? inColumn(wish, width, height, column, free) : written(wish, found.box, found.at);
    boxes.push(placed.box);
    return placed;
  });
}

/** The words on paper of their own, with a leader from a dot on the line: between two bands a name alone could be either's. */
function written({ text, weight }: LabelWish, box: Box, at: Point | null): PlacedLabel {
  const [[x, y], [right, bottom]] = box;
  const back: Shape = { is: "rectangle", from: box[0], to: box[1], radius: 0.4, fill: "paper" };
  const leader: Shape[] = [];
  if (at !== null) {
    const end: Point = [Math.min(Math.max(at[0], x), right), Math.min(Math.max(at[1], y), bottom)];
    leader.push({ is: "polyline", points: [at, end], stroke: { ink: "ink", width: 0.25 } });
    leader.push({ is: "ellipse", centre: at, radii: [0.6, 0.6], fill: "ink" });
  }
  return { box, leader, words: [back, words(text, [x + PAD, y + PAD + CAP], { weight })] };
}

function inColumn(
  wish: LabelWish,
  width: number,
  height: number,
  column: Box,
  free: (box: Box) => boolean,
): PlacedLabel {
  const [[left, top], [, bottom]] = column;
  const points = along(wish.line, 4);
  const anchor = points.reduce<Point | null>((best, p) => (best === null || p[0] > best[0] ? p : best), null);
  const rows = Math.floor((bottom - top) / ROW);
  const wanted = anchor?.[1] ?? top;
  const boxes = Array.from({ length: rows }, (_, i): Box => {
    const y = top + i * ROW;
    return [[left, y], [left + width, y + height]]; // prettier-ignore
  });
  const box =
    boxes.filter(free).sort((a, b) => Math.abs(a[0][1] - wanted) - Math.abs(b[0][1] - wanted))[0] ??
    ([[left, bottom], [left + width, bottom + height]] satisfies Box); // prettier-ignore
  return written(wish, box, anchor);
}
