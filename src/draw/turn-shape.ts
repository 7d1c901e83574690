import type { Point, Shape } from "./scene.ts";

/** Degrees clockwise on paper. */
export type Turn = 0 | 90 | 180 | 270;

/**
 * A point turned about [0, 0].
 *
 * @example
 * turnPoint([0, -7.5], 90) //=> [7.5, 0]
 * turnPoint([0, -7.5], 270) //=> [-7.5, 0]
 */
export function turnPoint([x, y]: Point, turn: Turn): Point {
  // Sums with 0 turn a negative zero into 0.
  switch (turn) {
    case 0:
      return [x, y];
    case 90:
      return [0 - y, x];
    case 180:
      return [0 - x, 0 - y];
    case 270:
      return [y, 0 - x];
  }
}

/**
 * A shape turned about [0, 0], then moved and scaled. Texts stay upright about the middle of their capitals; a turn leaves the sense of an arc as it is.
 *
 * @param move where a turned point goes; it must scale by `scale`, alike in x and y
 */
export function turnShape(shape: Shape, turn: Turn, move: (point: Point) => Point, scale: number): Shape {
  const go = (point: Point): Point => move(turnPoint(point, turn));
  switch (shape.is) {
    case "polyline":
      return { ...shape, points: shape.points.map(go) };
    case "rectangle": {
      const [ax, ay] = go(shape.from);
      const [bx, by] = go(shape.to);
      return {
        ...shape,
        from: [Math.min(ax, bx), Math.min(ay, by)],
        to: [Math.max(ax, bx), Math.max(ay, by)],
        ...(shape.radius === undefined ? {} : { radius: shape.radius * scale }),
      };
    }
    case "ellipse": {
      const [rx, ry] = turn === 90 || turn === 270 ? [shape.radii[1], shape.radii[0]] : shape.radii;
      return { ...shape, centre: go(shape.centre), radii: [rx * scale, ry * scale] };
    }
    case "arc":
      return { ...shape, from: go(shape.from), to: go(shape.to), radius: shape.radius * scale };
    case "text": {
      const [x, y] = go([shape.at[0], shape.at[1] - shape.capMm / 2]);
      const capMm = shape.capMm * scale;
      return { ...shape, at: [x, y + capMm / 2], capMm };
    }
  }
}
