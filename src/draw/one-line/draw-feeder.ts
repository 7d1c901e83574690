import type { Point } from "../scene.ts";
import type { Feeder, Step } from "./blocks.ts";
import { HALF, HALF_BAR, M } from "./columns.ts";
import { otherEnd, type Vertex } from "./graph.ts";
import { inLine, placeArt, withRing, type PlacedArt } from "./compact-art.ts";
import { drawChoice, hasContacts, type Input } from "./draw-choice.ts";
import { AIR, captionBelow, drawLine } from "./draw-line.ts";
import { isFree } from "./is-free.ts";
import { mainStep } from "./main-step.ts";
import { EDGE, slotOf } from "./measure.ts";
import type { Page } from "./page.ts";
import type { PartView } from "./part-view.ts";
import { fitFigure, fitText } from "../sheet/fit-text.ts";
import {
  addLanding,
  BAR,
  BODY,
  noteWidth,
  put,
  putDot,
  putNote,
  putText,
  putWire,
  textInk,
  textLine,
  wordsWidth,
  type Words,
} from "./sketch.ts";

/** Base lines of a name above a symbol and of its rating below. */
const NAME_UP = 0.9;
/** Over the row: leaves a line for what is written over devices. */
const NAME_OVER = 5;
const VALUE_DOWN = 2.7;

/**
 * Draws a feeder with all that feeds it, to the left of what it feeds.
 *
 * @param top of its first slot, modules
 * @param right where its line ends, modules
 * @returns the row of its line, modules
 */
export function drawFeeder(
  page: Page,
  feeder: Feeder,
  top: number,
  right: number,
  depth: number,
  toChoice: ToChoice = null,
): number {
  return draw(page, feeder, { next: top + EDGE }, right, depth, toChoice);
}

/** What ends on a contact of a switch that chooses: its first input, one of the others; null: it ends on no such contact. */
type ToChoice = "first" | "later" | null;
/** What stands before such a contact moves away from it, for the caption of its wire. */
const BEFORE_CHOICE = 3;

function draw(
  page: Page,
  feeder: Feeder,
  slots: { next: number },
  right: number,
  depth: number,
  toChoice: ToChoice = null,
): number {
  const { hand, columns, x, y } = page;
  const { sketch } = hand;
  if (feeder.kids.length === 0) return drawSource(page, feeder, slots, right, depth);

  const away = toChoice === null || depth > 1 ? 0 : BEFORE_CHOICE;
  const centre = depth === 1 ? columns.first - away : columns.second;
  const isBar = feeder.part?.is === "bar" || feeder.part?.is === "panel";
  const symbol = feeder.part !== null && !isBar ? feeder.part : null;
  const joint = symbol === null ? centre : depth === 1 ? columns.joint - away : centre - 2;
  const single = feeder.kids.length === 1 && symbol !== null;
  const end = single ? centre - HALF : isBar ? joint - HALF_BAR : joint;
  const chooses = symbol?.is === "choice";
  const rows = feeder.kids.map((kid, i) => draw(page, kid, slots, end, depth + 1, !chooses ? null : i === 0 ? "first" : "later")); // prettier-ignore
  const [first = slots.next, last = slots.next] = [rows[0], rows.at(-1)];
  const middle = Math.floor((first + last) / 2);
  // Of three the one between goes straight on.
  const row = symbol?.is === "choice" && rows.length === 3 ? (rows[1] ?? middle) : middle;
  const inputs = symbol?.is === "choice" ? inputsOf(feeder.kids, symbol.id, rows) : [];

  let start: Point = [x(isBar ? joint + HALF_BAR : joint), y(row)];
  if (isBar && feeder.part !== null) {
    drawSmallBar(page, feeder.part, joint, first, last);
  } else if (symbol?.is === "choice" && hasContacts(inputs, row)) {
    const art = drawChoice(page, symbol, inputs, { joint, centre, row, key: feeder.vertex.key });
    writeName(page, symbol, feeder, art, x(columns.bar) - 0.4, row, depth);
    landOnSymbol(page, feeder, symbol, art, centre, joint, row);
    lineOut(page, feeder, art.right, right, row, x(centre + HALF));
    return row;
  } else if (!single) {
    drawJoint(page, feeder.vertex.key, joint, rows, row, symbol === null ? 0 : 1, feeder.kids.map(carriedBy));
  }
  if (symbol !== null) {
    const bare = placeArt(symbol.symbol, hand.variant, inLine(symbol), [x(centre), y(row)], "middle", [
      2 * HALF * M,
      2 * HALF * M,
    ], 0.5, hand.bladeOf(symbol.id)); // prettier-ignore
    const art = symbol.rings ? withRing(bare) : bare;
    // The contact of a later input stands over its line.
    const edge = toChoice === "later" || depth > 1 ? x(right) - 0.8 : x(columns.bar) - 0.4;
    putWire(sketch, null, "", [[single ? x(centre - HALF) : x(joint), y(row)], art.left], feeder.kids.flatMap(carriedBy)); // prettier-ignore
    if (symbol.is === "through")
      sketch.gaps.push({ of: feeder.kids.flatMap(carriedBy), points: [art.left, art.right] });
    put(sketch, "symbol", symbol.about, symbol.says, art.shapes, art.box);
    writeName(page, symbol, feeder, art, edge, row, depth);
    if (symbol.is === "store") {
      // Its own sign is at its plus: with that of its minus, series does not read as parallel.
      const sign = textLine([{ text: "−", bold: true }], [art.left[0] - 0.9, y(row) - 1.3], "end");
      if (sign.every((shape) => isFree(sketch, textInk(shape)))) putText(sketch, symbol.about, sign);
    }
    start = art.right;
    landOnSymbol(page, feeder, symbol, art, centre, single ? joint : null, row);
  }
  lineOut(
    page,
    feeder,
    start,
    right,
    row,
    symbol === null ? start[0] - 0.45 : x(centre + HALF) + (symbol.is === "through" ? 2.4 : 0),
  );
  return row;
}

/** What comes to a switch that chooses, and to which of its inputs. */
export const inputsOf = (kids: readonly Feeder[], part: string, rows: readonly number[]): Input[] =>
  kids.map((kid, i) => {
    const { wire } = kid;
    const port = wire === null ? "" : wire.to.part === part ? wire.to.port : wire.from.port;
    return { row: rows[i] ?? 0, carried: carriedBy(kid), port };
  });

/** Where wires from elsewhere come to a symbol in a line: a converter itself, a switch at the line on either side. */
function landOnSymbol(
  { hand: { sketch }, x, y }: Page,
  { vertex }: Feeder,
  part: PartView,
  art: PlacedArt,
  centre: number,
  joint: number | null,
  row: number,
): void {
  for (const dy of [-1, 1]) {
    const on = dy < 0 ? art.top : art.bottom;
    const out: Point = [0, dy];
    if (part.is !== "through" && part.is !== "store") {
      addLanding(sketch, vertex.key, { at: [x(centre), y(row + 2 * dy)], on, out, dot: false });
      continue;
    }
    const behind: Point = [x(centre + 2), y(row)];
    const isInner = vertex.key.endsWith("|in");
    addLanding(sketch, `${part.id}|${isInner ? "out" : "in"}`, { at: behind, on: behind, out, dot: true });
    if (joint === null) continue;
    const before: Point = [x(joint), y(row)];
    addLanding(sketch, vertex.key, { at: before, on: before, out, dot: true });
  }
}

/** Key paths of whatever carries the current that comes out of a feeder. */
export const carriedBy = ({ wire, kids, vertex }: Feeder): string[] =>
  wire !== null ? [wire.about] : kids.length > 0 ? kids.flatMap(carriedBy) : [vertex.part.about];

/** The line from a feeder to what it feeds. */
function lineOut(page: Page, feeder: Feeder, start: Point, right: number, row: number, least = start[0] - 0.45): void {
  const { hand, x, y } = page;
  const to: Point = [x(right), y(row)];
  if (feeder.wire === null) {
    if (to[0] - start[0] > 0.01) putWire(hand.sketch, null, "", [start, to], carriedBy(feeder));
    return;
  }
  const main = page.panel === undefined ? [] : mainStep(page.panel, feeder.wire);
  const own: Step = { wire: feeder.wire, through: null };
  const steps = feeder.flows === "left" ? [...main, own] : [own, ...main];
  const inset = page.edge === undefined ? 0 : Math.max(0, to[0] - x(page.edge));
  const line = drawLine(hand, steps, start, to, feeder.flows, "over", 0, inset);
  const end = Math.min(to[0] - 0.6, x(page.edge ?? right));
  captionBelow(hand.sketch, [feeder.wire], y(row), [least + AIR, end], line);
}

function drawSource(page: Page, feeder: Feeder, slots: { next: number }, right: number, depth: number): number {
  const { hand, columns, x, y } = page;
  const row = slots.next;
  slots.next += slotOf(feeder);
  const { part } = feeder.vertex;
  const view = feeder.part ?? part;
  const isConverter = view.is === "converter" || view.is === "through";
  const near = depth === 1 && right > columns.first;
  const nearest = page.near ?? columns.first;
  const facing = isConverter || part.is === "load" ? "line" : "source";
  const room = [7.5, 7] as const;
  const sides = sidesOf(feeder);
  const isMiddle = near && isConverter;
  // What comes from elsewhere to its far side needs a place there.
  const left = near ? nearest - HALF : columns.source + (isTapped(sides.left, 1) ? 1 : 0);
  const art: PlacedArt = isMiddle
    ? placeArt(view.symbol, hand.variant, facing, [x(nearest), y(row)], "middle", [2 * HALF * M, 2 * HALF * M], 0.5, hand.bladeOf(view.id)) // prettier-ignore
    : placeArt(view.symbol, hand.variant, facing, [x(left), y(row)], "left", room);
  put(hand.sketch, "symbol", view.about, view.says, art.shapes, art.box);
  const below = writeName(
    page,
    view,
    feeder,
    art,
    near ? Math.min(x(columns.bar) - 2, x(page.edge ?? columns.bar)) : x(right) - 1.2,
    row,
    depth,
  );
  const start = landOnSource(page, feeder, view, sides, art, isMiddle ? nearest - 2 : left - 1, right, row);
  const least = near && view.is === "through" ? x(nearest + HALF) + 1.2 : art.box[1][0];
  lineOut(page, feeder, start, right, row, Math.max(least, below, start === art.right ? 0 : start[0]));
  return row;
}

/** What is joined to the left and to the right of the symbol of a source: only what sits in the line has two sides. */
interface Sides {
  readonly left: Vertex | undefined;
  readonly right: Vertex;
}

function sidesOf({ vertex, part }: Feeder): Sides {
  const inside = vertex.edges.find(({ through }) => through !== null);
  const other = inside === undefined ? undefined : otherEnd(inside, vertex);
  return part !== null && other !== undefined ? { left: vertex, right: other } : { left: other, right: vertex };
}

/** Whether more than what a picture has of its own comes to a place. */
const isTapped = (vertex: Vertex | undefined, own: number): boolean =>
  vertex !== undefined && vertex.edges.length > own;

/**
 * Where wires from elsewhere come to a source: each to its own side of what sits in the line, and none behind a device of the line that leaves.
 *
 * @param before module left of its symbol
 * @returns where the line that leaves begins
 */
function landOnSource(
  { hand: { sketch }, x, y }: Page,
  { vertex, wire }: Feeder,
  view: PartView,
  sides: Sides,
  art: PlacedArt,
  before: number,
  right: number,
  row: number,
): Point {
  const land = (key: string, at: Point, on: Point, out: Point, dot = false): void => {
    addLanding(sketch, key, { at, on, out, dot });
  };
  if (sides.left !== undefined)
    for (const out of [[-1, 0], [0, -1], [0, 1]] as const) land(sides.left.key, [x(before), y(row)], art.left, out); // prettier-ignore
  if (view.is === "converter" || view.is === "choice") {
    const middle = Math.round(((art.box[0][0] + art.box[1][0]) / 2 - x(0)) / M);
    land(vertex.key, [x(middle), y(row + 2)], [x(middle), art.box[1][1]], [0, 1]);
    land(vertex.key, [x(middle), y(row - 2)], [x(middle), art.box[0][1]], [0, -1]);
    land(vertex.key, [x(before), y(row)], art.left, [-1, 0]);
    return art.right;
  }
  const { key } = sides.right;
  const first = Math.ceil((art.right[0] - x(0)) / M - 0.01) + 1;
  const held = wire === null || wire.devices.length + wire.inline.length === 0 ? right - 1 : first;
  for (let at = first; at <= held && at < right; at++)
    for (const dy of [-1, 1]) land(key, [x(at), y(row)], [x(at), y(row)], [0, dy], true);
  // A device stands behind the place where others join.
  if (held > first || wire === null || !isTapped(sides.right, sides.right.side ? 2 : 1)) return art.right;
  const tap: Point = [x(first), y(row)];
  putWire(sketch, wire.about, "", [art.right, tap], [wire.about]);
  return tap;
}

/** Where lines of several rows meet. */
export function drawJoint(
  { hand: { sketch }, x, y }: Page,
  key: string,
  at: number,
  rows: readonly number[],
  row: number,
  outs: number,
  carried: readonly (readonly string[])[] = [],
): void {
  const first = Math.min(row, ...rows);
  const last = Math.max(row, ...rows);
  const all = carried.flat();
  if (last > first && !sketch.onBench) putWire(sketch, null, "", [[x(at), y(first)], [x(at), y(last)]], all); // prettier-ignore
  if (sketch.onBench) {
    // What comes from beyond a stretch, seen from the trunk, flows through it.
    const stops = [...new Set([...rows, row])].sort((a, b) => a - b);
    stops.slice(1).forEach((r, i) => {
      const above = stops[i] ?? r;
      const of = carried.filter((_, k) => (r <= row ? (rows[k] ?? row) <= above : (rows[k] ?? row) >= r)).flat();
      putWire(sketch, null, "", [[x(at), y(above)], [x(at), y(r)]], of); // prettier-ignore
    });
  }
  for (const r of new Set([...rows, row])) {
    const arms =
      rows.filter((k) => k === r).length +
      (r === row ? Math.max(1, outs) : 0) +
      (r > first ? 1 : 0) +
      (r < last ? 1 : 0);
    if (arms > 2 && last > first) putDot(sketch, [x(at), y(r)], all);
  }
  const end = (r: number, dy: number): void => {
    const point: Point = [x(at), y(r)];
    addLanding(sketch, key, { at: point, on: point, out: [0, dy], dot: true });
  };
  end(first, -1);
  end(last, 1);
  for (let r = first; r <= last; r++) {
    const point: Point = [x(at), y(r)];
    if (!rows.includes(r)) addLanding(sketch, key, { at: point, on: point, out: [-1, 0], dot: true });
    if (r !== row) addLanding(sketch, key, { at: point, on: point, out: [1, 0], dot: true });
  }
}

function drawSmallBar(page: Page, part: PartView, at: number, first: number, last: number): void {
  const { hand, x, y } = page;
  const { sketch } = hand;
  const [top, bottom] = [y(first - 1), y(last + 1)];
  const half = BAR.width / 2;
  put(sketch, "bar", part.about, sketch.shown.has(part.about) ? "" : part.says, [{ is: "rectangle", from: [x(at) - half, top], to: [x(at) + half, bottom], fill: "ink" }], [[x(at) - half, top], [x(at) + half, bottom]]); // prettier-ignore
  putText(sketch, null, textLine([{ text: part.label, bold: true }], [x(at) - half, top - 0.9]), "caption", [
    part.about,
  ]);
}

/**
 * Name above a symbol with its rating, the number of its note beside; the name people use below where there is room.
 *
 * @returns where what is written under the symbol ends, mm
 */
function writeName(
  { hand: { sketch }, y }: Page,
  part: PartView,
  feeder: Feeder,
  art: PlacedArt,
  edge: number,
  row: number,
  depth: number,
): number {
  const abouts = [part.about, ...(feeder.wire === null ? [] : [feeder.wire.about])];
  const left = art.box[0][0];
  const note = noteWidth(sketch, abouts);
  const isBox = part.is === "converter";
  const isOwn = feeder.wire === null && feeder.kids.length === 0;
  const room = edge - left - note - (note > 0 ? 2.2 : 0.8);
  const named = isOwn ? { ...part, called: null } : part;
  const isWide = wordsWidth(nameWords(named, Infinity, part.values[0])) > room;
  const inName = isBox || (part.is === "through" && isWide && !part.rings) ? undefined : part.values[0];
  const words = nameWords(named, room, inName);
  const over = depth === 1 && feeder.kids.length === 0 ? NAME_OVER + 0.9 : NAME_OVER;
  const base = Math.min(art.box[0][1] - NAME_UP, y(row) - over);
  putText(sketch, part.about, textLine(words, [left, base]));
  if (note > 0) putNote(sketch, abouts, [left + wordsWidth(words) + 1, base - BODY / 2 + 0.35]);
  const value = inName === undefined ? (part.values[0] ?? "") : "";
  const under = isBox ? art.box[1][1] + VALUE_DOWN : Math.max(art.box[1][1] + VALUE_DOWN, y(row) + 5.3);
  const space = isBox ? Math.max(art.box[1][0] - left + 1.2, 8.6) : 8.6;
  const below: Words = { text: fitFigure([value, value.replaceAll(" × ", "×")], BODY, "regular", space), faint: true, field: "rating" }; // prettier-ignore
  putText(sketch, part.about, textLine([below], [left, under]));
  // Where no wire's caption stands, its name does.
  if (isOwn && part.called !== null) {
    const from = art.box[1][0] + 0.8;
    putText(
      sketch,
      part.about,
      textLine([{ text: fitText(part.called, BODY, "regular", edge - from), field: "name" }], [from, y(row) + 2.75]),
    );
  }
  return left + wordsWidth([below]);
}

/** Designation, rating and what people call a part, as far as there is room, in that order of weight. */
export function nameWords(part: PartView, room: number, value?: string): Words[] {
  const label = fitText(part.label, BODY, "semibold", room);
  const bold: Words = { text: label, bold: true, field: "name" };
  if (label !== part.label) return [bold];
  const rating: Words[] = value === undefined ? [] : [{ text: ` ${value}`, faint: true, field: "rating" }];
  if (wordsWidth([bold, ...rating]) > room) return [bold];
  if (part.called === null) return [bold, ...rating];
  const called = fitText(` ${part.called}`, BODY, "regular", room - wordsWidth([bold, ...rating]));
  return called.length < 5 ? [bold, ...rating] : [bold, { text: called, field: "name" }, ...rating];
}
