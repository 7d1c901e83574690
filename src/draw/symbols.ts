import { symbols, type DrawnStroke, type DrawnSymbol } from "../reference/symbols.ts";
import type { Look, Point, Shape } from "./scene.ts";
import { boxAround, shapeBox } from "./shape-box.ts";
import { LABEL_GAP, SYMBOL_PEN, type SymbolArt, type SymbolPort } from "./symbol-art.ts";

/** `iec` and `na`: as the trade draws on either side of the Atlantic; `off`: another state of the same part. */
export type SymbolVariant = "iec" | "na" | "off";

const BOLD_PEN = 0.7;

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
 * placeSymbol(findSymbol("fuse", "iec"), [50, 20], 270).ports.map((port) => port.at) //=> [[42.5, 20], [57.5, 20]]
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
  const strokes = drawn.strokes.filter(({ sample }) => sample !== true);
  const signs = new Map<number, number[]>();
  strokes.forEach(({ up }, i) => {
    if (up !== undefined) signs.set(up, [...(signs.get(up) ?? []), i]);
  });
  const shapes = strokes.map(shapeOf);
  const ports = drawn.ports
    .filter(({ set }) => set !== "circuit")
    .map(({ name, role, at: [x, y, outX, outY] }): SymbolPort => ({ name, role, at: [x, y], out: [outX, outY] }));
  const box = boxAround([...shapes.flatMap(shapeBox), ...ports.map(({ at }) => at)]);
  const [x, y] = drawn.label.at;
  // A sample that is left out leaves no gap before the designation.
  const beside = drawn.label.a === "start" && strokes.length < drawn.strokes.length;
  return {
    key: drawn.key,
    name: drawn.name,
    className: drawn.className,
    turns: drawn.turns,
    shapes,
    signs: [...signs.values()],
    ports,
    box,
    label: { at: [beside ? Math.min(x, box[1][0] + LABEL_GAP) : x, y], anchor: drawn.label.a },
  };
}

function shapeOf(stroke: DrawnStroke): Shape {
  const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = stroke.at;
  const look: Look = {
    stroke: {
      ink: "ink",
      width: stroke.w === "bold" ? BOLD_PEN : SYMBOL_PEN,
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

export { placeSymbol } from "./place-symbol.ts";
export type { SymbolArt } from "./symbol-art.ts";
