import type { Point, Shape, TextShape } from "../scene.ts";
import { turnShape } from "../turn-shape.ts";
import { M } from "./columns.ts";
import type { DrawnPage } from "./compose-pages.ts";

const withoutField = (shape: TextShape): TextShape => {
  const { is, at, text, capMm, weight, anchor, ink } = shape;
  return { is, at, text, capMm, weight, anchor, ink };
};

/**
 * A drawing with all that is on it, larger about its upper left corner: letters, symbols, pens and the grid alike.
 *
 * @param scale 1: as it is
 */
export function enlarge({ page, sketch, height }: DrawnPage, scale: number): DrawnPage {
  const [left, top] = [page.x(0), page.y(0)];
  const move = ([x, y]: Point): Point => [left + scale * (x - left), top + scale * (y - top)];
  const grow = (shape: Shape): Shape => {
    const moved = turnShape(shape.is === "text" ? withoutField(shape) : shape, 0, move, scale);
    if (moved.is === "text" || moved.stroke === undefined) return moved;
    const { width, dash } = moved.stroke;
    const pen = { ...moved.stroke, width: width * scale };
    return { ...moved, stroke: dash === undefined ? pen : { ...pen, dash: dash.map((d) => d * scale) } };
  };
  return {
    height,
    page: { ...page, x: (modules) => left + scale * M * modules, y: (modules) => top + scale * M * modules },
    sketch: {
      ...sketch,
      // What only a page needs is left out of a sheet.
      items: sketch.items.map(({ role, about, name, shapes }) => ({ role, about, name, shapes: shapes.map(grow) })),
      notes: sketch.notes.map((note) => ({ ...note, at: note.at === null ? null : move(note.at) })),
    },
  };
}
