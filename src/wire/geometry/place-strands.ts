import type { Circle, StrandLay } from "./cable-section-shape.ts";

/** Wires and the circle round them, about 0, 0. */
export interface PlacedStrands {
  readonly lay: StrandLay;
  readonly circles: readonly Circle[];
  /** Of the circle round all of them, mm. */
  readonly radius: number;
}

/** 1, 7, 19, 37, … : a middle wire and layers of 6, 12, 18, … */
const layersOf = (count: number): number | null => {
  const layers = Math.round((Math.sqrt(12 * count - 3) - 3) / 6);
  return 3 * layers * (layers + 1) + 1 === count ? layers : null;
};

/** Bunched strands leave more air than layers do: the circle round them is 1.17 times as thick as one solid wire (common practice). */
const BUNCHED = 1.17;

/**
 * Lays round wires of equal thickness beside each other, as a drawing needs them.
 *
 * Whole layers (1, 7, 19, 37, 61, …) lie concentrically; other counts lie in a close pattern that is opened to the air that bunched strands leave.
 * Wires stay circles: nothing is compacted, and the slant of the lay (about 2 % of width) is left out.
 *
 * @param count 1 or more
 * @param wireRadius mm
 * @param isFine bunched even where the count fills whole layers
 * @returns none overlaps another, all lie within `radius`
 * @source layers: constants of strand diameter 3, 5, 7, … wires across; bunched: 1.17 × the solid diameter, common practice
 * @example
 * placeStrands(19, 0.5, false).radius //=> 2.5
 * placeStrands(19, 0.5, false).lay //=> "concentric"
 */
export function placeStrands(count: number, wireRadius: number, isFine: boolean): PlacedStrands {
  const r = wireRadius;
  if (count === 1) return { lay: "solid", circles: [{ x: 0, y: 0, radius: r }], radius: r };
  const layers = isFine && count > 7 ? null : layersOf(count);
  return layers === null ? bunch(count, r) : concentric(layers, r);
}

/**
 * Fewer and thicker wires in place of many, with the same metal and in the same circle.
 *
 * @param count of the real wires; more than `most`
 * @param wireRadius of a real wire, mm
 * @param most greatest number that may be laid; 1 or more
 * @returns as `placeStrands`, its radius and its lay those of the real wires
 */
export function placeStandIns(count: number, wireRadius: number, isFine: boolean, most: number): PlacedStrands {
  const radius = strandsRadius(count, wireRadius, isFine);
  // Below this a heap may be wider than the real one; whole layers are 1.152 times the solid wire at most, which no real lay is under.
  const drawn = most >= SURELY_OPEN ? most : ([61, 37, 19, 7].find((layered) => layered <= most) ?? 1);
  const r = wireRadius * Math.sqrt(count / drawn);
  const placed = placeStrands(drawn, r, most >= SURELY_OPEN);
  const open = placed.radius > r ? (radius - r) / (placed.radius - r) : 1;
  const circles = placed.circles.map(({ x, y }) => ({ x: x * open, y: y * open, radius: r }));
  return { lay: !isFine && layersOf(count) !== null ? "concentric" : "bunched", circles, radius };
}

/** From so many wires on a close heap is always narrower than bunched strands are: 1 + 1.05 · √n against 1.17 · √n. */
const SURELY_OPEN = 200;

/** Of the circle round all wires, without laying them one by one where they are many. */
function strandsRadius(count: number, r: number, isFine: boolean): number {
  if (count < SURELY_OPEN) return placeStrands(count, r, isFine).radius;
  const layers = isFine ? null : layersOf(count);
  return layers === null ? BUNCHED * Math.sqrt(count) * r : (2 * layers + 1) * r;
}

function concentric(layers: number, r: number): PlacedStrands {
  const circles: Circle[] = [{ x: 0, y: 0, radius: r }];
  for (let layer = 1; layer <= layers; layer++) {
    for (let i = 0; i < 6 * layer; i++) {
      const angle = (i * Math.PI) / (3 * layer);
      circles.push({ x: 2 * layer * r * Math.cos(angle), y: 2 * layer * r * Math.sin(angle), radius: r });
    }
  }
  return { lay: "concentric", circles, radius: (2 * layers + 1) * r };
}

/** Points of a triangular lattice, the nearest to a middle first; of three middles the one that makes the smallest heap. */
function bunch(count: number, r: number): PlacedStrands {
  const middles = [
    [0, 0],
    [1, 0],
    [1, 1 / Math.sqrt(3)],
  ];
  // Of many the heap is opened anyhow, and which is the tightest makes no difference.
  const heaps = middles.slice(0, count < SURELY_OPEN ? 3 : 1).map(([x = 0, y = 0]) => heap(count, x, y));
  const tightest = heaps.reduce((best, next) => (next.reach < best.reach ? next : best));
  const closed = tightest.reach * r + r;
  const radius = Math.max(closed, BUNCHED * Math.sqrt(count) * r);
  // Two wires and a middle between them have a reach of 1; only a single wire has none, and that is solid.
  const step = tightest.reach > 0 ? (radius - r) / tightest.reach : 0;
  return {
    lay: "bunched",
    circles: tightest.points.map(([x, y]) => ({ x: x * step, y: y * step, radius: r })),
    radius,
  };
}

/** In units of the wire's radius. */
interface Heap {
  readonly points: readonly (readonly [number, number])[];
  readonly reach: number;
}

function heap(count: number, middleX: number, middleY: number): Heap {
  const rows = Math.ceil(Math.sqrt(count)) + 2;
  const points: (readonly [x: number, y: number, away: number])[] = [];
  for (let row = -rows; row <= rows; row++) {
    for (let column = -rows; column <= rows; column++) {
      const x = 2 * column + (row % 2 === 0 ? 0 : 1) - middleX;
      const y = Math.sqrt(3) * row - middleY;
      points.push([x, y, Math.hypot(x, y)]);
    }
  }
  // Equal distances in the order of the angle, so that every machine draws the same picture.
  points.sort((a, b) => (Math.abs(a[2] - b[2]) > 1e-9 ? a[2] - b[2] : Math.atan2(a[1], a[0]) - Math.atan2(b[1], b[0])));
  const nearest = points.slice(0, count);
  return { points: nearest.map(([x, y]) => [x, y]), reach: nearest.at(-1)?.[2] ?? 0 };
}
