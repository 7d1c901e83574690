import type { Point } from "../scene.ts";
import type { Box } from "../shape-box.ts";
import type { Link } from "./blocks.ts";
import { fitText } from "../sheet/fit-text.ts";
import {
  BODY,
  put,
  putDot,
  putText,
  putWire,
  textInk,
  textLine,
  wordsWidth,
  type Landing,
  type Sketch,
  type Words,
} from "./sketch.ts";
import { findWay, mark, type Grid, type Way } from "./route-link.ts";
import type { WireView } from "./wire-view.ts";

/** Draws a wire between two blocks; null: there is no way for it. */
export function drawLink(sketch: Sketch, grid: Grid, link: Link): Way | null {
  mark(grid, sketch);
  const { wire } = link;
  const [from, to] = landingsOf(sketch, link);
  const way = findWay(grid, from, to);
  if (way === null) return null;
  const isNew = !sketch.shown.has(wire.about);
  putWire(sketch, wire.about, isNew ? wire.says : "", way.points);
  for (const end of [way.from, way.to]) if (end.dot) putDot(sketch, end.at);
  if (isNew) captionOnWay(sketch, wire, way.points);
  return way;
}

export function landingsOf(sketch: Sketch, { wire, from, to, row }: Link): [Landing[], Landing[]] {
  const at = (...keys: string[]): Landing[] => {
    for (const key of keys) {
      const found = sketch.landings.get(key);
      if (found !== undefined && found.length > 0) return found;
    }
    return [];
  };
  const out = from.part.is === "choice" || from.part.is === "converter" ? [`${from.key} out`] : [];
  if (row !== null) return [at(...out, from.key), at(`row ${wire.id}`)];
  return [at(`stub ${wire.id}`, ...out, from.key), at(`feed ${wire.id}`, to.key)];
}

/** Devices have no place of their own on such a wire; its words name them. */
function wordsOf(wire: WireView): Words[][] {
  const devices = wire.devices.map(({ name, rating }) => ` · ${name} ${rating}`).join("");
  return [
    [{ text: wire.number, bold: true }, { text: ` · ${wire.size}` }],
    [{ text: `${wire.length}${devices}`, faint: true }],
  ];
}

/** Writes number, size and length of a wire beside one of its pieces, where nothing else stands. */
function captionOnWay(sketch: Sketch, wire: WireView, points: readonly Point[]): boolean {
  const lines = wordsOf(wire);
  const width = Math.max(...lines.map((line) => wordsWidth(line)));
  const at = (left: number, first: number) => lines.flatMap((line, i) => textLine(line, [left, first + 2.7 * i]));
  const places: [left: number, first: number][] = [];
  points.forEach((to, i) => {
    const from = points[i - 1];
    if (from === undefined) return;
    if (Math.abs(from[1] - to[1]) < 0.01) {
      const [a, b] = [Math.min(from[0], to[0]), Math.max(from[0], to[0])];
      for (let left = a + 0.8; left + width <= b + 0.01; left += 2.5)
        places.push([left, to[1] + 3], [left, to[1] - 4.2]);
    } else {
      const [a, b] = [Math.min(from[1], to[1]), Math.max(from[1], to[1])];
      for (let first = a + 3; first + 3.4 <= b; first += 2.5)
        places.push([to[0] + 1, first], [to[0] - 1 - width, first]);
    }
  });
  const place = places.find(([left, first]) => at(left, first).every((shape) => isFree(sketch, textInk(shape))));
  if (place === undefined) return false;
  for (const i of [0, 1]) putText(sketch, wire.about, textLine(lines[i] ?? [], [place[0], place[1] + 2.7 * i]));
  return true;
}

const HALO = 0.5;

/** Whether a text may stand there: nothing solid, no wire, no line of a frame. */
export function isFree(sketch: Sketch, [[x1, y1], [x2, y2]]: Box): boolean {
  const meets = ([[a1, b1], [a2, b2]]: Box, by: number): boolean =>
    a1 - by < x2 && a2 + by > x1 && b1 - by < y2 && b2 + by > y1;
  const line = ([[a1, b1], [a2, b2]]: readonly [Point, Point]): Box => [
    [Math.min(a1, a2), Math.min(b1, b2)],
    [Math.max(a1, a2), Math.max(b1, b2)],
  ];
  if (sketch.solids.some((box) => meets(box, 0))) return false;
  if (sketch.pieces.some((piece) => meets(line(piece), HALO + 0.2))) return false;
  return sketch.items.every(
    ({ role, shapes }) =>
      role !== "frame" ||
      shapes.every(
        (s) =>
          s.is !== "polyline" || s.points.every((p, i) => i === 0 || !meets(line([s.points[i - 1] ?? p, p]), HALO)),
      ),
  );
}

/**
 * Names the other end of a wire where no line can be drawn to it.
 *
 * @param where sheet of the other end; empty: this one
 * @returns whether there was room for it
 */
export function flagLink(sketch: Sketch, link: Link, end: "from" | "to", where: string): boolean {
  const { wire, from, to } = link;
  const other = end === "from" ? to : from;
  const word = end === "from" ? "to" : "from";
  const name = fitText(other.part.label, BODY, "regular", 16);
  const texts = [`${word} ${name}${where === "" ? "" : ` (${where})`}`, where === "" ? name : where];
  const landings = landingsOf(sketch, link)[end === "from" ? 0 : 1];
  for (const text of texts) {
    for (const landing of landings) {
      const words: Words[] = [{ text, faint: true }];
      const [x, y] = landing.at;
      const [dx, dy] = landing.out;
      const width = wordsWidth(words);
      // Along a row the words follow the arrow; up or down they stand beside it.
      const tip: Point = [x + 1.4 * dx, y + 1.4 * dy];
      const left = dx < 0 ? tip[0] - 0.8 - width : dx > 0 ? tip[0] + 0.8 : x + 1.4;
      const lines = textLine(words, [left, dy === 0 ? y + BODY / 2 : tip[1] - dy * 0.2 + (dy > 0 ? 0 : BODY / 2)]);
      if (!lines.every((shape) => isFree(sketch, textInk(shape)))) continue;
      if (landing.dot && landing.at !== landing.on) continue;
      const arrow: Point[] = [[x - 0.8 * dy, y - 0.8 * dx], tip, [x + 0.8 * dy, y + 0.8 * dx]]; // prettier-ignore
      const about = sketch.shown.has(wire.about) ? null : wire.about;
      if (landing.on !== landing.at && Math.hypot(landing.on[0] - x, landing.on[1] - y) > 0.01)
        putWire(sketch, about, about === null ? "" : wire.says, [landing.on, landing.at]);
      put(sketch, "mark", null, "", [{ is: "polyline", points: arrow, closed: true, fill: "ink" }]);
      putText(sketch, wire.about, lines);
      return true;
    }
  }
  return false;
}
