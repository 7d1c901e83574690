import { isFree } from "../one-line/is-free.ts";
import { put, type Drawn, type Sketch } from "../one-line/sketch.ts";
import type { Point } from "../scene.ts";
import { boxAround, shapeBox, type Box } from "../shape-box.ts";

const RADIUS = 0.8;
/** From the edge of a bar to the middle of its ring, mm. */
const OUT = 2.2;
/** Rows of a bar, mm. */
const ROW = 2.5;

/**
 * Sets an open ring at each bar and panel that has room for another load: after its last way where nothing else stands there, else higher up.
 *
 * @param isOpen whether a load can be hung on the part of a key path
 */
export function drawHandles(sketch: Sketch, isOpen: (about: string) => boolean): void {
  const bars = sketch.items.filter(({ role, about }) => role === "bar" && about !== null && isOpen(about));
  for (const bar of bars) drawHandle(sketch, bar);
}

function drawHandle(sketch: Sketch, bar: Drawn): void {
  const [[x1, y1], [x2, y2]] = boxAround(bar.shapes.flatMap(shapeBox));
  const places: Point[] = [[x2 + OUT, y2 + 0.05], [(x1 + x2) / 2, y2 + OUT]]; // prettier-ignore
  for (let y = y2 - ROW / 2; y > y1 - ROW; y -= ROW / 2) places.push([x2 + OUT, y], [x1 - OUT, y]);
  places.push([x1 - OUT, y2 + 0.05], [(x1 + x2) / 2, y1 - OUT]);
  // Only what stands near can be in the way.
  const near = nearby(sketch, [x1 - REACH, y1 - REACH], [x2 + REACH, y2 + REACH]);
  const centre = places.find((at) => isFree(near, around(at)));
  if (centre === undefined || bar.about === null) return;
  const stem: Point[] = centre[0] > x2 ? [[x2, centre[1]], [centre[0] - RADIUS, centre[1]]] : []; // prettier-ignore
  const id = bar.about.slice("parts.".length);
  const pen = { ink: "ink2", width: 0.25 } as const;
  put(
    sketch,
    "mark",
    bar.about,
    `free way of ${id}: add a load`,
    [
      ...(stem.length > 0 && centre[1] < y2 ? [{ is: "polyline", points: stem, stroke: pen } as const] : []),
      { is: "ellipse", centre, radii: [RADIUS, RADIUS], stroke: pen, fill: "paper" },
    ],
    around(centre),
  );
}

/** Beyond the farthest ring and its halo, mm. */
const REACH = 6;

function nearby(sketch: Sketch, [x1, y1]: Point, [x2, y2]: Point): Sketch {
  const meets = ([[a1, b1], [a2, b2]]: Box): boolean => a1 < x2 && a2 > x1 && b1 < y2 && b2 > y1;
  return {
    ...sketch,
    solids: sketch.solids.filter(meets),
    pieces: sketch.pieces.filter((piece) => meets(boxAround(piece))),
    items: sketch.items.filter(({ role }) => role === "frame"),
  };
}

const around = ([x, y]: Point): Box => [
  [x - RADIUS, y - RADIUS],
  [x + RADIUS, y + RADIUS],
];
