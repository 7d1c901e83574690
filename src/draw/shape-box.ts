import type { Point, Shape, TextShape } from "./scene.ts";
import { textWidth } from "./text-width.ts";

/** Top left and bottom right corner, mm. */
export type Box = readonly [from: Point, to: Point];

/** The smallest box about some points; at least one. */
export const boxAround = (points: readonly Point[]): Box => {
  let [x1, y1, x2, y2] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x1 = Math.min(x1, x);
    y1 = Math.min(y1, y);
    x2 = Math.max(x2, x);
    y2 = Math.max(y2, y);
  }
  return [
    [x1, y1],
    [x2, y2],
  ];
};

/**
 * The box of a shape's middle lines: a pen adds half its width on each side. Of a text: its width by the height of its capitals, without what hangs below.
 *
 * @example
 * shapeBox({ is: "ellipse", centre: [10, 10], radii: [3, 2] }) //=> [[7, 8], [13, 12]]
 * shapeBox({ is: "arc", from: [-1, 0], to: [1, 0], radius: 1, large: false, sweep: true }) //=> [[-1, -1], [1, 0]]
 */
export function shapeBox(shape: Shape): Box {
  switch (shape.is) {
    case "polyline":
      return boxAround(shape.points);
    case "rectangle":
      return boxAround([shape.from, shape.to]);
    case "ellipse": {
      const [[x, y], [rx, ry]] = [shape.centre, shape.radii];
      return [
        [x - rx, y - ry],
        [x + rx, y + ry],
      ];
    }
    case "arc": {
      const circle = arcCircle(shape);
      const quarters = [0, 1, 2, 3].map((quarter) => (quarter * Math.PI) / 2);
      const within = quarters.filter((angle) => turnFrom(circle.start, angle, circle.sweep) <= Math.abs(circle.turn));
      return boxAround([shape.from, shape.to, ...within.map((angle) => pointOn(circle, angle))]);
    }
    case "text":
      return textBox(shape);
  }
}

function textBox({ at: [x, y], text, capMm, weight, anchor }: TextShape): Box {
  const width = textWidth(text, capMm, weight);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return [
    [left, y - capMm],
    [left + width, y],
  ];
}

/** A circle with the part of it that an arc is; angles in radians, clockwise on paper. */
export interface ArcCircle {
  readonly centre: Point;
  readonly radius: number;
  readonly start: number;
  /** Positive: clockwise. */
  readonly turn: number;
  readonly sweep: boolean;
}

const FULL = 2 * Math.PI;

/** From one angle on to another in the sense of the arc, 0…2π. */
const turnFrom = (start: number, end: number, sweep: boolean): number =>
  (((sweep ? end - start : start - end) % FULL) + FULL) % FULL;

/** The point of a circle at an angle. */
export const pointOn = ({ centre: [x, y], radius }: ArcCircle, angle: number): Point => [
  x + radius * Math.cos(angle),
  y + radius * Math.sin(angle),
];

/**
 * The circle that an arc lies on. A radius too small to join its ends grows until it does, as in SVG.
 *
 * @source SVG 1.1, appendix F.6.5 and F.6.6, for a circle
 */
export function arcCircle({
  from: [x1, y1],
  to: [x2, y2],
  radius,
  large,
  sweep,
}: Shape & { readonly is: "arc" }): ArcCircle {
  const half = Math.hypot(x2 - x1, y2 - y1) / 2;
  const r = Math.max(radius, half);
  // From the middle of the chord to the centre, across the chord.
  const across = half === 0 ? 0 : Math.sqrt(Math.max(0, r * r - half * half)) / (2 * half);
  const side = large === sweep ? 1 : -1;
  const cx = (x1 + x2) / 2 + side * across * (y2 - y1);
  const cy = (y1 + y2) / 2 - side * across * (x2 - x1);
  const start = Math.atan2(y1 - cy, x1 - cx);
  const turn = turnFrom(start, Math.atan2(y2 - cy, x2 - cx), sweep);
  return { centre: [cx, cy], radius: r, start, turn: sweep ? turn : -turn, sweep };
}
