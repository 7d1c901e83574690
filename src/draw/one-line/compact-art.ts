import type { Point, Shape } from "../scene.ts";
import { boxAround, shapeBox, type Box } from "../shape-box.ts";
import { placeSymbol } from "../place-symbol.ts";
import { setBlade, type Blade } from "../set-blade.ts";
import { findSymbol } from "../symbols.ts";
import { turnShape } from "../turn-shape.ts";
import { textInk } from "./sketch.ts";

/** A symbol in its place, without its leads: wires end at its body. */
export interface PlacedArt {
  readonly shapes: readonly Shape[];
  readonly box: Box;
  /** Where a wire from the left, from the right and from below meets it; null: nowhere. */
  readonly left: Point;
  readonly right: Point;
  readonly top: Point;
  readonly bottom: Point;
}

/** How a symbol is turned: supply on its left, or the source that it is looks to the right. */
export type Facing = "line" | "source" | "upright";

/** In a line what gives current looks on, the rest takes it from the left. */
export const inLine = ({ is }: { readonly is: string }): Facing => (is === "store" ? "source" : "line");

const TURNS = { line: 270, source: 90, upright: 0 } as const;

const close = ([ax, ay]: Point, [bx, by]: Point): boolean => Math.abs(ax - bx) < 1e-6 && Math.abs(ay - by) < 1e-6;

interface Body {
  readonly shapes: readonly Shape[];
  readonly ports: readonly { readonly at: Point; readonly out: Point }[];
  readonly box: Box;
}

const bodies = new Map<string, Body>();

const inkOf = (shape: Shape): Box => (shape.is === "text" ? textInk(shape) : shapeBox(shape));

/** The inner end of a lead that leaves a port straight; null: it is none. */
function leadEnd(points: readonly Point[], at: Point, out: Point): Point | null {
  if (!points.some((p) => close(p, at))) return null;
  const inner = points.find((p) => !close(p, at));
  if (inner === undefined) return null;
  const along = (at[0] - inner[0]) * out[0] + (at[1] - inner[1]) * out[1];
  const across = Math.abs((at[0] - inner[0]) * out[1]) + Math.abs((at[1] - inner[1]) * out[0]);
  return along > 0 && across < 1e-6 ? inner : null;
}

/** A symbol turned about its origin, its leads cut off at its body. */
function bodyOf(key: string, variant: "iec" | "na", facing: Facing, blade: Blade = "rest"): Body {
  const name = `${key} ${variant} ${facing} ${blade}`;
  const known = bodies.get(name);
  if (known !== undefined) return known;
  const found = findSymbol(key, variant);
  if (found !== null && blade !== "rest") {
    // It takes the place that it takes at rest: flipping a switch moves nothing.
    const rest = bodyOf(key, variant, facing);
    const moved = placeSymbol({ ...found, shapes: setBlade(found, blade) }, [0, 0], TURNS[facing]).shapes;
    const still = placeSymbol(found, [0, 0], TURNS[facing]).shapes;
    const body = { ...rest, shapes: rest.shapes.map((shape) => movedShape(shape, still, moved)) };
    bodies.set(name, body);
    return body;
  }
  const art = found === null ? plainBox(key) : placeSymbol(found, [0, 0], TURNS[facing]);
  const isLead = (shape: Shape): boolean =>
    shape.is === "polyline" &&
    shape.points.length === 2 &&
    shape.stroke?.dash === undefined &&
    art.ports.some(({ at, out }) => leadEnd(shape.points, at, out) !== null);
  const rest = art.shapes.filter((shape) => !isLead(shape));
  const whole =
    rest.length === 0 ? boxAround(art.shapes.flatMap((s) => inkOf(s))) : boxAround(rest.flatMap((s) => inkOf(s)));
  const shapes: Shape[] = [...rest];
  const ports = art.ports.map(({ at, out }) => {
    for (const shape of art.shapes) {
      if (shape.is !== "polyline" || !isLead(shape)) continue;
      const inner = leadEnd(shape.points, at, out);
      if (inner === null) continue;
      // A lead that goes on inside the body is cut where the body begins.
      const [[x1, y1], [x2, y2]] = whole;
      const edge: Point = [out[0] === 0 ? at[0] : out[0] > 0 ? x2 : x1, out[1] === 0 ? at[1] : out[1] > 0 ? y2 : y1]; // prettier-ignore
      const within: Point = [Math.min(Math.max(inner[0], x1), x2), Math.min(Math.max(inner[1], y1), y2)];
      if (!close(edge, within)) shapes.push({ ...shape, points: [edge, within] });
      return { at: edge, out };
    }
    return { at, out };
  });
  const box = boxAround(shapes.flatMap((s) => inkOf(s)));
  const body = { shapes, ports, box };
  bodies.set(name, body);
  return body;
}

/** The shape that stands for another when a blade has moved; what the blade does not touch stays as it is cut. */
function movedShape(shape: Shape, still: readonly Shape[], moved: readonly Shape[]): Shape {
  const i = still.findIndex((s) => JSON.stringify(s) === JSON.stringify(shape));
  return moved[i] ?? shape;
}

/** Room of a load's symbol, mm. */
const LOAD_ROOM = [5.4, 4.2] as const;
/** How much larger a symbol must come out upright to be left so. */
const CLEARLY = 1.3;

/** A load's symbol in its row, as large as there is room: turned to its wire, or upright where it would come out small. */
export function placeLoad(key: string, variant: "iec" | "na", at: Point): PlacedArt {
  const turned = placeArt(key, variant, "line", at, "left", LOAD_ROOM);
  const upright = placeArt(key, variant, "upright", at, "left", LOAD_ROOM);
  const area = ({ box: [[x1, y1], [x2, y2]] }: PlacedArt): number => (x2 - x1) * (y2 - y1);
  return area(upright) > CLEARLY * area(turned) ? upright : turned;
}

/** How far a ring reaches right of what it stands behind, mm. */
const RING = 1.8;
/** And above and below its line. */
const RING_HIGH = 1.15;

/** A symbol in its line with a ring behind it, through which the line goes. */
export function withRing(art: PlacedArt): PlacedArt {
  const [x, y] = art.right;
  const stroke = { ink: "ink", width: 0.25 } as const;
  return {
    ...art,
    shapes: [
      ...art.shapes,
      { is: "polyline", points: [[x, y], [x + RING, y]], stroke: { ...stroke, width: 0.35 } }, // prettier-ignore
      { is: "ellipse", centre: [x + RING / 2, y], radii: [0.5, RING_HIGH], stroke },
    ],
    box: [
      [art.box[0][0], Math.min(art.box[0][1], y - RING_HIGH)],
      [art.box[1][0] + RING, Math.max(art.box[1][1], y + RING_HIGH)],
    ],
    right: [x + RING, y],
  };
}

/** A symbol moved along its row. */
export function shiftArt(art: PlacedArt, dx: number): PlacedArt {
  const go = ([x, y]: Point): Point => [x + dx, y];
  return {
    shapes: art.shapes.map((shape) => turnShape(shape, 0, go, 1)),
    box: [go(art.box[0]), go(art.box[1])],
    left: go(art.left),
    right: go(art.right),
    top: go(art.top),
    bottom: go(art.bottom),
  };
}

/** Stands for whatever has no symbol: a box, with a question mark where even its kind is not known. */
function plainBox(key: string): Pick<Body, "shapes" | "ports"> {
  const stroke = { ink: "ink", width: 0.25 } as const;
  const box: Box = [
    [-5, -4],
    [5, 4],
  ];
  if (key === "unknown fact") return diamond();
  const shapes: Shape[] = [{ is: "rectangle", from: box[0], to: box[1], stroke }];
  if (key === "unknown")
    shapes.push({ is: "text", at: [0, 2.2], text: "?", capMm: 4.4, weight: "regular", anchor: "middle", ink: "ink" });
  const port = (x: number, y: number): Body["ports"][number] => ({ at: [5 * x, 4 * y], out: [x, y] });
  const ports = [port(-1, 0), port(1, 0), port(0, -1), port(0, 1)];
  return { shapes, ports };
}

/** What is not known, where it is worked on: as a finding that cannot be told. */
function diamond(): Pick<Body, "shapes" | "ports"> {
  const [half, stroke] = [4.5, { ink: "unknown", width: 0.3, dash: [1, 0.7] } as const];
  const at = (x: number, y: number): Point => [half * x, half * y];
  const shapes: Shape[] = [
    { is: "polyline", points: [at(0, -1), at(1, 0), at(0, 1), at(-1, 0)], closed: true, stroke },
    { is: "text", at: [0, 1.6], text: "?", capMm: 3.2, weight: "regular", anchor: "middle", ink: "unknown" },
  ];
  const ports = ([[-1, 0], [1, 0], [0, -1], [0, 1]] as const).map(([x, y]) => ({ at: at(x, y), out: [x, y] as const })); // prettier-ignore
  return { shapes, ports };
}

/**
 * A symbol no larger than there is room for, its axis on a row.
 *
 * @param at mm: on the row, middle of the body across (`middle`), or its left edge (`left`)
 * @param room mm, width and height
 * @param most scale, for that equals look equal
 */
export function placeArt(
  key: string,
  variant: "iec" | "na",
  facing: Facing,
  [x, y]: Point,
  by: "middle" | "left",
  room: readonly [width: number, height: number],
  most = 0.5,
  blade: Blade = "rest",
): PlacedArt {
  const body = bodyOf(key, variant, facing, blade);
  const [[x1, y1], [x2, y2]] = body.box;
  const port = (dx: number, dy: number): Point | undefined => {
    const fit = body.ports.filter(({ out }) => out[0] === dx && out[1] === dy);
    const across = (p: Point): number => Math.abs(dx === 0 ? p[0] : p[1]);
    return fit.sort((a, b) => across(a.at) - across(b.at))[0]?.at;
  };
  const main = facing === "source" ? port(1, 0) : facing === "line" ? (port(-1, 0) ?? port(1, 0)) : undefined;
  // The axis is where its wire comes in; a body that has none lies about the row.
  const axis = main?.[1] ?? (y1 + y2) / 2;
  const scale = Math.min(most, room[0] / (x2 - x1), room[1] / (2 * Math.max(axis - y1, y2 - axis)));
  const dx = by === "middle" ? x - (scale * (x1 + x2)) / 2 : x - scale * x1;
  const dy = y - scale * axis;
  const move = ([px, py]: Point): Point => [dx + scale * px, dy + scale * py];
  const box: Box = [move([x1, y1]), move([x2, y2])];
  const centre = (box[0][0] + box[1][0]) / 2;
  const side = (px: number, edge: number): Point => {
    const found = port(px, 0);
    return found !== undefined && Math.abs(found[1] - axis) < 1e-6 ? [move(found)[0], y] : [edge, y];
  };
  return {
    shapes: body.shapes.map((shape) => turnShape(shape, 0, move, scale)),
    box,
    left: side(-1, box[0][0]),
    right: side(1, box[1][0]),
    top: [centre, box[0][1]],
    bottom: [centre, box[1][1]],
  };
}
