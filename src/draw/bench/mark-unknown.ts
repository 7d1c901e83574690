import type { Item, Shape, TextShape } from "../scene.ts";
import { drawMark, MARK_MM } from "../sheet/draw-mark.ts";
import { textWidth } from "../text-width.ts";

/** A figure that nobody knows, among the words of a caption. */
const TOKEN = /(?:^|[ ×])\?(?=$|[ *…])/g;
/** Of the diamond about a question mark, from its middle, mm. */
const [ACROSS, DOWN] = [1.1, 1.5];

/** A dashed diamond in the place of a figure that is all there is in its place; null: something is known. */
export function unknownInPlace({ text, anchor, at: [x, y], capMm, weight }: TextShape): Shape[] | null {
  if (text !== "?") return null;
  const right = anchor === "end" ? x : x + textWidth(text, capMm, weight);
  return drawMark("unknown", [right - MARK_MM / 2 + 0.4, y - capMm / 2]);
}

/**
 * Dashed diamonds about the question marks that stand for figures in captions, as items of their own that say nothing: the words do.
 *
 * @example
 * const text = { is: "text", at: [0, 0], text: "3 × ?", capMm: 1.8, weight: "regular", anchor: "start", ink: "ink" };
 * markUnknown({ role: "caption", about: null, name: "", shapes: [text] }).length //=> 1
 */
export function markUnknown({ about, shapes }: Item): Item[] {
  return shapes.flatMap((shape): Item[] => {
    if (shape.is !== "text" || !shape.text.includes("?")) return [];
    const { text, at, capMm, weight } = shape;
    return [...text.matchAll(TOKEN)].map((found) => {
      const end = found.index + found[0].length;
      const [before, through] = [end - 1, end].map((n) => textWidth(text.slice(0, n), capMm, weight));
      const x = at[0] + ((before ?? 0) + (through ?? 0)) / 2;
      const y = at[1] - capMm / 2;
      return {
        role: "mark",
        about,
        name: "",
        shapes: [
          {
            is: "polyline",
            points: [[x, y - DOWN], [x + ACROSS, y], [x, y + DOWN], [x - ACROSS, y]], // prettier-ignore
            closed: true,
            stroke: { ink: "unknown", width: 0.2, dash: [0.5, 0.4] },
          },
        ],
      };
    });
  });
}
