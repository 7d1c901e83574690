import { decimalText } from "../../quantity/decimal-text.ts";
import { cleanText } from "../clean-text.ts";
import type { Item, Point, Shape } from "../scene.ts";
import { fitText } from "../sheet/fit-text.ts";
import { words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { findSymbol, placeSymbol, type SymbolVariant } from "../symbols.ts";
import { interlockShapes, linkShapes, POLE, poleShapes, RING, type ContactIs } from "./contact-art.ts";
import { TRANSFORMER, type LaidBox, type LaidSlot } from "./lay-box.ts";
import { CAP, dot, LINE, terminal, thin } from "./look.ts";
import { symbolAcross, symbolIn } from "./fit-symbol.ts";
import type { ContactElement } from "./read-blocks.ts";
import { changeoversIn, type BoxRow, type BoxSlot } from "./sort-box.ts";
import type { Wording } from "./wording.ts";

/** What boxes are drawn with. */
export interface BoxPen {
  readonly wording: Wording;
  readonly variant: SymbolVariant;
  readonly items: Item[];
}

const BAR = 1;
const box = (from: Point, to: Point, width = 0.35): Shape => ({ is: "rectangle", from, to, fill: "paper", stroke: { ink: "ink", width } }); // prettier-ignore

export const ampsText = (amps: number | null): string =>
  amps === null ? "? A" : `${decimalText(amps, { figures: 3 })} A`;

/** Metal that goes on in other parts of a box, on other sheets. */
export interface GoesOn {
  readonly above: ReadonlySet<string>;
  readonly below: ReadonlySet<string>;
}

export const WHOLE: GoesOn = { above: new Set(), below: new Set() };

/**
 * Draws a box: its name, the poles on either side, bars for the metal between them, where neutral meets earth.
 *
 */
export function drawBox(laid: LaidBox, [left, top]: Point, goesOn: GoesOn, pen: BoxPen): void {
  const { box: sorted, width, height, head, bars } = laid;
  const { part } = sorted.block;
  const right = left + width;
  pen.items.push({
    role: "frame",
    about: `parts.${part.id}`,
    name: head.join(", "),
    shapes: [
      box([left, top], [right, top + height]),
      ...(goesOn.above.size === 0 ? head : [fitText(`${head[0] ?? ""}, continued`, CAP, "semibold", width - 2)]).map(
        (text, i) =>
        words(text, [left + 1, top + 0.8 + LINE * i + CAP], { capMm: CAP, weight: i === 0 ? "semibold" : "regular", ink: i === 0 ? "ink" : "ink2" }), // prettier-ignore
      ),
    ],
  });
  for (const bar of bars) {
    const from = bar.from - 2;
    const to = goesOn.below.has(bar.net) ? height : bar.to + 2;
    const x = left + bar.x;
    pen.items.push({
      role: "bar",
      about: `parts.${part.id}`,
      name: `bar ${bar.fn} of ${cleanText(part.id)}`,
      shapes: bar.isTap
        ? [
            thin([
              [x, top + bar.from],
              [x, top + bar.to],
            ]),
          ]
        : [
            // prettier-ignore
            { is: "polyline", points: [[x, top + from], [x, top + to]], stroke: { ink: "ink", width: BAR } }, // prettier-ignore
            words(bar.fn, [x, top + bar.from - 2.9], { capMm: CAP, weight: "semibold", anchor: "middle" }),
          ],
    });
  }
  for (const slot of laid.slots) drawSlot(laid, slot, [left, top], pen);
  for (const group of changeoversIn(sorted.slots)) drawInterlock(laid, group, [left, top], pen);
  drawJoins(laid, [left, top], pen);
  if (sorted.transforms && bars.length === 0) {
    const ys = (laid.slots[0]?.slot.rows ?? []).flatMap((r, i) => (r.fn === "PE" ? [] : [laid.slots[0]?.ys[i] ?? 0]));
    const middle: Point = [left + laid.middle[0] + TRANSFORMER / 2, top + (Math.min(...ys) + Math.max(...ys)) / 2];
    const key = findSymbol("isolation_transformer", "iec");
    if (key !== null) pen.items.push({ role: "symbol", about: `parts.${part.id}`, name: "transformer", shapes: placeSymbol(key, middle, 270, 0.8).shapes.filter((s) => s.is !== "polyline") }); // prettier-ignore
  }
}

/** Where inside the line of a row ends. */
function innerEnd(
  laid: LaidBox,
  { side, row, y }: { readonly side: "in" | "out"; readonly row: BoxRow; readonly y: number },
): { readonly x: number; readonly at: "bar" | "through" | "nothing" } {
  const bar = laid.bars.find((b) => b.net === row.net);
  if (bar !== undefined) return { x: bar.x, at: "bar" };
  const [from, to] = laid.middle;
  const across = laid.slots.some(({ slot, ys }) => slot.side !== side && slot.rows.some((r, i) => r.net === row.net && ys[i] === y)); // prettier-ignore
  if (across) return { x: side === "in" ? to : from, at: "through" };
  // Into the rings of a transformer, but for its earth.
  const into = laid.box.transforms && row.fn !== "PE" ? 1.5 : 0;
  if (side === "in") return { x: from + into, at: "nothing" };
  return { x: laid.box.transforms ? from + TRANSFORMER - into : to, at: "nothing" };
}

function drawSlot(laid: LaidBox, { slot, ys }: LaidSlot, [left, top]: Point, pen: BoxPen): void {
  const { part } = laid.box.block;
  const isIn = slot.side === "in";
  const edge = isIn ? left : left + laid.width;
  const pole = left + (isIn ? laid.leftPole : laid.rightPole);
  const about = `parts.${part.id}`;
  const lines: Shape[] = [];
  const giver = slot.is === "giver";
  const [first = 0, last = 0] = [ys[0], ys.at(-1)];
  slot.rows.forEach((row, i) => {
    const y = top + (ys[i] ?? 0);
    const end = innerEnd(laid, { side: slot.side, row, y: ys[i] ?? 0 });
    const inner = left + end.x;
    const start = giver ? left + laid.leftPole + 11 : edge;
    if (row.contact === null)
      lines.push(thin([[start, y], [inner, y]])); // prettier-ignore
    else {
      lines.push(thin([[edge, y], [isIn ? pole : pole + POLE, y]]), thin([[isIn ? pole + POLE : pole, y], [inner, y]])); // prettier-ignore
      pen.items.push({ role: "symbol", about, name: row.contact.id, shapes: contactShapes(row.contact, laid, [pole, y], pen) }); // prettier-ignore
    }
    if (end.at === "bar") lines.push(dot([inner, y]));
    const tap = laid.bars.find((b) => b.isTap && b.net === row.own);
    if (tap !== undefined && tap.net !== row.net) lines.push(dot([left + tap.x, y]));
    if (end.at === "nothing" && (!laid.box.transforms || row.fn === "PE")) lines.push(terminal([inner, y]));
    if (giver) return;
    lines.push(terminal([edge, y]));
    lines.push(words(row.fn === "pole" ? "PE" : row.fn, [isIn ? edge + 0.9 : edge - 0.9, y - 0.8], { capMm: CAP, anchor: isIn ? "start" : "end" })); // prettier-ignore
  });
  pen.items.push({ role: "mark", about: null, name: "", shapes: lines });
  if (giver) {
    const key = slot.giver?.is === "source" ? (pen.wording.view(part.id)?.symbol ?? "generator_set") : "inverter";
    const from: Point = [left + laid.leftPole, top + first - 3];
    const to: Point = [left + laid.leftPole + 11, top + last + 3];
    pen.items.push({
      role: "symbol",
      about,
      name: `${cleanText(part.id)} gives here`,
      shapes: [box(from, to, 0.25), ...symbolIn(key, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], [9, 10], pen.variant)], // prettier-ignore
    });
    return;
  }
  drawDevice(laid, { slot, ys }, [left, top], pole, pen);
}

/** Between the inputs of a changeover: never two of them at once. */
function drawInterlock(laid: LaidBox, group: readonly BoxSlot[], [left, top]: Point, pen: BoxPen): void {
  const poles = laid.slots
    .filter(({ slot }) => group.includes(slot))
    .map(({ slot, ys }) => ys.filter((_, i) => slot.rows[i]?.contact !== null).map((y) => top + y));
  const shapes = poles.slice(1).flatMap((own, i): Shape[] => {
    const [from, to] = [poles[i]?.at(-1), own[0]];
    return from === undefined || to === undefined ? [] : interlockShapes([left + laid.leftPole, from], to);
  });
  const names = group.map(({ label }) => cleanText(label)).join(" or ");
  if (shapes.length > 0) pen.items.push({ role: "symbol", about: `parts.${laid.box.block.part.id}`, name: `interlocked: ${names}, never together`, shapes }); // prettier-ignore
}

/** What opens together, and its letters. */
function drawDevice(laid: LaidBox, { slot, ys }: LaidSlot, [left, top]: Point, pole: number, pen: BoxPen): void {
  const { part } = laid.box.block;
  const own = slot.rows.flatMap((r, i) => (r.contact === null ? [] : [{ id: r.contact.id, y: top + (ys[i] ?? 0) }]));
  const [one, end] = [own[0], own.at(-1)];
  const shapes: Shape[] = [];
  const residual = pen.wording.residual(own.map(({ id }) => id));
  if (one !== undefined && end !== undefined) {
    const watched = slot.rows.flatMap((r, i) => (r.fn === "PE" || r.fn === "pole" ? [] : [top + (ys[i] ?? 0)]));
    const ring = residual === "" ? null : { from: Math.min(...watched), to: Math.max(...watched) };
    shapes.push(...linkShapes([pole, one.y], end.y, ring));
  }
  const circuit = slot.link?.circuit.id ?? "";
  const row = slot.side === "out" && slot.label !== "" ? pen.wording.way(part.id, slot.label, circuit) : undefined;
  const rating = row === undefined || row.rating === "" ? "" : `${row.rating}${row.isProposed ? " °" : ""}`;
  const y = top + (ys[0] ?? 0);
  // What keeps the inputs of a changeover apart goes down through the middle of their blades.
  const isLocked = changeoversIn(laid.box.slots).some((group) => group.includes(slot) && group[0] !== slot);
  const begin = isLocked ? pole + POLE / 2 + 0.9 : pole;
  const room = (slot.side === "in" ? laid.middle[0] + 3 - laid.leftPole : POLE + RING) - (begin - pole);
  const texts = [slot.label === "" ? "" : cleanText(slot.label), rating, residual].filter((t) => t !== "");
  const rows = slot.label === "" ? [texts.join(" ")] : texts;
  // Above the letters of the terminal, or beside them.
  const lift = slot.side === "in" ? 3.5 : 1.3;
  rows.forEach((text, i) => {
    // Only the lowest line has letters of the terminal beside it.
    const fitted = fitText(text, CAP, i === 0 ? "semibold" : "regular", i < rows.length - 1 ? room + 2.5 : room);
    shapes.push(words(fitted, [begin, y - lift - LINE * (rows.length - 1 - i)], { capMm: CAP, weight: i === 0 ? "semibold" : "regular" })); // prettier-ignore
  });
  if (slot.is === "free") {
    const at = slot.side === "in" ? left - 1.5 : left + laid.width + 1.5;
    shapes.push(words("free", [at, y + CAP / 2], { capMm: CAP, anchor: slot.side === "in" ? "end" : "start", ink: "ink2" })); // prettier-ignore
  }
  if (shapes.length > 0) pen.items.push({ role: "symbol", about: `parts.${part.id}`, name: texts.join(", "), shapes });
}

/** A pole; what never opens is a link in a way, or what the part is. */
function contactShapes(contact: ContactElement, laid: LaidBox, [x, y]: Point, pen: BoxPen): readonly Shape[] {
  if (contact.closedIn !== undefined) return poleShapes(contactIs(contact, laid, pen), [x, y], pen.variant);
  if (contact.way !== undefined) return [thin([[x, y], [x + POLE, y]])]; // prettier-ignore
  const symbol = pen.wording.view(laid.box.block.part.id)?.symbol ?? "";
  return symbolAcross(symbol, [x + POLE / 2, y], [POLE / 2, 7], pen.variant);
}

function contactIs(contact: ContactElement, laid: LaidBox, { wording }: BoxPen): ContactIs {
  const { part } = laid.box.block;
  if (contact.way !== undefined) return part.wayDevice ?? "breaker";
  if (part.device !== undefined) return part.device.kind;
  const isMain = contact.mover !== undefined && contact.mover !== part.id && part.traits.distributes === true;
  return isMain && wording.view(part.id)?.main?.kind === "breaker" ? "breaker" : "switch";
}

/** Where neutral meets earth inside: between the bars, or between two lines that go through. */
function drawJoins(laid: LaidBox, [left, top]: Point, pen: BoxPen): void {
  const about = `parts.${laid.box.block.part.id}`;
  const barOf = (net: string): number | undefined => laid.bars.find((b) => b.net === net)?.x;
  for (const { join, y } of laid.joins) {
    const when = join.element.closedIn;
    const says = when === undefined ? "" : when === "unknown" ? "?" : `while ${when.join(" or ")}`;
    const [n, e] = [barOf(join.neutral), barOf(join.earth)];
    if (n !== undefined && e !== undefined) {
      // On the side that has room.
      const isRight =
        Math.max(textWidth(says, CAP, "regular"), textWidth("N–PE", CAP, "semibold")) <= laid.width - e - 2;
      const text: Point = [left + (isRight ? e + 1.5 : n - 1.8), top + y + CAP / 2];
      pen.items.push(joinItem(about, [left + n, top + y], [left + e, top + y], says, isRight ? laid.width - e - 2 : n - 3, text, isRight ? "start" : "end")); // prettier-ignore
    } else acrossLines(laid, [left, top], says, pen);
  }
  for (const source of laid.box.block.inside) {
    if (source.is !== "source" || source.joined === false || laid.bars.length > 0) continue;
    const { from, joined, earthedApart } = source;
    const where = from === "shore" ? "ashore" : "";
    acrossLines(laid, [left, top], joined === "unknown" || earthedApart === "unknown" ? "?" : earthedApart === true ? "TT" : where, pen); // prettier-ignore
  }
}

function acrossLines(laid: LaidBox, [left, top]: Point, says: string, pen: BoxPen): void {
  const { slot, ys } = laid.slots.find(({ slot: s }) => s.side === "out") ?? { slot: null, ys: [] };
  const at = (fn: string): number | undefined => ys[slot?.rows.findIndex((r) => r.fn === fn) ?? -1];
  const [n, e] = [at("N"), at("PE")];
  if (n === undefined || e === undefined) return;
  const beyond = laid.box.transforms ? TRANSFORMER : 0;
  const x = left + laid.middle[0] + 2.3 + beyond;
  pen.items.push(joinItem(`parts.${laid.box.block.part.id}`, [x, top + n], [x, top + e], says, laid.width - laid.middle[0] - 6.5 - beyond, [x + 1, top + n + 2.2])); // prettier-ignore
}

function joinItem(
  about: string,
  from: Point,
  to: Point,
  says: string,
  room: number,
  text: Point,
  anchor: "start" | "end" = "start",
): Item {
  const isOpen = says.startsWith("while") || says === "?";
  const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const isAcross = from[1] === to[1];
  const gap = 1.3;
  const wire: Shape[] = isOpen
    ? isAcross
      ? [thin([from, [mx - gap, my]]), thin([[mx + gap, my], to]), thin([[mx + gap, my], [mx - gap, my + 1.4]])] // prettier-ignore
      : [thin([from, [mx, my - gap]]), thin([[mx, my + gap], to]), thin([[mx, my + gap], [mx - 1.4, my - gap]])] // prettier-ignore
    : [thin([from, to])];
  return {
    role: "symbol",
    about,
    name: `neutral meets earth ${says}`,
    shapes: [
      ...wire,
      dot(from),
      dot(to),
      words("N–PE", text, { capMm: CAP, weight: "semibold", anchor }),
      ...(says === "" ? [] : [words(fitText(says, CAP, "regular", room), [text[0], text[1] + LINE - 0.6], { capMm: CAP, anchor })]), // prettier-ignore
    ],
  };
}
