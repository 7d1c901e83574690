import type { Point, Shape } from "../scene.ts";
import { boxAround, shapeBox, type Box } from "../shape-box.ts";
import { turnShape } from "../turn-shape.ts";
import type { Link } from "./blocks.ts";
import { isFree } from "./is-free.ts";
import { placeArt } from "./compact-art.ts";
import { MARK_MM } from "../sheet/draw-mark.ts";
import { fitText } from "../sheet/fit-text.ts";
import type { Blade } from "../set-blade.ts";
import {
  BODY,
  figuresOf,
  noteWidth,
  put,
  putDot,
  putNote,
  putText,
  putWire,
  textInk,
  textLine,
  wordsWidth,
  type Landing,
  type Piece,
  type Sketch,
  type Words,
} from "./sketch.ts";
import { findWay, mark, type Grid, type Way } from "./route-link.ts";
import type { WireView } from "./wire-view.ts";

const HALO = 0.5;

/** Draws a wire between two blocks; null: there is no way for it. */
export function drawLink(
  sketch: Sketch,
  grid: Grid,
  link: Link,
  variant: "iec" | "na",
  blade: Blade = "rest",
): Way | null {
  mark(grid, sketch);
  const { wire } = link;
  const [from, to] = landingsOf(sketch, link);
  const way = findWay(grid, from, to);
  if (way === null) return null;
  const isNew = !sketch.shown.has(wire.about);
  const found = isNew ? placeOnWay(sketch, wire, way.points, variant, blade) : null;
  // Its words go before its symbol.
  const device = found !== null && leavesRoom(sketch, wire, way.points, found.box) ? found : null;
  const pieces = device === null ? [way.points] : device.pieces;
  pieces.forEach((points, i) => {
    putWire(sketch, wire.about, isNew && i === 0 ? wire.says : "", points);
  });
  if (device !== null) {
    put(sketch, "symbol", null, device.says, device.shapes, withAir(device.box), [wire.about]);
    sketch.gaps.push({ of: [wire.about], points: device.gap });
  }
  for (const end of [way.from, way.to]) if (end.dot) putDot(sketch, end.at, [wire.about]);
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

const grown = ([[x1, y1], [x2, y2]]: Box, by: number): Box => [[x1 - by, y1 - by], [x2 + by, y2 + by]]; // prettier-ignore
/** A solid as `put` keeps it, so that its halo comes to the air of a caption. */
const withAir = (box: Box): Box => grown(box, AIR - HALO);

/** Between a caption and the symbol that stands in its wire, mm. */
const AIR = 0.85;
/** On the way, from a bend or an end to a device, mm. */
const BEFORE = 1.6;

interface OnWay {
  readonly shapes: readonly Shape[];
  readonly box: Box;
  readonly says: string;
  /** The way on either side of it. */
  readonly pieces: readonly (readonly Point[])[];
  /** Under it. */
  readonly gap: readonly Point[];
}

/** Finds the place of a wire's first device on its way, at the end that it protects; null: there is no room, and its words alone name it. */
function placeOnWay(
  sketch: Sketch,
  wire: WireView,
  points: readonly Point[],
  variant: "iec" | "na",
  blade: Blade,
): OnWay | null {
  const [device] = wire.devices;
  if (device === undefined) return null;
  const { kind, name, rating, end } = device;
  const art = placeArt(kind, variant, "line", [0, 0], "left", [5, 2.3], kind === "fuse" ? 0.55 : 0.5, blade);
  const length = art.right[0] - art.left[0];
  const legs = points.slice(1).map((to, i) => ({ i, from: points[i] ?? to, to }));
  for (const { i, from, to } of end === "from" ? legs : legs.reverse()) {
    const whole = Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1]);
    const [dx, dy] = [Math.sign(to[0] - from[0]), Math.sign(to[1] - from[1])];
    const turn = dx > 0 ? 0 : dy > 0 ? 90 : dx < 0 ? 180 : 270;
    for (let along = BEFORE; along + length + BEFORE <= whole; along += 0.5) {
      const at = end === "from" ? along : whole - length - along;
      const start: Point = [from[0] + dx * at, from[1] + dy * at];
      const move = ([x, y]: Point): Point => [start[0] + x, start[1] + y];
      const shapes = art.shapes.map((shape) => turnShape(shape, turn, move, 1));
      const box = boxAround(shapes.flatMap(shapeBox));
      if (!isFree(sketch, box)) continue;
      const stop: Point = [start[0] + dx * length, start[1] + dy * length];
      const pieces = [[...points.slice(0, i + 1), start], [stop, ...points.slice(i + 1)]]; // prettier-ignore
      return { shapes, box, says: `${kind} ${name} ${rating} in ${wire.number}`, pieces, gap: [start, stop] };
    }
  }
  return null;
}

/** Words name its devices: only the first has a place of its own on such a wire. */
function wordsOf(sketch: Sketch, wire: WireView): Words[][] {
  const devices = wire.devices.map(({ name, rating }): Words => ({ text: ` · ${name} ${rating}`, field: "device" }));
  const faint = figuresOf(sketch, { text: wire.length, field: "length" }, ...devices);
  return [
    [
      { text: wire.number, bold: true, field: "number" },
      { text: ` · ${wire.size}`, field: "size" },
    ],
    faint.map((words) => ({ ...words, faint: true })),
  ];
}

/** Writes number, size and length of a wire beside one of its pieces, where nothing else stands, with the number of its note. */
function captionOnWay(sketch: Sketch, wire: WireView, points: readonly Point[]): void {
  const lines = wordsOf(sketch, wire);
  const tail = noteTail(sketch, wire);
  const noted = captionPlace(sketch, lines, points, tail);
  const place = noted ?? captionPlace(sketch, lines, points);
  if (place === undefined) return;
  const [left, base] = place;
  for (const i of [0, 1]) putText(sketch, wire.about, textLine(lines[i] ?? [], [left, base + 2.7 * i]));
  if (noted !== undefined && tail > 0)
    putNote(sketch, [wire.about], [left + wordsWidth(lines[0] ?? []) + 1, base - BODY / 2]);
}

/** Room for the number of its note behind the first line of a caption; 0: it has none. */
function noteTail(sketch: Sketch, wire: WireView): number {
  const width = noteWidth(sketch, [wire.about]);
  return width === 0 ? 0 : width + 1;
}

/** Whether the caption of a wire finds a place beside its way with a symbol in it. */
function leavesRoom(sketch: Sketch, wire: WireView, points: readonly Point[], box: Box): boolean {
  const legs = points.slice(1).map((to, i): Piece => [points[i] ?? to, to]);
  const tried = {
    ...sketch,
    pieces: [...sketch.pieces, ...legs],
    solids: [...sketch.solids, grown(withAir(box), HALO)],
  };
  return captionPlace(tried, wordsOf(sketch, wire), points, noteTail(sketch, wire)) !== undefined;
}

/** Where the first line of a caption begins: beside one of the pieces of a way. */
function captionPlace(
  sketch: Sketch,
  lines: readonly Words[][],
  points: readonly Point[],
  tail = 0,
): Point | undefined {
  const first = wordsWidth(lines[0] ?? []) + tail;
  const width = Math.max(first, ...lines.map((line) => wordsWidth(line)));
  const isClear = ([left, base]: Point): boolean =>
    tail === 0 || isFree(sketch, [[left, base - MARK_MM], [left + first, base]]); // prettier-ignore
  const at = (left: number, first: number) => lines.flatMap((line, i) => textLine(line, [left, first + 2.7 * i]));
  const places: Point[] = [];
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
        for (const off of [1, 2.2]) places.push([to[0] + off, first], [to[0] - off - width, first]);
    }
  });
  return places.find(
    (place) => isClear(place) && at(place[0], place[1]).every((shape) => isFree(sketch, textInk(shape))),
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
        putWire(sketch, about, about === null ? "" : wire.says, [landing.on, landing.at], [wire.about]);
      put(sketch, "mark", null, "", [{ is: "polyline", points: arrow, closed: true, fill: "ink" }], null, [wire.about]);
      putText(sketch, wire.about, lines);
      return true;
    }
  }
  return false;
}
