import type { CoreInk, Point, Shape } from "../scene.ts";
import { patternOf } from "./patterns.ts";

/** A ring, or a part of one between two angles; mm on paper, radians, clockwise from the right. */
export interface Ring {
  readonly centre: Point;
  readonly inner: number;
  readonly outer: number;
  /** Absent: all round. */
  readonly part?: readonly [from: number, to: number];
}

/** From one angle on to another, 0…2π. */
const turn = (from: number, to: number): number => (((to - from) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

const at = ([x, y]: Point, radius: number, angle: number): Point => [
  x + radius * Math.cos(angle),
  y + radius * Math.sin(angle),
];

/** Whether a point lies in a ring. */
export function isInRing({ centre, inner, outer, part }: Ring, [x, y]: Point): boolean {
  const [dx, dy] = [x - centre[0], y - centre[1]];
  const distance = Math.hypot(dx, dy);
  if (distance < inner || distance > outer) return false;
  return part === undefined || turn(part[0], Math.atan2(dy, dx)) <= turn(part[0], part[1]);
}

/** Fills a ring with a colour and its pattern, the lines cut where the ring ends. What lies inside it is to be drawn afterwards. */
export function fillRing(ring: Ring, ink: CoreInk): Shape[] {
  const { centre, inner, outer, part } = ring;
  const shapes: Shape[] = [];
  if (part === undefined) shapes.push({ is: "ellipse", centre, radii: [outer, outer], fill: ink });
  else {
    const [from, to] = part;
    const steps = Math.max(2, Math.ceil(turn(from, to) / 0.08));
    const angles = Array.from({ length: steps + 1 }, (_, i) => from + (turn(from, to) * i) / steps);
    const points = [
      ...angles.map((angle) => at(centre, outer, angle)),
      ...angles.reverse().map((angle) => at(centre, inner, angle)),
    ];
    shapes.push({ is: "polyline", points, closed: true, fill: ink });
  }
  return [...shapes, ...patternIn(ring, ink)];
}

/** Width of the lines and radius of the dots of a pattern, mm; and the radius of a ring, mm, below which all of it is drawn smaller, to how much at least. */
const [PEN, DOT, SMALL, LEAST] = [0.18, 0.17, 4.2, 0.55];

function patternIn(ring: Ring, ink: CoreInk): Shape[] {
  const { pen, ...pattern } = patternOf(ink);
  const scale = Math.max(LEAST, Math.min(1, ring.outer / SMALL));
  const [width, dot] = [PEN * scale, DOT * scale];
  const pitch = pattern.pitch * scale;
  const dash = pattern.dash?.map((length) => length * scale);
  const shapes: Shape[] = [];
  const { centre, outer } = ring;
  for (const degrees of pattern.angles) {
    const angle = (degrees * Math.PI) / 180;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const rows = Math.floor(outer / pitch);
    for (let row = -rows; row <= rows; row++) {
      // Half a pitch aside, so that no line runs through the middle alone.
      const aside = (row + 0.5) * pitch;
      const pointAt = (t: number): Point => [centre[0] + cos * t - sin * aside, centre[1] + sin * t + cos * aside];
      for (const [from, to] of runsIn(ring, aside, angle, pointAt)) {
        if (dash === undefined) {
          shapes.push({ is: "polyline", points: [pointAt(from), pointAt(to)], stroke: { ink: pen, width } }); // prettier-ignore
          continue;
        }
        const [on = 0, off = 0] = dash;
        const each = on + off;
        // Every second row is moved by half a step.
        const start = row % 2 === 0 ? 0 : each / 2;
        for (let t = start + Math.floor((from - start) / each) * each; t < to; t += each) {
          if (on === 0) {
            const whole = [t - dot, t + dot].every((s) => s >= from && s <= to);
            if (whole) shapes.push({ is: "ellipse", centre: pointAt(t), radii: [dot, dot], fill: pen });
            continue;
          }
          const [a, b] = [Math.max(t, from), Math.min(t + on, to)];
          if (b - a > width) shapes.push({ is: "polyline", points: [pointAt(a), pointAt(b)], stroke: { ink: pen, width } }); // prettier-ignore
        }
      }
    }
  }
  return shapes;
}

/** The stretches of a line that lie in a ring: it is cut at both circles and at the ends of the part, and each piece is in or out as its middle is. */
function runsIn(
  ring: Ring,
  aside: number,
  angle: number,
  pointAt: (t: number) => Point,
): readonly (readonly [from: number, to: number])[] {
  // The pen is as wide inside as outside.
  const inset: Ring = { ...ring, inner: ring.inner + PEN / 2, outer: ring.outer - PEN / 2 };
  const cuts: number[] = [];
  for (const radius of [inset.inner, inset.outer]) {
    if (radius <= Math.abs(aside)) continue;
    const half = Math.sqrt(radius * radius - aside * aside);
    cuts.push(-half, half);
  }
  for (const end of ring.part ?? []) {
    // On the ray t·cos(angle−end) = aside·sin(angle−end) … the line meets it where both agree across it.
    const across = Math.sin(angle - end);
    if (Math.abs(across) > 1e-9) cuts.push((-aside * Math.cos(angle - end)) / across);
  }
  cuts.sort((a, b) => a - b);
  return cuts.slice(1).flatMap((to, i) => {
    const from = cuts[i] ?? to;
    return to - from > 0.1 && isInRing(inset, pointAt((from + to) / 2)) ? [[from, to] as const] : [];
  });
}
