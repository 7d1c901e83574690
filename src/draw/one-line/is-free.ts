import type { Point } from "../scene.ts";
import type { Box } from "../shape-box.ts";
import type { Sketch } from "./sketch.ts";

const HALO = 0.5;

/** Whether a text may stand there: nothing solid, no wire, no line of a frame. */
export function isFree(sketch: Sketch, [[x1, y1], [x2, y2]]: Box): boolean {
  const meets = ([[a1, b1], [a2, b2]]: Box, by: number): boolean =>
    a1 - by < x2 && a2 + by > x1 && b1 - by < y2 && b2 + by > y1;
  const line = ([[a1, b1], [a2, b2]]: readonly [Point, Point]): Box => [
    [Math.min(a1, a2), Math.min(b1, b2)],
    [Math.max(a1, a2), Math.max(b1, b2)],
  ];
  if (sketch.solids.some((box) => meets(box, 0))) return false;
  if (sketch.pieces.some((piece) => meets(line(piece), HALO + 0.2))) return false;
  return sketch.items.every(
    ({ role, shapes }) =>
      role !== "frame" ||
      shapes.every(
        (s) =>
          s.is !== "polyline" || s.points.every((p, i) => i === 0 || !meets(line([s.points[i - 1] ?? p, p]), HALO)),
      ),
  );
}
