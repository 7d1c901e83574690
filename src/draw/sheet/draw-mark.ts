import type { Point, Shape } from "../scene.ts";
import { turnShape } from "../turn-shape.ts";

/** How grave a finding is. Shape first, colour second. */
export type MarkKind = "fail" | "warn" | "note" | "unknown";

/** Width of a mark, mm. */
export const MARK_MM = 2.7;
/** Width that its shapes are drawn in. */
const DRAWN_MM = 3;

const PEN = 0.25;
const around = ([x, y]: Point, points: readonly Point[]): Point[] => points.map(([dx, dy]) => [x + dx, y + dy]);

/**
 * The mark of a finding: solid octagon with a cross, triangle with `!`, dashed diamond with `?`, small i.
 *
 * @param centre of it, mm
 */
export function drawMark(kind: MarkKind, centre: Point): Shape[] {
  const [x, y] = centre;
  const scale = MARK_MM / DRAWN_MM;
  const move = ([px, py]: Point): Point => [x + scale * px, y + scale * py];
  return markShapes(kind, [0, 0]).map((shape) => turnShape(shape, 0, move, scale));
}

function markShapes(kind: MarkKind, centre: Point): Shape[] {
  const [x, y] = centre;
  switch (kind) {
    case "fail": {
      const [far, near] = [1.5, 0.62];
      const cross = 0.6;
      const corners: Point[] = [[-near, -far], [near, -far], [far, -near], [far, near], [near, far], [-near, far], [-far, near], [-far, -near]]; // prettier-ignore
      const line = (points: Point[]): Shape => ({
        is: "polyline",
        points: around(centre, points),
        stroke: { ink: "paper", width: 0.45 },
      });
      return [
        { is: "polyline", points: around(centre, corners), closed: true, fill: "fail" },
        line([[-cross, -cross], [cross, cross]]), // prettier-ignore
        line([[-cross, cross], [cross, -cross]]), // prettier-ignore
      ];
    }
    case "warn":
      return [
        {
          is: "polyline",
          points: around(centre, [[0, -1.4], [1.5, 1.2], [-1.5, 1.2]]), // prettier-ignore
          closed: true,
          stroke: { ink: "warn", width: 0.35 },
        },
        { is: "polyline", points: [[x, y - 0.55], [x, y + 0.3]], stroke: { ink: "warn", width: 0.35 } }, // prettier-ignore
        { is: "ellipse", centre: [x, y + 0.78], radii: [0.2, 0.2], fill: "warn" },
      ];
    case "unknown":
      return [
        {
          is: "polyline",
          points: around(centre, [[0, -1.5], [1.5, 0], [0, 1.5], [-1.5, 0]]), // prettier-ignore
          closed: true,
          stroke: { ink: "unknown", width: PEN, dash: [0.6, 0.4] },
        },
        { is: "arc", from: [x - 0.4, y - 0.35], to: [x, y + 0.1], radius: 0.42, large: true, sweep: true, stroke: { ink: "unknown", width: PEN } }, // prettier-ignore
        { is: "polyline", points: [[x, y + 0.1], [x, y + 0.32]], stroke: { ink: "unknown", width: PEN } }, // prettier-ignore
        { is: "ellipse", centre: [x, y + 0.75], radii: [0.17, 0.17], fill: "unknown" },
      ];
    case "note":
      return [
        { is: "ellipse", centre, radii: [1.35, 1.35], stroke: { ink: "ink2", width: PEN } },
        { is: "polyline", points: [[x, y - 0.2], [x, y + 0.75]], stroke: { ink: "ink2", width: 0.35 } }, // prettier-ignore
        { is: "ellipse", centre: [x, y - 0.7], radii: [0.2, 0.2], fill: "ink2" },
      ];
  }
}
