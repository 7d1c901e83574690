import type { Item, Point, Shape } from "../scene.ts";
import { turnShape } from "../turn-shape.ts";

/** An item in its place on a sheet, larger about its origin: letters, symbols and pens alike. */
export function scaleItem(item: Item, [left, top]: Point, scale: number): Item {
  const move = ([x, y]: Point): Point => [left + scale * x, top + scale * y];
  const grow = (shape: Shape): Shape => {
    const moved = turnShape(shape, 0, move, scale);
    if (moved.is === "text" || moved.stroke === undefined) return moved;
    const { width, dash } = moved.stroke;
    const pen = { ...moved.stroke, width: width * scale };
    return { ...moved, stroke: dash === undefined ? pen : { ...pen, dash: dash.map((d) => d * scale) } };
  };
  return { ...item, shapes: item.shapes.map(grow) };
}
