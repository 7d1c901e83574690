import type { Point, Shape } from "./scene.ts";
import { boxAround, shapeBox } from "./shape-box.ts";
import { LABEL_GAP, SYMBOL_PEN, type SymbolArt } from "./symbol-art.ts";
import { turnPoint, turnShape, type Turn } from "./turn-shape.ts";

/** What a designation moves away further when it stands above or below instead of beside, mm. */
const LABEL_LIFT = 1.25;

const same = ([ax, ay]: Point, [bx, by]: Point): boolean => Math.abs(ax - bx) < 1e-6 && Math.abs(ay - by) < 1e-6;

/**
 * A symbol where it is wanted.
 *
 * Texts stay upright, the pen keeps its width. A symbol that `turns: "ports"` stays as it is while its ports, with the leads that belong to
 * them, go round it; one that turns not at all is only moved. Contacts are never mirrored.
 *
 * @param art as found, not yet placed
 * @param at mm, of its origin
 * @param turn degrees clockwise on paper: 90 brings what was on top to the right
 * @param scale of its shape: 0.707, 1 or 1.414 keep to the grid of their sheet
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
  const signs = art.signs.map((sign) =>
    keepUpright(
      sign.flatMap((i) => upright[i] ?? []),
      turned,
    ),
  );
  const shapes = upright.map((shape, i) => {
    const sign = art.signs.findIndex((members) => members.includes(i));
    const [along = 0, down = 0] = signs[sign] ?? [];
    return sign < 0
      ? turnShape(shape, turned, move, scale)
      : turnShape(shape, 0, ([x, y]) => move([x + along, y + down]), scale);
  });
  return {
    ...art,
    shapes,
    ports,
    box: boxAround([...shapes.flatMap(shapeBox), ...ports.map((port) => port.at)]),
    label: art.label && placeLabel(art, art.label, turn, move),
  };
}

/** How far a sign moves when its symbol turns about [0, 0] and the sign about its own middle back again. */
function keepUpright(shapes: readonly Shape[], turn: Turn): Point {
  const [[x1, y1], [x2, y2]] = boxAround(shapes.flatMap(shapeBox));
  const middle: Point = [(x1 + x2) / 2, (y1 + y2) / 2];
  const [x, y] = turnPoint(middle, turn);
  return [x - middle[0], y - middle[1]];
}

type Label = NonNullable<SymbolArt["label"]>;

/** The designation keeps its side of the symbol: what stood right of it stands below, left or above it. */
function placeLabel(art: SymbolArt, label: Label, turn: Turn, move: (point: Point) => Point): Label {
  const [x, y] = label.at;
  const sideways = turn === 90 || turn === 270;
  if (turn === 0 || art.turns === "none" || (art.turns === "ports" && !sideways))
    return { ...label, at: move(label.at) };
  if (art.turns === "ports") {
    // The symbol stands as it stood, but its leads are where the designation was.
    const [[, top], [right]] = bodyBox(art);
    return label.anchor === "middle"
      ? { at: move([right + LABEL_GAP, top + LABEL_GAP]), anchor: "start" }
      : { at: move([0, top - LABEL_GAP - LABEL_LIFT]), anchor: "middle" };
  }
  if (label.anchor === "middle") {
    return { at: move(turnPoint(label.at, turn)), anchor: turn === 180 ? "middle" : turn === 90 ? "start" : "end" };
  }
  // The line of the designation stays the upper one of two.
  if (turn === 180) return { at: move([-x, y]), anchor: label.anchor === "start" ? "end" : "start" };
  // Lines are higher than the gap beside a symbol is wide.
  return { at: move(turnPoint([x + LABEL_LIFT, 0], turn)), anchor: "middle" };
}

const isLead = (art: SymbolArt, shape: Shape): boolean =>
  shape.is === "polyline" &&
  shape.points.length === 2 &&
  art.ports.some(({ at }) => shape.points.some((point) => same(point, at)));

const bodyBox = (art: SymbolArt) =>
  boxAround(art.shapes.flatMap((shape) => (shape.is === "text" || isLead(art, shape) ? [] : shapeBox(shape))));

/** The shapes of an upright symbol with its leads where its ports are after a turn. */
function leadsRound(art: SymbolArt, turn: Turn): readonly Shape[] {
  const [[left, top], [right, bottom]] = bodyBox(art);
  const leads = art.ports.flatMap((port): Shape[] => {
    const [x, y] = turnPoint(port.at, turn);
    const [outX, outY] = turnPoint(port.out, turn);
    const edge = outX > 0 ? right : outX < 0 ? left : outY > 0 ? bottom : top;
    const end: Point = outX === 0 ? [x, edge] : [edge, y];
    if (same(end, [x, y])) return [];
    return [{ is: "polyline", points: [[x, y], end], stroke: { ink: "ink", width: SYMBOL_PEN } }];
  });
  return [...art.shapes.filter((shape) => !isLead(art, shape)), ...leads];
}
