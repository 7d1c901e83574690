import { isFree } from "../one-line/is-free.ts";
import { putNote, textInk, type Sketch } from "../one-line/sketch.ts";
import type { Point, Shape } from "../scene.ts";
import { MARK_MM } from "../sheet/draw-mark.ts";
import { boxAround, shapeBox, type Box } from "../shape-box.ts";

const HALF = MARK_MM / 2;
const AIR = 0.7;
/** From a wire to the middle of a mark beside it, and from place to place along it, mm. */
const BESIDE = 2.2;
const STEP = 1.25;

/** Marks what has findings and no row of its own: beside its caption where there is room, else along its line. */
export function markRest(sketch: Sketch): void {
  for (const about of sketch.findings.keys()) {
    if (sketch.told.has(about) || !sketch.shown.has(about)) continue;
    const own = sketch.items.filter(
      (i) => i.about === about || (i.about === null && i.of?.length === 1 && i.of[0] === about),
    );
    const captions = own.filter(({ role }) => role === "caption");
    const others = own.filter(({ role }) => role === "symbol" || role === "bar" || role === "wire");
    const places = [...captions, ...others].flatMap(({ role, shapes }) => [
      ...shapes.flatMap(placesBy),
      ...(role === "symbol" ? aroundBox(boxAround(shapes.flatMap(shapeBox))) : []),
    ]);
    const at = places.find(([x, y]) => isFree(sketch, [[x - HALF, y - HALF], [x + HALF, y + HALF]])); // prettier-ignore
    if (at !== undefined) putNote(sketch, [about], [at[0] - HALF, at[1]]);
  }
}

/** Middles of marks beside a shape, the best first. */
function placesBy(shape: Shape): Point[] {
  if (shape.is !== "polyline") return aroundBox(shape.is === "text" ? textInk(shape) : shapeBox(shape));
  return shape.points.slice(1).flatMap(([x2, y2], i): Point[] => {
    const [x1, y1] = shape.points[i] ?? [x2, y2];
    const length = Math.hypot(x2 - x1, y2 - y1);
    const places: Point[] = [];
    for (let at = 0; at <= length; at += STEP) {
      const [x, y] = length === 0 ? [x1, y1] : [x1 + ((x2 - x1) * at) / length, y1 + ((y2 - y1) * at) / length];
      places.push([x + BESIDE, y], [x - BESIDE, y], [x, y - BESIDE], [x, y + BESIDE]);
    }
    return places;
  });
}

const aroundBox = ([[x1, y1], [x2, y2]]: Box): Point[] => {
  const out = AIR + HALF;
  const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
  const sides: Point[] = [[x2 + out, y], [x1 - out, y], [x, y1 - out], [x, y2 + out]]; // prettier-ignore
  // Where neighbours stand close, a place at a corner may be free, or one a little farther.
  const corners = [out, out + MARK_MM / 2].flatMap((far): Point[] => [[x1, y2 + far], [x2, y2 + far], [x1, y1 - far], [x2, y1 - far]]); // prettier-ignore
  return [...sides, ...corners];
};
