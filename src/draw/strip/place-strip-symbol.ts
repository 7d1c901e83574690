import { placeSymbol } from "../place-symbol.ts";
import type { Point, Shape } from "../scene.ts";
import { setBlade, type Blade } from "../set-blade.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import { findSymbol } from "../symbols.ts";
import { placeArt } from "../one-line/compact-art.ts";

/** Of the shapes in the table of symbols: three times what the one-line shows at 2.4 px each mm, on 5 px. */
const SCALE = 0.9;
/** A symbol without a wire from above, mm. */
const ROOM = [11, 9] as const;
/** From the line to the captions and to the edge, less their air, mm. */
const MOST = { right: 8.6, left: 11.5 } as const;

/**
 * A symbol in a line that runs from top to bottom.
 *
 * @param at where the line from above meets it, mm; of a source, its upper end
 * @param facing line: in it · source: it feeds what is below · load, store: it ends the line
 * @returns its shapes, and the height of its lower end, where the line goes on
 */
export function placeStripSymbol(
  key: string,
  variant: "iec" | "na",
  [x, y]: Point,
  facing: "line" | "source" | "load" | "store",
  blade: Blade,
  scale = SCALE,
): { readonly shapes: readonly Shape[]; readonly bottom: number } {
  const found = findSymbol(key, variant);
  // What gives looks down on a line of loads.
  const turn = facing === "source" && key.startsWith("battery") ? 180 : 0;
  const bladed = found === null ? null : { ...found, shapes: setBlade(found, blade) };
  const art = bladed === null ? null : placeSymbol(bladed, [0, 0], turn, scale);
  const up = art?.ports.find(({ out }) => out[1] === -1);
  const low = art?.ports.find(({ out, at }) => out[1] === 1 && (up === undefined || Math.abs(at[0] - up.at[0]) < 6));
  const entry = facing === "source" ? low : up;
  if (art === null || entry === undefined) {
    const plain = placeArt(key, variant, "upright", [x, y], "middle", ROOM, SCALE);
    const dy = y - plain.box[0][1];
    const shapes = plain.shapes.map((shape) => moved(shape, 0, dy));
    return { shapes, bottom: plain.box[1][1] + dy };
  }
  // Where the line ends, no lead goes on.
  const spare = facing === "line" ? [] : art.ports.filter((port) => port !== entry).map(({ at }) => at);
  const kept = art.shapes.filter((shape) => !isLeadTo(shape, spare));
  const [[left, top], [right, foot]] = boxAround(kept.flatMap(shapeBox));
  // What is wide keeps clear of the captions and of the edge.
  const wide = Math.max((right - entry.at[0]) / MOST.right, (entry.at[0] - left) / MOST.left);
  if (wide > 1 + 1e-9) return placeStripSymbol(key, variant, [x, y], facing, blade, scale / wide);
  const dy = y - (facing === "source" ? top : entry.at[1]);
  const shapes = kept.map((shape) => moved(shape, x - entry.at[0], dy));
  return { shapes, bottom: dy + (facing === "line" || facing === "source" ? (low?.at[1] ?? foot) : foot) };
}

const isLeadTo = (shape: Shape, ports: readonly Point[]): boolean =>
  shape.is === "polyline" &&
  shape.points.length === 2 &&
  shape.points.some(([x, y]) => ports.some((at) => Math.abs(at[0] - x) < 1e-6 && Math.abs(at[1] - y) < 1e-6));

function moved(shape: Shape, dx: number, dy: number): Shape {
  const go = ([px, py]: Point): Point => [px + dx, py + dy];
  switch (shape.is) {
    case "polyline":
      return { ...shape, points: shape.points.map(go) };
    case "rectangle":
    case "arc":
      return { ...shape, from: go(shape.from), to: go(shape.to) };
    case "ellipse":
      return { ...shape, centre: go(shape.centre) };
    case "text":
      return { ...shape, at: go(shape.at) };
  }
}
