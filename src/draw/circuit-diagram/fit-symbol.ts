import type { Point, Shape } from "../scene.ts";
import { findSymbol, placeSymbol, type SymbolVariant } from "../symbols.ts";
import { thin } from "./look.ts";

const LEAST_CAP = 1.5;
const LARGEST = 0.8;

/** Letters that nobody could read are left out. */
const isRead = (shape: Shape): boolean => shape.is !== "text" || shape.capMm >= LEAST_CAP;

/** A symbol as large as fits into a room about a point. */
export function symbolIn(
  key: string,
  [x, y]: Point,
  [width, height]: readonly [number, number],
  variant: SymbolVariant,
): readonly Shape[] {
  const art = findSymbol(key, variant);
  if (art === null) return [];
  const [[x1, y1], [x2, y2]] = art.box;
  const scale = Math.min(LARGEST, width / (x2 - x1), height / (y2 - y1));
  const { shapes } = placeSymbol(art, [x - (scale * (x1 + x2)) / 2, y - (scale * (y1 + y2)) / 2], 0, scale);
  return shapes.filter(isRead);
}

/** A symbol lying in a line, about a point of it, with leads as far as half its room to both sides; what is not drawn as a symbol is a box. */
export function symbolAcross(
  key: string,
  [x, y]: Point,
  [half, height]: readonly [number, number],
  variant: SymbolVariant,
): Shape[] {
  const art = findSymbol(key, variant);
  if (art === null) return [{ is: "rectangle", from: [x - half, y - 2], to: [x + half, y + 2], stroke: { ink: "ink", width: 0.25 } }]; // prettier-ignore
  const [[x1, y1], [x2, y2]] = art.box;
  const scale = Math.min((2 * half) / (y2 - y1), height / (x2 - x1));
  const reach = (scale * (y2 - y1)) / 2;
  const leads = reach < half ? [thin([[x - half, y], [x - reach, y]]), thin([[x + reach, y], [x + half, y]])] : []; // prettier-ignore
  return [...placeSymbol(art, [x, y], 270, scale).shapes.filter(isRead), ...leads];
}
