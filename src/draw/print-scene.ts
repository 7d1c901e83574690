import { cleanText } from "./clean-text.ts";
import { inks } from "./inks.ts";
import { lineCap } from "./line-cap.ts";
import type { Look, Point, Scene, Shape, TextShape } from "./scene.ts";
import { arcCircle, pointOn, type ArcCircle } from "./shape-box.ts";
import { fontSize, textWidth } from "./text-width.ts";

/** One step of a path; a curve has two handles and its end. */
export type PathStep = readonly ["move" | "line", Point] | readonly ["curve", Point, Point, Point] | readonly ["close"];

/** Colours as `#RRGGBB`, lengths in mm. */
export interface PathLook {
  readonly fill: string | null;
  readonly stroke: {
    readonly colour: string;
    readonly width: number;
    readonly dash: readonly number[];
    readonly cap: "round" | "butt";
  } | null;
}

/** All that a printer of scenes must be able to do; mm from the top left corner, y down. */
export interface Pen {
  /** Draws one thing of the scene; name: what is told to a reader who cannot see it, empty where nothing is. */
  readonly item: (name: string, draw: () => void) => void;
  readonly path: (steps: readonly PathStep[], look: PathLook) => void;
  /** From its left end on the baseline, without kerning and ligatures; size is that of the font, mm. */
  readonly text: (text: string, at: Point, size: number, weight: TextShape["weight"], colour: string) => void;
}

/**
 * Draws a scene with a pen, in the inks of paper. What is neither stroked nor filled is left out.
 *
 * @param pen of a sheet as large as the scene
 */
export function printScene(scene: Scene, pen: Pen): void {
  for (const { name, shapes } of scene.items) {
    pen.item(cleanText(name), () => {
      for (const shape of shapes) printShape(shape, pen);
    });
  }
}

function printShape(shape: Shape, pen: Pen): void {
  if (shape.is === "text") {
    const text = cleanText(shape.text);
    const width = shape.anchor === "start" ? 0 : textWidth(text, shape.capMm, shape.weight);
    const left = shape.at[0] - (shape.anchor === "middle" ? width / 2 : width);
    if (text !== "") pen.text(text, [left, shape.at[1]], fontSize(shape.capMm), shape.weight, inks[shape.ink].light);
  } else if (shape.stroke !== undefined || shape.fill !== undefined) {
    pen.path(pathOf(shape), lookOf(shape));
  }
}

const lookOf = ({ stroke, fill }: Look): PathLook => ({
  fill: fill === undefined ? null : inks[fill].light,
  stroke:
    stroke === undefined
      ? null
      : { colour: inks[stroke.ink].light, width: stroke.width, dash: stroke.dash ?? [], cap: lineCap(stroke) },
});

/**
 * The path of a shape, with curves for its arcs.
 *
 * @accuracy a curve leaves its arc by less than 0.03 % of the radius
 * @example
 * pathOf({ is: "polyline", points: [[0, 0], [5, 0]] }) //=> [["move", [0, 0]], ["line", [5, 0]]]
 */
export function pathOf(shape: Exclude<Shape, TextShape>): readonly PathStep[] {
  switch (shape.is) {
    case "polyline": {
      const steps = shape.points.map((point, i): PathStep => [i === 0 ? "move" : "line", point]);
      return shape.closed === true ? [...steps, ["close"]] : steps;
    }
    case "rectangle":
      return rectanglePath(shape);
    case "ellipse": {
      const [[x, y], [rx, ry]] = [shape.centre, shape.radii];
      // A circle of radius 1, drawn out.
      const whole = { centre: [0, 0] as const, radius: 1, start: 0, turn: 2 * Math.PI, sweep: true };
      const out = ([px, py]: Point): Point => [x + rx * px, y + ry * py];
      const curves = curvesOf(whole).map(([a, b, c]): PathStep => ["curve", out(a), out(b), out(c)]);
      return [["move", [x + rx, y]], ...curves, ["close"]];
    }
    case "arc": {
      const curves = curvesOf(arcCircle(shape)).map((curve): PathStep => ["curve", ...curve]);
      return [["move", shape.from], ...curves];
    }
  }
}

function rectanglePath({ from, to, radius = 0 }: Shape & { readonly is: "rectangle" }): readonly PathStep[] {
  const [left, right] = [Math.min(from[0], to[0]), Math.max(from[0], to[0])];
  const [top, bottom] = [Math.min(from[1], to[1]), Math.max(from[1], to[1])];
  const r = Math.min(radius, (right - left) / 2, (bottom - top) / 2);
  // From the left end of the upper side, as in SVG, so that dashes fall alike.
  const corners: readonly (readonly [Point, start: number])[] = [
    [[right - r, top + r], -Math.PI / 2],
    [[right - r, bottom - r], 0],
    [[left + r, bottom - r], Math.PI / 2],
    [[left + r, top + r], Math.PI],
  ];
  const first: PathStep = ["move", [left + r, top]];
  if (r === 0) return [first, ...corners.slice(0, 3).map(([at]): PathStep => ["line", at]), ["close"]];
  const round = corners.flatMap(([centre, start]): PathStep[] => {
    const corner = { centre, radius: r, start, turn: Math.PI / 2, sweep: true };
    return [["line", pointOn(corner, start)], ...curvesOf(corner).map((curve): PathStep => ["curve", ...curve])];
  });
  return [first, ...round, ["close"]];
}

/** Bezier curves of a quarter turn at most; their handles touch the circle and meet it half way. */
function curvesOf(circle: ArcCircle): readonly (readonly [Point, Point, Point])[] {
  const count = Math.max(1, Math.ceil(Math.abs(circle.turn) / (Math.PI / 2) - 1e-9));
  const step = circle.turn / count;
  const handle = (4 / 3) * Math.tan(step / 4) * circle.radius;
  return Array.from({ length: count }, (_, i) => {
    const [a, b] = [circle.start + i * step, circle.start + (i + 1) * step];
    const [[ax, ay], [bx, by]] = [pointOn(circle, a), pointOn(circle, b)];
    return [
      [ax - handle * Math.sin(a), ay + handle * Math.cos(a)],
      [bx + handle * Math.sin(b), by - handle * Math.cos(b)],
      [bx, by],
    ];
  });
}
