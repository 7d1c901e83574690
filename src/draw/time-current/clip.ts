import type { Point } from "../scene.ts";
import type { Box } from "../shape-box.ts";

/**
 * The part of a straight line within a box.
 *
 * @returns null where none of it is
 * @example
 * clipLine([0, 5], [20, 5], [[0, 0], [10, 10]]) //=> [[0, 5], [10, 5]]
 * clipLine([0, 15], [20, 15], [[0, 0], [10, 10]]) //=> null
 */
export function clipLine(from: Point, to: Point, [[x1, y1], [x2, y2]]: Box): readonly [Point, Point] | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [start, end] = [0, 1];
  for (const [step, room] of [
    [-dx, from[0] - x1],
    [dx, x2 - from[0]],
    [-dy, from[1] - y1],
    [dy, y2 - from[1]],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null;
    } else if (step < 0) start = Math.max(start, room / step);
    else end = Math.min(end, room / step);
  }
  if (start > end) return null;
  const at = (share: number): Point => [from[0] + share * dx, from[1] + share * dy];
  return [at(start), at(end)];
}

/** The pieces of a line of several corners within a box. */
export function clipPath(points: readonly Point[], box: Box): readonly (readonly Point[])[] {
  const pieces: Point[][] = [];
  for (const [i, from] of points.slice(0, -1).entries()) {
    const part = clipLine(from, points[i + 1] ?? from, box);
    if (part === null) continue;
    const last = pieces.at(-1);
    const end = last?.at(-1);
    if (last !== undefined && end?.[0] === part[0][0] && end[1] === part[0][1]) last.push(part[1]);
    else pieces.push([...part]);
  }
  return pieces;
}

/** The part of an area within a box; empty where none of it is. */
export function clipArea(points: readonly Point[], [[x1, y1], [x2, y2]]: Box): readonly Point[] {
  const sides: readonly (readonly [axis: 0 | 1, at: number, sign: 1 | -1])[] = [
    [0, x1, 1],
    [0, x2, -1],
    [1, y1, 1],
    [1, y2, -1],
  ];
  return sides.reduce<readonly Point[]>((area, [axis, at, sign]) => {
    const inside = (p: Point): boolean => sign * (p[axis] - at) >= 0;
    return area.flatMap((point, i): Point[] => {
      const before = area.at(i - 1) ?? point;
      const crosses = inside(point) !== inside(before);
      const kept = inside(point) ? [point] : [];
      if (!crosses) return kept;
      const share = (at - before[axis]) / (point[axis] - before[axis]);
      const other = before[1 - axis as 0 | 1] + share * (point[1 - axis as 0 | 1] - before[1 - axis as 0 | 1]); // prettier-ignore
      return [axis === 0 ? [at, other] : [other, at], ...kept];
    });
  }, points);
}

/**
 * Lines that fill an area at an angle.
 *
 * @param degrees 0: level, 90: upright
 * @param pitch mm from line to line
 */
export function hatch(area: readonly Point[], degrees: number, pitch: number): readonly (readonly [Point, Point])[] {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  // Turned so that the lines of the hatch lie level.
  const turned = area.map(([x, y]): Point => [x * cos + y * sin, y * cos - x * sin]);
  const back = ([u, v]: Point): Point => [u * cos - v * sin, v * cos + u * sin];
  const heights = turned.map(([, v]) => v);
  const lines: (readonly [Point, Point])[] = [];
  for (let v = Math.ceil(Math.min(...heights) / pitch) * pitch; v < Math.max(...heights); v += pitch) {
    const cuts = turned
      .flatMap((to, i): number[] => {
        const from = turned.at(i - 1) ?? to;
        if (from[1] < v === to[1] < v) return [];
        return [from[0] + ((v - from[1]) * (to[0] - from[0])) / (to[1] - from[1])];
      })
      .sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) lines.push([back([cuts[i] ?? 0, v]), back([cuts[i + 1] ?? 0, v])]);
  }
  return lines;
}
