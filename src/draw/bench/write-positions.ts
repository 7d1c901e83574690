import { cleanText } from "../clean-text.ts";
import { isFree } from "../one-line/is-free.ts";
import { BODY, putText, textInk, textLine, wordsWidth, type Sketch } from "../one-line/sketch.ts";
import { fitText } from "../sheet/fit-text.ts";
import type { Point } from "../scene.ts";
import { boxAround, shapeBox } from "../shape-box.ts";
import type { StateView } from "./read-state.ts";

const ROOM = 16;

/** Says beside each switch how it stands in a state, as its blade does, where nothing else is in the way; nothing moves for it. */
export function writePositions(sketch: Sketch, state: StateView): void {
  const symbols = sketch.items.filter(({ role, about }) => role === "symbol" && about !== null);
  for (const { about, shapes } of symbols) {
    const position = state.positionOf((about ?? "").slice("parts.".length));
    if (position === null) continue;
    const [[x1, y1], [x2, y2]] = boxAround(shapes.flatMap(shapeBox));
    const words = [{ text: fitText(cleanText(position), BODY, "regular", ROOM) }];
    const width = wordsWidth(words);
    const places: Point[] = [
      [x1, y2 + 2.7], [x2 + 0.9, y2 + 1.8], [x1 - 0.9 - width, y2 + 1.8], [x1, y2 + 5.4],
      [x2 + 0.9, y1 - 0.4], [x1 - 0.9 - width, y1 - 0.4], [x1, y1 - 0.9], [x1, y1 - 3.6],
    ]; // prettier-ignore
    const line = places
      .map((at) => textLine(words, at))
      .find((texts) => texts.every((t) => isFree(sketch, textInk(t))));
    if (line !== undefined) putText(sketch, about, line);
  }
}
