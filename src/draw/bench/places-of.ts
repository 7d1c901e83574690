import type { Drawn } from "../one-line/sketch.ts";
import type { Item, Shape } from "../scene.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import type { Place } from "./bench-drawing.ts";

/**
 * What each thing takes up: its symbol or line, with its captions and its name in the table, not its row of figures.
 *
 * @param items as they will be shown, in the order of `drawn`
 */
export function placesOf(items: readonly Item[], drawn: readonly Drawn[]): Record<string, Place> {
  const shapes = new Map<string, Shape[]>();
  items.forEach(({ role, about, shapes: own }, i) => {
    if (about === null || role === "flow" || role === "mark" || role === "frame") return;
    const shown = role === "table" ? own.filter((_, k) => isName(drawn[i]?.shapes[k])) : own;
    if (shown.length === 0) return;
    const list = shapes.get(about);
    if (list === undefined) shapes.set(about, [...shown]);
    else list.push(...shown);
  });
  return Object.fromEntries(
    [...shapes].map(([about, list]) => {
      const [[x1, y1], [x2, y2]] = boxAround(list.flatMap(shapeBox));
      return [about, { x: round(x1), y: round(y1), width: round(x2 - x1), height: round(y2 - y1) }];
    }),
  );
}

const isName = (shape: Shape | undefined): boolean => shape?.is === "text" && shape.field === "name";

const round = (mm: number): number => Math.round(100 * mm) / 100;
