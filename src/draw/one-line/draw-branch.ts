import type { Point } from "../scene.ts";
import { fitFigure, fitText } from "../sheet/fit-text.ts";
import type { Group, Row, Step, Stub } from "./blocks.ts";
import { HALF, HALF_BAR, M } from "./columns.ts";
import { placeArt, placeLoad, type PlacedArt } from "./compact-art.ts";
import { drawJoint, nameWords } from "./draw-feeder.ts";
import type { Page } from "./page.ts";
import { captionBelow, captionOver, drawLine, type LineRoom } from "./draw-line.ts";
import { mainStep } from "./main-step.ts";
import { chained, GROUP_HEAD, groupHeight, groupRows, ROW, rowHeight } from "./measure.ts";
import type { PartView } from "./part-view.ts";
import {
  addLanding,
  ALTERNATING_BAR,
  BAR,
  BODY,
  BOUNDARY,
  noteWidth,
  put,
  putDot,
  putNote,
  putText,
  putWire,
  textLine,
  wordsWidth,
  type Words,
} from "./sketch.ts";
import { UNKNOWN, type WireView } from "./wire-view.ts";

/** From a bar to the words beyond the boundary of its panel, mm. */
const IN_FRAME = 10.8;
/** From the middle of what fans out to the joint of its branches, modules. */
const JOINT = { choice: 2, other: 3 } as const;
const NOTHING = "–";
/** Less room than this holds no name, mm. */
const LEAST_NAME = 7;
/** From a name to a question mark that gets a diamond about it, mm. */
const IN_DIAMOND = 2.5;
/** Between a load and the caption that ends before it, mm. */
const CLEAR = 0.9;
/** How far words without a row of figures beside them may pass the loads, mm. */
const BEYOND = 20;
/** Of the words of a row, below the middle of its line. */
const BASE = BODY / 2;

/**
 * Draws a branch from a bar to its load, and what the load's row of figures says.
 *
 * @param left where it leaves its bar, modules
 * @param top of the row, modules
 * @param labels "over": designations of devices beside their ratings
 */
export function drawRow(page: Page, row: Row, left: number, top: number, labels: "over" | "rating"): void {
  const { hand, columns, x, y } = page;
  const { sketch } = hand;
  const tap = top + 1;
  const loads = chained(row);
  const wires = row.steps.flatMap(({ wire }) => wire ?? []);
  const last = wires.at(-1);
  const end = loads.length > 1 ? columns.load - 1 : columns.load;
  const views = loads.flatMap((id) => hand.parts.get(id) ?? []);
  const arts = views.map((view, i) => placeLoad(view.symbol, hand.variant, [x(columns.load), y(tap + ROW * i)]));
  const first = arts[0];
  const to: Point = loads.length > 1 || first === undefined ? [x(end), y(tap)] : [first.left[0], y(tap)];
  const flows =
    last !== undefined && last.from.part === row.vertex.part.id && row.vertex.part.is !== "load" ? "left" : "right";
  const from: Point = [x(left), y(tap)];
  // The caption stands at the load's end, what sits in the line at the other.
  const { used } = drawLine(hand, row.steps, from, to, flows, labels, 18);
  const taken = labels === "rating" ? Math.max(used, IN_FRAME) : used;
  const chainOf = (ids: readonly string[]): string[] => ids.map((id) => `parts.${id}`);
  const air = loads.length > 1 ? 0.7 : CLEAR;
  captionOver(sketch, wires, [x(end) - air, y(tap)], x(end) - x(left) - taken - air, false);
  for (let at = Math.ceil(left + used / M) + 1; at < end; at++) {
    for (const dy of [-1, 1])
      addLanding(sketch, row.vertex.key, { at: [x(at), y(tap)], on: [x(at), y(tap)], out: [0, dy], dot: true });
  }
  if (loads.length > 1) {
    putWire(sketch, null, "", [[x(end), y(tap)], [x(end), y(tap + ROW * (loads.length - 1))]], chainOf(loads.slice(1))); // prettier-ignore
    arts.forEach((art, i) => {
      const r = tap + ROW * i;
      putWire(sketch, null, "", [[x(end), y(r)], [art.left[0], y(r)]], chainOf(loads.slice(i, i + 1))); // prettier-ignore
      if (i < arts.length - 1) putDot(sketch, [x(end), y(r)], chainOf(loads.slice(i)));
    });
  }
  views.forEach((view, i) => {
    const art = arts[i];
    if (art === undefined) return;
    put(sketch, "symbol", view.about, view.says, art.shapes, art.box);
    // No wire from elsewhere passes between a load and its figures.
    sketch.solids.push([[art.box[1][0], y(tap + ROW * i) - M / 2], [x(0) + columns.percent, y(tap + ROW * i) + M / 2]]); // prettier-ignore
    const abouts = [
      view.about,
      ...(i === 0 ? wires.map(({ about }) => about) : []),
      ...(i === 0 ? row.steps.flatMap(({ through }) => through?.about ?? []) : []),
    ];
    drawFigures(page, view, i === 0 ? wires : [], last, tap + ROW * i, abouts);
  });
}

/** Name and figures of a load, right of its symbol. */
function drawFigures(
  page: Page,
  view: PartView,
  wires: readonly WireView[],
  last: WireView | undefined,
  row: number,
  abouts: readonly string[],
): void {
  const { hand, columns, x, y } = page;
  const { sketch } = hand;
  const base = y(row) + BASE;
  const origin = x(0);
  const length =
    wires.length === 0
      ? ""
      : wires.length === 1
        ? (wires[0]?.lengthFigure ?? "")
        : wires.map((w) => w.lengthFigure).join("+");
  const drop = last?.drops[view.id];
  const amps = hand.amps.get(view.id) ?? last?.amps ?? NOTHING;
  const isLoad = view.is === "load" || view.is === "end";
  const figures: [Words, number, string][] = [
    [{ text: length, field: "length" }, columns.length, wires[0]?.about ?? view.about],
    [{ text: isLoad ? amps : "", field: "load" }, columns.amps, view.about],
    [{ text: isLoad ? (drop?.percent ?? NOTHING) : "" }, columns.percent, view.about],
    ...(columns.volts === null
      ? []
      : [[{ text: isLoad ? (drop?.volts ?? NOTHING) : "" }, columns.volts, view.about] satisfies [Words, number, string]]), // prettier-ignore
  ];
  let room = origin + columns.length - (x(0) + columns.name) - 6;
  for (const [words, right, of] of figures) {
    const shapes = textLine([words], [origin + right, base], "end");
    if (right === columns.length && shapes[0] !== undefined)
      room = shapes[0].at[0] - (origin + columns.name) - (sketch.onBench && words.text === UNKNOWN ? IN_DIAMOND : 1);
    putText(sketch, null, shapes, "table", [of]);
  }
  const name = view.called ?? view.label;
  putText(
    sketch,
    view.about,
    textLine(
      [{ text: fitText(name, BODY, "semibold", room), bold: true, field: "name" }],
      [origin + columns.name, base],
    ),
    "table",
  );
  if (noteWidth(sketch, abouts) > 0) putNote(sketch, abouts, [origin + (columns.volts ?? columns.percent) + 1, y(row)]);
  else for (const about of abouts) sketch.told.add(about);
}

/** Draws a wire that leaves a bar for elsewhere: to the right end of its row, where it is picked up. */
export function drawStub(
  page: Page,
  { link }: Stub,
  left: number,
  top: number,
  inPanel: boolean,
  labels: "over" | "rating" = "rating",
): void {
  const { hand, columns, x, y } = page;
  const { sketch } = hand;
  const tap = inPanel ? top + 1 : top + 2;
  const end = inPanel ? columns.load : columns.panel - 1;
  const steps: Step[] = [{ wire: link.wire, through: null }];
  const line = drawLine(hand, steps, [x(left), y(tap)], [x(end), y(tap)], "right", labels);
  const room = x(end) - x(left);
  const indent = labels === "rating" ? IN_FRAME : 1;
  if (inPanel)
    captionOver(sketch, [link.wire], [x(end) - 0.9, y(tap)], room - Math.max(line.used + 0.7, IN_FRAME) - 0.9, true);
  else captionBelow(sketch, [link.wire], y(tap), [x(left) + indent, x(end) - 1], line);
  const at: Point = [x(end), y(tap)];
  for (const out of [[1, 0], [0, 1], [0, -1]] as const) addLanding(sketch, `stub ${link.wire.id}`, { at, on: at, out, dot: false }); // prettier-ignore
}

/** Draws a branch to a panel or a converter, and its own branches. */
export function drawGroup(page: Page, group: Group, left: number, top: number, labels: "over" | "rating"): void {
  const { hand, columns, x, y } = page;
  const { sketch } = hand;
  const { vertex, steps, rows } = group;
  const { part } = vertex;
  const isBar = part.is === "panel" || part.is === "bar";
  const height = groupHeight(group);
  const indent = labels === "rating" ? IN_FRAME : 1;
  const measured = groupRows(group);
  const taps = measured.taps.map((tap) => top + tap);
  const feed = top + measured.feed;
  const [first = feed, last = feed] = [taps[0], taps.at(-1)];
  const at = columns.panel;
  const wires = steps.flatMap(({ wire }) => wire ?? []);
  const abouts = [
    part.about,
    ...wires.map(({ about }) => about),
    ...steps.flatMap(({ through }) => through?.about ?? []),
  ];
  const lastWire = wires.at(-1);
  const flows = lastWire !== undefined && lastWire.from.part === part.id ? "left" : "right";

  let line: LineRoom;
  // A caption ends before what its line runs into.
  let edge = x(at) - 3;
  if (isBar) {
    const [from, to] = [Math.min(first, feed) - 1, Math.max(last, feed) + 1];
    const end: Point = [x(at) - BAR.width / 2, y(feed)];
    line = drawLine(hand, [...steps, ...mainStep(part, lastWire)], [x(left), y(feed)], end, flows, labels, 0, 3);
    drawBar(page, vertex.key, part, part.says, at, from, to, taps, [feed]);
    if (part.is === "panel") drawFrame(page, part, abouts, at, from, to);
    else writeAbove(page, part, abouts, x(at) - BAR.width / 2, y(from));
  } else {
    const art = placeArt(
      part.symbol,
      hand.variant,
      "line",
      [x(at), y(feed)],
      "middle",
      [2 * HALF * M, 2 * HALF * M],
      part.is === "choice" ? 0.7 : 0.5,
      hand.bladeOf(part.id),
    );
    line = drawLine(hand, steps, [x(left), y(feed)], art.left, flows, labels);
    edge = art.box[0][0] - 0.9;
    put(sketch, "symbol", part.about, part.says, art.shapes, art.box);
    const ends: [Point, Point, Point][] = [
      [[x(at), y(feed + 2)], art.bottom, [0, 1]],
      [[x(at), y(feed - 2)], art.top, [0, -1]],
    ];
    if (rows.length === 0) ends.push([[x(at + 2), y(feed)], art.right, [1, 0]]);
    for (const [point, on, out] of ends) addLanding(sketch, vertex.key, { at: point, on, out, dot: false });
    if (rows.length === 0) {
      writeBeside(page, part, abouts, [x(at + 2.6), y(feed)]);
    } else {
      const joint = at + JOINT[part.is === "choice" ? "choice" : "other"];
      const carried = rows.map(firstOf);
      putWire(sketch, null, "", [art.right, [x(joint), y(feed)]], carried.flat());
      drawJoint(page, `${vertex.key} out`, joint, taps, feed, 1, carried);
      writeBefore(page, part, abouts, art, x(left) + Math.max(line.used, indent), y(feed));
    }
  }
  captionBelow(sketch, wires, y(feed), [x(left) + indent, edge], line);
  let next = top + GROUP_HEAD;
  for (const row of rows) {
    const start = isBar ? at + HALF_BAR : at + JOINT[part.is === "choice" ? "choice" : "other"];
    if (row.is === "row") drawRow(page, row, start, next, isBar ? "rating" : "over");
    else drawStub(page, row, start, next, true, isBar ? "rating" : "over");
    next += row.is === "row" ? rowHeight(row) : ROW;
  }
  if (height < next - top) throw new RangeError("a group is higher than it was measured");
}

/** Key path of the wire by which something hangs on its bar. */
export const firstOf = (item: Row | Group | Stub): string[] =>
  item.is === "stub" ? [item.link.wire.about] : item.steps.flatMap(({ wire }) => wire?.about ?? []).slice(0, 1);

/** A bar, upright; wires may come to it wherever no branch leaves it. */
export function drawBar(
  page: Page,
  key: string,
  part: PartView,
  says: string,
  at: number,
  from: number,
  to: number,
  taps: readonly number[],
  feeds: readonly number[],
): void {
  const { hand, x, y } = page;
  const half = BAR.width / 2;
  const box = [[x(at) - half, y(from)], [x(at) + half, y(to)]] as const; // prettier-ignore
  const ink = hand.alternating.has(part.id) ? ALTERNATING_BAR.ink : BAR.ink;
  put(hand.sketch, "bar", part.about, says, [{ is: "rectangle", from: box[0], to: box[1], fill: ink }], box);
  for (let r = from + 1; r < to; r++) {
    if (!feeds.includes(r))
      addLanding(hand.sketch, key, { at: [x(at - 1), y(r)], on: [x(at) - half, y(r)], out: [-1, 0], dot: false });
    if (!taps.includes(r))
      addLanding(hand.sketch, key, { at: [x(at + 1), y(r)], on: [x(at) + half, y(r)], out: [1, 0], dot: false });
  }
  addLanding(hand.sketch, key, { at: [x(at), y(to + 1)], on: [x(at), y(to)], out: [0, 1], dot: false });
}

/** The boundary of a panel about its bar and what stands in its ways, its name in a gap of the line. */
export function drawFrame(
  page: Page,
  part: PartView,
  abouts: readonly string[],
  at: number,
  from: number,
  to: number,
  isWide = false,
): void {
  const { hand, columns, x, y } = page;
  const { sketch } = hand;
  const [left, right, top, bottom] = [x(at) - (isWide ? 10.7 : 2.2), x(at) + 10.7, y(from) - 2.8, y(to) + 1.4];
  const note = noteWidth(sketch, abouts);
  const words: Words[] = [
    { text: "+", bold: true, field: "name" },
    ...nameWords(part, x(columns.load) - left - 6 - note),
    ...(part.values[0] === undefined ? [] : [{ text: ` ${part.values[0]}`, faint: true, field: "rating" } as const]),
  ];
  const start = left + 1.6;
  const end = start + wordsWidth(words) + (note > 0 ? note + 0.4 : 0);
  putText(sketch, part.about, textLine(words, [start, top + BASE]));
  if (note > 0) putNote(sketch, abouts, [start + wordsWidth(words) + 0.9, top]);
  const points: Point[] = [[start - 0.6, top], [left, top], [left, bottom], [right, bottom], [right, top]]; // prettier-ignore
  if (end + 0.6 < right) points.push([end + 0.6, top]);
  else points.splice(-1, 1, [right, top + 1.8]);
  put(sketch, "frame", null, "", [{ is: "polyline", points, stroke: BOUNDARY }], null, [part.about]);
}

/** Name and rating in one line above a bar. */
function writeAbove(page: Page, part: PartView, abouts: readonly string[], left: number, top: number): void {
  const { hand, columns, x } = page;
  const note = noteWidth(hand.sketch, abouts);
  const words = nameWords(part, x(columns.load) - left - note - 2, part.values[0]);
  putText(hand.sketch, part.about, textLine(words, [left, top - 1]));
  if (note > 0) putNote(hand.sketch, abouts, [left + wordsWidth(words) + 1, top - 1 - BODY / 2]);
}

/** Name and rating of what fans out: over its line in, as wires may come to it from above and below. */
function writeBefore(
  page: Page,
  part: PartView,
  abouts: readonly string[],
  { box }: PlacedArt,
  from: number,
  row: number,
): void {
  const { sketch } = page.hand;
  const note = noteWidth(sketch, abouts);
  const right = box[0][0] - 1.6;
  const room = right - from - note;
  if (room < LEAST_NAME) {
    // There is none over the line: under the symbol, then.
    const under = box[1][1] + 2.7;
    const short = nameWords({ ...part, called: null }, box[1][0] - box[0][0] + 2);
    putText(sketch, part.about, textLine(short, [box[0][0], under]));
    if (note > 0) putNote(sketch, abouts, [box[0][0], under + 2.6]);
    return;
  }
  const words = nameWords({ ...part, called: null }, room, part.values[0]);
  const left = right - note - wordsWidth(words);
  const base = row - 1.3;
  putText(sketch, part.about, textLine(words, [left, base]));
  if (note > 0) putNote(sketch, abouts, [left + wordsWidth(words) + 0.9, base - BODY / 2]);
}

/** Name and ratings in two lines, right of a symbol, above and below where a wire may leave it. */
function writeBeside(page: Page, part: PartView, abouts: readonly string[], [left, middle]: Point): void {
  const { hand, columns, x } = page;
  const note = noteWidth(hand.sketch, abouts);
  const room = x(columns.load) - left + BEYOND;
  const words = nameWords(part, room - note - 1);
  putText(hand.sketch, part.about, textLine(words, [left, middle - 1.2]));
  if (note > 0) putNote(hand.sketch, abouts, [left + wordsWidth(words) + 1, middle - 1.2 - BODY / 2]);
  const all = part.values.map((_, i) => part.values.slice(0, part.values.length - i).join(" · "));
  const values = part.values.length === 0 ? UNKNOWN : fitFigure(all, BODY, "regular", room);
  putText(hand.sketch, part.about, textLine([{ text: values, faint: true, field: "rating" }], [left, middle + 3]));
}
