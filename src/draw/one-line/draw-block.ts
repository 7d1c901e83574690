import type { Point } from "../scene.ts";
import type { Block, Link } from "./blocks.ts";
import { HALF, HALF_BAR, M } from "./columns.ts";
import { fitText } from "../sheet/fit-text.ts";
import { placeArt } from "./compact-art.ts";
import { drawBar, drawFrame, drawGroup, drawRow, drawStub, firstOf } from "./draw-branch.ts";
import { drawChoice, hasContacts } from "./draw-choice.ts";
import { mainStep } from "./main-step.ts";
import { carriedBy, drawFeeder, drawJoint, inputsOf, nameWords } from "./draw-feeder.ts";
import type { Page } from "./page.ts";
import { captionUnder, drawLine } from "./draw-line.ts";
import {
  EDGE,
  feederHeight,
  feedHeight,
  GAP,
  hasCaption,
  headHeight,
  leftHeight,
  rightHeight,
  rightStack,
  rowHeight,
  SLOT,
} from "./measure.ts";
import {
  addLanding,
  BAR,
  BODY,
  noteWidth,
  put,
  putNote,
  putText,
  putWire,
  textLine,
  wordsWidth,
  type Words,
} from "./sketch.ts";

/** Draws a block; `top` in modules. */
export function drawBlock(sheet: Page, block: Block, top: number): void {
  const { root } = block;
  const isPanel = root.part.is === "panel";
  // What leaves a panel passes its boundary before there is room for words.
  const page: Page = isPanel
    ? {
        ...sheet,
        columns: { ...sheet.columns, bar: sheet.columns.bar - 2, panel: sheet.columns.panel + 2 },
        edge: sheet.columns.bar - 2 - (block.backs.length > 0 ? 4.8 : 1.2),
        near: sheet.columns.first - (block.backs.length > 0 ? 6 : 0),
        panel: root.part,
      }
    : sheet;
  const { columns } = page;
  const labels = isPanel ? "rating" : "over";
  const isBar = root.part.is === "bar" || root.part.is === "panel";
  const alone = !isBar && block.lefts.length + block.rights.length + block.backs.length === 0;
  let next = drawApart(page, block.over, top);
  next += headHeight(block);
  const start = next;
  const bar = columns.bar;
  const [edgeLeft, edgeRight] = isBar ? [bar, bar + HALF_BAR] : [bar - 3, bar + 3];
  const lefts: number[] = [];
  const rights: number[] = [];
  const carried = {
    left: [...block.backs.map(firstOf), ...block.lefts.map(carriedBy), ...block.feeds.map(({ wire }) => [wire.about])],
    right: block.rights.map(firstOf),
  };
  const leftEnd = isBar ? bar - HALF_BAR : edgeLeft;

  let at = start;
  for (const { link } of block.backs) {
    lefts.push(at + 2);
    drawBack(page, link, at + 2, leftEnd);
    at += SLOT;
  }
  for (const feeder of block.lefts) {
    const toChoice = root.part.is !== "choice" ? null : lefts.length === 0 ? "first" : "later";
    lefts.push(drawFeeder(page, feeder, at, leftEnd, 1, toChoice));
    at += feederHeight(feeder);
  }
  for (const link of block.feeds) {
    const height = feedHeight(link, root);
    const row = at + height / 2;
    lefts.push(row);
    drawFeed(page, link, row, leftEnd, height > 2);
    at += height;
  }
  at = start;
  for (const item of block.rights) {
    if (item.is === "row") {
      drawRow(page, item, edgeRight, at, labels);
      rights.push(at + 1);
    } else if (item.is === "stub") {
      drawStub(page, item, edgeRight, at, false, labels);
      rights.push(at + 2);
    } else {
      const rows = page.hand.sketch.pieces.length;
      drawGroup(page, item, edgeRight, at, labels);
      rights.push(tapOf(page, rows, edgeRight));
    }
    at += rightHeight(item) + (item.is === "row" ? 0 : GAP);
  }
  const all = [...lefts, ...rights];
  const height = Math.max(leftHeight(block), rightStack(block), 4);
  if (isBar) {
    const from = Math.min(...(all.length === 0 ? [start + 2] : all)) - (isPanel ? 1 : 2);
    const to = Math.max(...(all.length === 0 ? [start + 3] : all)) + 1;
    const abouts = [root.part.about];
    if (isPanel) drawFrame(page, root.part, abouts, bar, from, to, block.backs.length > 0);
    else writeOver(page, block, from);
    drawBar(page, root.key, root.part, root.part.says, bar, from, to, rights, lefts);
  } else if (alone) drawAlone(page, block, start);
  else drawRootSymbol(page, block, lefts, rights, carried, start + EDGE);
  drawApart(page, block.under, start + height);
}

/** The row on which a group's line leaves the bar: the first piece that begins there. */
function tapOf({ hand, x, y }: Page, since: number, left: number): number {
  const first = hand.sketch.pieces.slice(since).find(([from]) => Math.abs(from[0] - x(left)) < 0.01);
  return first === undefined ? 0 : Math.round((first[0][1] - y(0)) / M);
}

/** Rows whose wire comes from the far side of the bar. */
function drawApart(page: Page, links: readonly Link[], top: number): number {
  let next = top;
  for (const { row, wire } of links) {
    if (row === null) continue;
    const { columns, hand, x, y } = page;
    const left = columns.bar + 1;
    drawRow(page, row, left, next, "over");
    const at: Point = [x(left), y(next + 1)];
    for (const out of [[-1, 0], [0, -1], [0, 1]] as const) addLanding(hand.sketch, `row ${wire.id}`, { at, on: at, out, dot: false }); // prettier-ignore
    next += rowHeight(row);
  }
  return next;
}

/** A wire that leaves a bar to the left. */
function drawBack(page: Page, link: Link, row: number, bar: number): void {
  const { hand, columns, x, y } = page;
  const left = columns.joint;
  const from: Point = [x(left), y(row)];
  drawLine(hand, [{ wire: link.wire, through: null }], from, [x(bar), y(row)], "left", "rating");
  captionUnder(hand.sketch, [link.wire], [from[0] + 0.8, y(row)], x(bar) - from[0] - 12.4);
  for (const out of [[-1, 0], [0, -1], [0, 1]] as const) addLanding(hand.sketch, `stub ${link.wire.id}`, { at: from, on: from, out, dot: false }); // prettier-ignore
}

/** Where a wire from elsewhere arrives at a root. */
function drawFeed(page: Page, link: Link, row: number, bar: number, isLong: boolean): void {
  const { hand, columns, x, y } = page;
  const main = mainStep(page.hand.parts.get(link.to.part.id) ?? link.to.part, link.wire);
  const left = isLong ? columns.bar - 9 : columns.bar - 2;
  const from: Point = [x(left), y(row)];
  const to: Point = [x(bar), y(row)];
  if (hasCaption(link)) {
    const { low } = drawLine(hand, [{ wire: link.wire, through: null }, ...main], from, to, "right", "over");
    captionUnder(hand.sketch, [link.wire], [from[0] + 0.8, y(row)], x(page.edge ?? bar) - from[0] - 1.4, low);
  } else if (main.length > 0) drawLine(hand, main, from, to, "right", "over");
  else putWire(hand.sketch, null, "", [from, to], [link.wire.about]);
  for (const out of [[-1, 0], [0, -1], [0, 1]] as const) addLanding(hand.sketch, `feed ${link.wire.id}`, { at: from, on: from, out, dot: false }); // prettier-ignore
}

/** Name and rating of a bar, over its upper end, in two lines. */
function writeOver(page: Page, { root: { part } }: Block, from: number): void {
  const { hand, columns, x, y } = page;
  const left = x(columns.bar) - BAR.width / 2;
  const abouts = [part.about];
  const note = noteWidth(hand.sketch, abouts);
  const room = x(columns.panel - 1) - left - 1.5;
  const base = y(from) - 0.9;
  const words = nameWords({ ...part, called: null }, room - note, part.values[0]);
  putText(hand.sketch, part.about, textLine(words, [left, base]));
  if (note > 0) putNote(hand.sketch, abouts, [left + wordsWidth(words) + 1, base - BODY / 2 + 0.35]);
  putText(
    hand.sketch,
    part.about,
    textLine([{ text: fitText(part.called ?? "", BODY, "regular", room), field: "name" }], [left, base - 2.9]),
  );
}

/** A source that feeds something elsewhere and nothing here. */
function drawAlone(page: Page, { root }: Block, top: number): void {
  const { hand, columns, x, y } = page;
  const { part } = root;
  const row = top + EDGE;
  const facing = part.is === "load" ? "line" : "source";
  const art = placeArt(part.symbol, hand.variant, facing, [x(columns.first - HALF), y(row)], "left", [7.5, 7.5]);
  put(hand.sketch, "symbol", part.about, part.says, art.shapes, art.box);
  const note = noteWidth(hand.sketch, [part.about]);
  const words: Words[] = nameWords(part, 44, part.values[0]);
  putText(hand.sketch, part.about, textLine(words, [art.box[0][0], art.box[0][1] - 1]));
  if (note > 0)
    putNote(hand.sketch, [part.about], [art.box[0][0] + wordsWidth(words) + 1, art.box[0][1] - 1 - BODY / 2]);
  const own = root.edges.find(({ from, wire }) => from === root && wire !== null)?.wire;
  const end: Point = [x(columns.bar - 1), y(row)];
  if (own === null || own === undefined) {
    addLanding(hand.sketch, root.key, { at: [x(columns.first + 2), y(row)], on: art.right, out: [1, 0], dot: false });
    return;
  }
  drawLine(hand, [{ wire: own, through: null }], art.right, end, "right", "over");
  captionUnder(hand.sketch, [own], [art.box[1][0] + 0.8, y(row)], end[0] - art.box[1][0] - 2);
  for (const out of [[1, 0], [0, 1], [0, -1]] as const) addLanding(hand.sketch, `stub ${own.id}`, { at: end, on: end, out, dot: false }); // prettier-ignore
}

/** A root that is no bar: its symbol between two joints. */
function drawRootSymbol(
  page: Page,
  block: Block,
  lefts: readonly number[],
  rights: readonly number[],
  carried: { readonly left: readonly (readonly string[])[]; readonly right: readonly (readonly string[])[] },
  usual: number,
): void {
  const { hand, columns, x, y } = page;
  const { root, lefts: feeders } = block;
  const { sketch } = hand;
  const all = lefts.length > 0 ? lefts : rights;
  const middle = all.length === 0 ? usual : Math.floor((Math.min(...all) + Math.max(...all)) / 2);
  const row = root.part.is === "choice" && lefts.length === 3 ? (lefts[1] ?? middle) : middle;
  const inputs = inputsOf(feeders, root.part.id, lefts);
  const at = columns.bar;
  let joinsLeft = true;
  if (root.side) {
    // Where all goes on elsewhere there is no line to the right.
    if (rights.length > 0) putWire(sketch, null, "", [[x(at - 3), y(row)], [x(at + 3), y(row)]], carried.right.flat()); // prettier-ignore
  } else {
    const { part } = root;
    const chooses = part.is === "choice" && inputs.length === lefts.length && hasContacts(inputs, row);
    const art = chooses
      ? drawChoice(page, part, inputs, { joint: at - 3, centre: at, row, key: root.key })
      : placeArt(part.symbol, hand.variant, "line", [x(at), y(row)], "middle", [2 * HALF * M, 2 * HALF * M], 0.5, hand.bladeOf(part.id)); // prettier-ignore
    if (chooses) joinsLeft = false;
    else put(sketch, "symbol", part.about, part.says, art.shapes, art.box);
    if (lefts.length > 0 && !chooses) putWire(sketch, null, "", [[x(at - 3), y(row)], art.left], carried.left.flat()); // prettier-ignore
    if (rights.length > 0) putWire(sketch, null, "", [art.right, [x(at + 3), y(row)]], carried.right.flat()); // prettier-ignore
    const note = noteWidth(sketch, [part.about]);
    const [left, top] = art.box[0];
    const under = art.box[1][1] + 2.7;
    const value: Words = { text: part.values[0] ?? "", faint: true, field: "rating" };
    // Over a line that goes straight on stands what is said of its devices: there is room for a designation alone.
    const isTight = rights.includes(row);
    const words = isTight ? nameWords({ ...part, called: null }, x(at + 3) - left - 0.8) : nameWords(part, 20);
    const isBare = isTight && block.rights.every(({ is }) => is === "row");
    const called: Words = { text: isBare ? ` ${fitText(part.called ?? "", BODY, "regular", 24)}`.trimEnd() : "", field: "name" }; // prettier-ignore
    const below = [value, called];
    putText(sketch, part.about, textLine(words, [left, top - 1]));
    putText(sketch, part.about, textLine(below, [left, under]));
    const noteAt: Point = isTight ? [left + wordsWidth(below) + 1, under - BODY / 2] : [left + wordsWidth(words) + 1, top - 1 - BODY / 2]; // prettier-ignore
    if (note > 0) putNote(sketch, [part.about], noteAt);
    for (const dy of [-1, 1])
      addLanding(sketch, root.key, {
        at: [x(at), y(row + 2 * dy)],
        on: dy < 0 ? art.top : art.bottom,
        out: [0, dy],
        dot: false,
      });
    if (rights.length === 0)
      addLanding(sketch, root.key, { at: [x(at + 2), y(row)], on: art.right, out: [1, 0], dot: false });
    if (lefts.length === 0)
      addLanding(sketch, root.key, { at: [x(at - 2), y(row)], on: art.left, out: [-1, 0], dot: false });
  }
  if (lefts.length > 0 && joinsLeft) drawJoint(page, root.key, at - 3, lefts, row, 1, carried.left);
  if (rights.length > 0) drawJoint(page, root.key, at + 3, rights, row, 1, carried.right);
}
