import { symbols, type DrawnStroke, type DrawnSymbol } from "../reference/symbols.ts";
import type { Anchor, Look, Point, Shape } from "./scene.ts";
import { boxAround, shapeBox, type Box } from "./shape-box.ts";
import { turnPoint, turnShape, type Turn } from "./turn-shape.ts";

/** A place where a wire meets a symbol. */
export interface SymbolPort {
  readonly name: string;
  readonly role: string;
  readonly at: Point;
  /** Unit vector away from the symbol. */
  readonly out: Point;
}

/** A graphical symbol on paper, mm; as found its origin is [0, 0] and its supply on top. */
export interface SymbolArt {
  readonly key: string;
  readonly name: string;
  /** Letters that begin its designation, such as `FC`; `-`: it has none. */
  readonly className: string;
  /** Whether it turns as a whole, stays upright while its ports go round it, or never turns. */
  readonly turns: "free" | "ports" | "none";
  readonly shapes: readonly Shape[];
  readonly ports: readonly SymbolPort[];
  /** Top left and bottom right corner of what it needs for itself. */
  readonly box: Box;
  /** Where its designation stands: `at` is on the middle of the capitals' height. */
  readonly label: { readonly at: Point; readonly anchor: Anchor } | null;
}

/** `iec` and `na`: as the trade draws on either side of the Atlantic; `off`: another state of the same part. */
export type SymbolVariant = "iec" | "na" | "off";

/** Of the pen on an A4 one-line, mm. */
const PEN = 0.25;
const BOLD_PEN = 0.7;
/** What a designation moves away further when it stands above or below instead of beside, mm. */
const LABEL_LIFT = 1.25;

/** How the symbols are found: first as asked, then as both trades draw it, then as the other does. */
const byName = new Map(symbols.map((symbol) => [`${symbol.key} ${symbol.variant}`, symbol]));
const found = new Map<DrawnSymbol, SymbolArt>();

/**
 * A symbol for the one-line, at the origin and unturned; of two sets of ports it has that for one-lines.
 *
 * Texts that stand for what only the plan knows (a number of cores, of cells in series) are left out.
 *
 * @param key as in `reference/drawing/symbols.csv`, such as `fuse` or `battery_bank`
 * @param variant a symbol that both trades draw alike, or of which only one way is known, serves both
 * @returns null when there is no such symbol
 * @source reference/drawing/symbols.csv
 * @example
 * findSymbol("fuse", "na")?.className //=> "FC"
 * findSymbol("fuse", "iec")?.ports.map((port) => port.at) //=> [[0, -7.5], [0, 7.5]]
 * findSymbol("fuze", "iec") //=> null
 */
export function findSymbol(key: string, variant: SymbolVariant): SymbolArt | null {
  const others = variant === "off" ? ["off"] : [variant, "both", "iec", "na"];
  const drawn = others.map((other) => byName.get(`${key} ${other}`)).find((symbol) => symbol !== undefined);
  if (drawn === undefined) return null;
  const known = found.get(drawn);
  if (known !== undefined) return known;
  const art = artOf(drawn);
  found.set(drawn, art);
  return art;
}

/** Every symbol there is, as [key, variant]. */
export const symbolNames = (): readonly (readonly [key: string, variant: "iec" | "na" | "both" | "off"])[] =>
  symbols.map(({ key, variant }) => [key, variant]);

function artOf(drawn: DrawnSymbol): SymbolArt {
  const [x1, y1, x2, y2] = drawn.box;
  return {
    key: drawn.key,
    name: drawn.name,
    className: drawn.className,
    turns: drawn.turns,
    shapes: drawn.strokes.filter(({ sample }) => sample !== true).map(shapeOf),
    ports: drawn.ports
      .filter(({ set }) => set !== "circuit")
      .map(({ name, role, at: [x, y, outX, outY] }) => ({ name, role, at: [x, y], out: [outX, outY] })),
    box: [
      [x1, y1],
      [x2, y2],
    ],
    label: { at: [drawn.label.at[0], drawn.label.at[1]], anchor: drawn.label.a },
  };
}

function shapeOf(stroke: DrawnStroke): Shape {
  const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = stroke.at;
  const look: Look = {
    stroke: {
      ink: "ink",
      width: stroke.w === "bold" ? BOLD_PEN : PEN,
      ...(stroke.dash === undefined ? {} : { dash: stroke.dash }),
    },
    ...(stroke.fill === undefined ? {} : { fill: stroke.fill }),
  };
  switch (stroke.is) {
    case "line":
      return { is: "polyline", points: [[x1, y1], [x2, y2]], ...look }; // prettier-ignore
    case "poly": {
      const points = stroke.at.flatMap((x, i): Point[] => (i % 2 === 0 ? [[x, stroke.at[i + 1] ?? 0]] : []));
      return { is: "polyline", points, ...(stroke.closed === true ? { closed: true } : {}), ...look };
    }
    case "rect": {
      const corners = { from: [x1, y1], to: [x2, y2] } as const;
      return { is: "rectangle", ...corners, ...(stroke.r === undefined ? {} : { radius: stroke.r }), ...look };
    }
    case "circle":
      return { is: "ellipse", centre: [x1, y1], radii: [x2, x2], ...look };
    case "ellipse":
      return { is: "ellipse", centre: [x1, y1], radii: [x2, y2], ...look };
    case "arc": {
      const { r: radius = 0, large = false, sweep = false } = stroke;
      return { is: "arc", from: [x1, y1], to: [x2, y2], radius, large, sweep, ...look };
    }
    case "text": {
      const { t: text = "", a: anchor = "middle" } = stroke;
      // In the table a text hangs on the middle of its capitals.
      return { is: "text", at: [x1, y1 + x2 / 2], text, capMm: x2, weight: "regular", anchor, ink: "ink" };
    }
  }
}

const same = ([ax, ay]: Point, [bx, by]: Point): boolean => Math.abs(ax - bx) < 1e-6 && Math.abs(ay - by) < 1e-6;

/**
 * A symbol where it is wanted.
 *
 * Texts stay upright, the pen keeps its width. A symbol that `turns: "ports"` stays as it is while its ports, with the leads that belong to
 * them, go round it; one that turns not at all is only moved. Contacts are never mirrored.
 *
 * @param art as found or already placed
 * @param at mm, of its origin
 * @param turn degrees clockwise on paper: 90 brings what was on top to the right
 * @param scale of its shape: 0.707, 1 or 1.414 keep to the grid of their sheet
 * @example
 * const fuse = findSymbol("fuse", "iec");
 * fuse && placeSymbol(fuse, [50, 20], 270).ports.map((port) => port.at) //=> [[42.5, 20], [57.5, 20]]
 */
export function placeSymbol(art: SymbolArt, at: Point, turn: Turn, scale = 1): SymbolArt {
  const [dx, dy] = at;
  const move = ([x, y]: Point): Point => [dx + x * scale, dy + y * scale];
  const round = (point: Point): Point => turnPoint(point, turn);
  const goesRound = art.turns !== "none";
  const turned = art.turns === "free" ? turn : 0;

  const ports = art.ports.map((port) => ({
    ...port,
    at: move(goesRound ? round(port.at) : port.at),
    out: goesRound ? round(port.out) : port.out,
  }));
  const upright = art.turns === "ports" && turn !== 0 ? leadsRound(art, turn) : art.shapes;
  const shapes = upright.map((shape) => turnShape(shape, turned, move, scale));
  const texts = shapes.flatMap((shape) => (shape.is === "text" ? shapeBox(shape) : []));
  const corners = art.box.map((corner) => move(turnPoint(corner, turned)));
  return {
    ...art,
    shapes,
    ports,
    box: boxAround([...corners, ...texts, ...ports.map((port) => port.at)]),
    label: art.label && turnLabel(art.label, turned, move),
  };
}

/** The designation keeps its side of the symbol: what stood right of it stands below, left or above it. */
function turnLabel(
  label: NonNullable<SymbolArt["label"]>,
  turn: Turn,
  move: (point: Point) => Point,
): NonNullable<SymbolArt["label"]> {
  const [x, y] = label.at;
  if (turn === 0) return { ...label, at: move(label.at) };
  if (label.anchor === "middle")
    return { at: move(turnPoint(label.at, turn)), anchor: turn === 180 ? "middle" : turn === 90 ? "start" : "end" };
  // The line of the designation stays the upper one of two.
  if (turn === 180) return { at: move([-x, y]), anchor: label.anchor === "start" ? "end" : "start" };
  // Lines are higher than the gap beside a symbol is wide.
  return { at: move(turnPoint([x + LABEL_LIFT, 0], turn)), anchor: "middle" };
}

/** The shapes of an upright symbol with its leads where its ports are after a turn. */
function leadsRound(art: SymbolArt, turn: Turn): readonly Shape[] {
  const isLead = (shape: Shape): boolean =>
    shape.is === "polyline" &&
    shape.points.length === 2 &&
    art.ports.some(({ at }) => shape.points.some((point) => same(point, at)));
  const body = art.shapes.filter((shape) => !isLead(shape));
  const [[left, top], [right, bottom]] = boxAround(
    body.flatMap((shape) => (shape.is === "text" ? [] : shapeBox(shape))),
  );
  const leads = art.ports.flatMap((port): Shape[] => {
    const [x, y] = turnPoint(port.at, turn);
    const [outX, outY] = turnPoint(port.out, turn);
    const edge = outX > 0 ? right : outX < 0 ? left : outY > 0 ? bottom : top;
    const end: Point = outX === 0 ? [x, edge] : [edge, y];
    if (same(end, [x, y])) return [];
    return [{ is: "polyline", points: [[x, y], end], stroke: { ink: "ink", width: PEN } }];
  });
  return [...body, ...leads];
}
