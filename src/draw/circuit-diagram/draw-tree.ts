import { cleanText } from "../clean-text.ts";
import type { Item, Point, Shape } from "../scene.ts";
import { fitText, wrapText } from "../sheet/fit-text.ts";
import { words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { findSymbol, placeSymbol } from "../symbols.ts";
import { linkShapes, POLE, poleShapes, RING } from "./contact-art.ts";
import { ampsText, drawBox, WHOLE, type BoxPen, type GoesOn } from "./draw-box.ts";
import { symbolAcross, symbolIn } from "./fit-symbol.ts";
import type { LaidBox } from "./lay-box.ts";
import { CAP, coreText, dot, LINE, terminal, thin, wireShapes } from "./look.ts";
import { FLAG, LEAF_BOX, LEAF_TEXT, zoneLength, type End, type Tree } from "./plan-tree.ts";
import type { LeafText } from "./wording.ts";
import { fnOf, type Block, type LineDevice, type Link } from "./read-blocks.ts";

/** What trees are drawn with. */
export interface TreePen extends BoxPen {
  /** How much longer than at least every stretch of wire is. */
  readonly extra: number;
  /** Says where a circuit goes on, or comes from; empty while that is not known yet. */
  readonly elsewhere: (circuit: string, end: "from" | "to") => string;
  /** Notes where a circuit leaves a picture, or comes back. */
  readonly note: (circuit: string, end: "from" | "to", at: Point) => void;
}

/** Half the length of what stands in a line. */
const HALF = 5;

interface Stretch {
  readonly link: Link;
  readonly from: number;
  readonly to: number;
  readonly ys: readonly number[];
  readonly caption: readonly string[];
}

/**
 * Draws a box, placed as a whole or in part, with all that hangs on it.
 *
 * @param at its upper left corner
 */
export function drawTree(tree: Tree, laid: LaidBox, [left, top]: Point, goesOn: GoesOn, pen: TreePen): void {
  drawBox(laid, [left, top], goesOn, pen);
  for (const one of laid.slots) {
    const { link } = one.slot;
    const end = tree.ends.get(one.slot);
    if (link === null || end === undefined) continue;
    const caption = tree.captions.get(one.slot) ?? [];
    const ys = one.ys.map((y) => top + y);
    if (one.slot.side === "in") drawInput(link, end, { left, ys, caption }, pen);
    else drawOutput(link, end, { right: left + laid.width, ys, caption }, pen);
  }
}

function drawInput(
  link: Link,
  end: End,
  { left, ys, caption }: { readonly left: number; readonly ys: readonly number[]; readonly caption: readonly string[] },
  pen: TreePen,
): void {
  if (end.is === "source") {
    const from = left - zoneLength(link) - pen.extra;
    const row = end.laid.slots.find(({ slot }) => slot.link === link)?.ys[0] ?? 0;
    drawBox(end.laid, [from - end.laid.width, (ys[0] ?? 0) - row], WHOLE, pen);
    drawWires({ link, from, to: left, ys, caption }, pen);
  } else if (end.is === "flag" && caption.length > 0) drawFlag(link, "to", [left, ys[0] ?? 0], ys, pen);
}

function drawOutput(
  link: Link,
  end: End,
  {
    right,
    ys,
    caption,
  }: { readonly right: number; readonly ys: readonly number[]; readonly caption: readonly string[] },
  pen: TreePen,
): void {
  const zone = zoneLength(link) + pen.extra;
  if (end.is === "tree") {
    const { tree } = end;
    const grown = Math.max(zone, tree.left + 2 + pen.extra);
    const row = tree.whole.slots.find(({ slot }) => slot.link === link)?.ys[0] ?? 0;
    drawWires({ link, from: right, to: right + grown, ys, caption }, pen);
    // Its first circuit is drawn here, from the left.
    const rest = { ...tree, captions: new Map([...tree.captions].filter(([slot]) => slot.link !== link)) };
    drawTree(rest, tree.whole, [right + grown, (ys[0] ?? 0) - row], WHOLE, pen);
    return;
  }
  drawWires({ link, from: right, to: right + zone, ys, caption }, pen);
  if (end.is === "leaf") drawLeaf(end.block, end.text, [right + zone, ys[0] ?? 0], { link, ys }, pen);
  else drawFlag(link, "from", [right + zone, ys[0] ?? 0], ys, pen);
}

/** The conductors of a circuit between two boxes, with what stands in their line, number, size and letters. */
function drawWires({ link, from, to, ys, caption }: Stretch, pen: TreePen): void {
  const about = `circuits.${link.circuit.id}`;
  const deviceAt = (end: "from" | "to"): LineDevice | undefined => link.devices.find((d) => d.end === end);
  const [first, last] = [deviceAt("from"), deviceAt("to")];
  const start = from + (first === undefined ? 0 : POLE + RING + 1);
  const stop = to - (last === undefined ? 0 : POLE + RING + 1);
  const between = [...new Set([...link.inline, ...link.lines.flatMap((l) => l.between)])];
  // A little to the left, so that letters have room on the right.
  const at = (part: string): number =>
    start + ((stop - start) * (between.indexOf(part) + 1)) / (between.length + 1) - 3;
  for (const part of link.inline) drawInline(part, link, at(part), ys, pen);
  link.lines.forEach((line, i) => {
    const y = ys[i] ?? 0;
    const colour = link.design?.colours.find(({ core }) => core === (line.fn === "pole" ? "" : line.fn));
    // Earth goes past what opens.
    const opensAt = (device: LineDevice | undefined, pole: { readonly id: string } | null, x: number): boolean => {
      if (device === undefined || (pole === null && !isOpened(line.fn, link, device.end))) return false;
      pen.items.push({ role: "symbol", about, name: pole?.id ?? `${device.kind} in ${cleanText(link.circuit.id)}`, shapes: poleShapes(device.kind, [x, y], pen.variant) }); // prettier-ignore
      return true;
    };
    const begins = opensAt(first, line.before, from + 1) ? from + 1 + POLE : from;
    const ends = opensAt(last, line.after, to - 1 - POLE) ? to - 1 - POLE : to;
    const leads: Shape[] = [];
    if (begins > from) leads.push(...wireShapes([[from, y], [from + 1, y]], line.fn, colour)); // prettier-ignore
    if (ends < to) leads.push(...wireShapes([[to - 1, y], [to, y]], line.fn, colour)); // prettier-ignore
    if (leads.length > 0) pen.items.push({ role: "mark", about: null, name: "", shapes: leads });
    line.conductors.forEach((conductor, k) => {
      const [last, next] = [line.between[k - 1], line.between[k]];
      const x1 = last === undefined ? begins : at(last) + HALF;
      const x2 = next === undefined ? ends : at(next) - HALF;
      pen.items.push({ role: "wire", about, name: conductor.id, shapes: wireShapes([[x1, y], [x2, y]], line.fn, colour) }); // prettier-ignore
      if (next !== undefined && !link.inline.includes(next))
        drawBetween(next, [at(next), y], [start + 1, stop - 1], pen);
    });
    const text = fitText(coreText(line.fn, colour), CAP, "regular", stop - start - 6);
    pen.items.push({ role: "caption", about: null, name: "", shapes: [words(text, [stop - 1.5, y - 1.2], { capMm: CAP, anchor: "end", ink: "ink2" })] }); // prettier-ignore
  });
  const y = ys[0] ?? 0;
  const room = stop - start - 3;
  pen.items.push({
    role: "caption",
    about,
    name: `${cleanText(link.circuit.id)} from ${cleanText(link.circuit.fromText)} to ${cleanText(link.circuit.toText)}, ${caption.slice(1).join(" ")}`, // prettier-ignore
    shapes: caption.map(
      (text, i) =>
      words(fitText(text, CAP, i === 0 ? "semibold" : "regular", room), [start + 1.5, y - 3.6 - LINE * (caption.length - 1 - i)], { capMm: CAP, weight: i === 0 ? "semibold" : "regular" }), // prettier-ignore
    ),
  });
  for (const device of link.devices) drawLineDevice(device, link, device.end === "from" ? from + 1 : to - 1 - POLE, ys, pen); // prettier-ignore
}

/** Of a device that nobody sets into the line yet: it opens lines, and leaves neutral and earth. */
const isOpened = (fn: string, { lines }: Link, end: "from" | "to"): boolean =>
  fn !== "N" && fn !== "PE" && fn !== "pole" && lines.every((l) => (end === "from" ? l.before : l.after) === null);

function drawLineDevice(device: LineDevice, link: Link, x: number, ys: readonly number[], pen: TreePen): void {
  const poles = link.lines.flatMap((l, i) => {
    const contact = device.end === "from" ? l.before : l.after;
    return contact !== null || isOpened(l.fn, link, device.end) ? [{ id: contact?.id ?? "", y: ys[i] ?? 0 }] : [];
  });
  const [one, last] = [poles[0], poles.at(-1)];
  if (one === undefined || last === undefined) return;
  const residual = pen.wording.residual(poles.map(({ id }) => id));
  const watched = link.lines.flatMap((l, i) => (l.fn === "PE" || l.fn === "pole" ? [] : [ys[i] ?? 0]));
  const ring = residual === "" ? null : { from: Math.min(...watched), to: Math.max(...watched) };
  const rating = `${ampsText(device.amps)}${device.isProposed ? " °" : ""}`;
  const texts = residual === "" ? [rating] : [rating, residual];
  pen.items.push({
    role: "symbol",
    about: `circuits.${link.circuit.id}`,
    name: `${device.kind} ${texts.join(", ")}`,
    shapes: [
      ...linkShapes([x, one.y], device.kind === "fuse" ? one.y : last.y, ring),
      ...texts.map((t, i) => words(t, [x, one.y - 1.3 - LINE * (texts.length - 1 - i)], { capMm: CAP })),
    ],
  });
}

/** A part that a circuit goes through with all its conductors: what it opens is open, the others go on. */
function drawInline(part: string, link: Link, x: number, ys: readonly number[], pen: TreePen): void {
  const about = `parts.${part}`;
  const [top, bottom] = [(ys[0] ?? 0) - 2.4, (ys.at(-1) ?? 0) + 2.4];
  const shapes: Shape[] = [{ is: "rectangle", from: [x - HALF, top], to: [x + HALF, bottom], fill: "paper", stroke: { ink: "ink", width: 0.25 } }]; // prettier-ignore
  const poles: { readonly id: string; readonly y: number }[] = [];
  const below = pen.items.length;
  link.lines.forEach((line, i) => {
    const k = line.between.indexOf(part);
    const [a, b] = [line.conductors[k]?.to, line.conductors[k + 1]?.from];
    if (k < 0 || a === undefined || b === undefined) return;
    const y = ys[i] ?? 0;
    const contact = pen.wording.inside.find((e) => e.is === "contact" && ((e.a === a && e.b === b) || (e.a === b && e.b === a))); // prettier-ignore
    if (contact?.is === "contact" && contact.closedIn !== undefined) {
      poles.push({ id: contact.id, y });
      const leads = [thin([[x - HALF, y], [x - POLE / 2, y]]), thin([[x + POLE / 2, y], [x + HALF, y]])]; // prettier-ignore
      pen.items.push({ role: "symbol", about, name: contact.id, shapes: [...leads, ...poleShapes(pen.wording.device(part), [x - POLE / 2, y], pen.variant)] }); // prettier-ignore
    } else if (contact !== undefined)
      pen.items.push({ role: "symbol", about, name: contact.id, shapes: symbolAcross(pen.wording.view(part)?.symbol ?? "", [x, y], [HALF, 6], pen.variant) }); // prettier-ignore
    else {
      shapes.push(thin([[x - HALF, y], [x + HALF, y]])); // prettier-ignore
      // What takes from the line on its way.
      if (a === b) shapes.push(dot([x, y]));
    }
  });
  const [one, last] = [poles[0], poles.at(-1)];
  const residual = pen.wording.residual(poles.map(({ id }) => id));
  if (one !== undefined && last !== undefined) shapes.push(...linkShapes([x - POLE / 2, one.y], last.y, null));
  const text = fitText([pen.wording.called(part), residual].filter((t) => t !== "").join(", "), CAP, "regular", 30);
  shapes.push(words(text, [x, bottom + 2.8], { capMm: CAP, anchor: "middle" }));
  pen.items.splice(below, 0, { role: "symbol", about, name: text, shapes });
}

/** What stands in one conductor alone. */
function drawBetween(part: string, [x, y]: Point, [from, to]: readonly [number, number], pen: TreePen): void {
  const about = `parts.${part}`;
  const text = fitText(pen.wording.called(part), CAP, "regular", to - from);
  const contact = pen.wording.inside.find((e) => e.is === "contact" && e.part === part && fnOf(e.a) === "PE");
  const symbol = pen.wording.view(part)?.symbol ?? "";
  pen.items.push(
    { role: "symbol", about, name: contact?.id ?? text, shapes: symbolAcross(symbol, [x, y], [HALF, 7.5], pen.variant) }, // prettier-ignore
    { role: "caption", about, name: text, shapes: [words(text, [from, y + 6.2], { capMm: CAP })] },
  );
}

/** What a circuit ends at. */
function drawLeaf(
  block: Block,
  text: LeafText,
  [x]: Point,
  { link, ys }: { readonly link: Link; readonly ys: readonly number[] },
  pen: TreePen,
): void {
  const { part } = block;
  const about = `parts.${part.id}`;
  const [first, last] = [ys[0] ?? 0, ys.at(-1) ?? 0];
  const middle = (first + last) / 2;
  const key = pen.wording.view(part.id)?.symbol ?? "";
  const shapes: Shape[] = [];
  const art = findSymbol(key, pen.variant);
  const isEarth = art !== null && ys.length === 1 && art.className === "XE";
  if (isEarth) {
    const lead = art.ports[0]?.at[1] ?? -5;
    shapes.push(...placeSymbol(art, [x - 0.8 * lead, first], 270, 0.8).shapes);
  } else {
    const [from, to] = [Math.min(first - 3, middle - 4.5), Math.max(last + 3, middle + 4.5)];
    shapes.push({ is: "rectangle", from: [x, from], to: [x + LEAF_BOX, to], fill: "paper", stroke: { ink: "ink", width: 0.35 } }); // prettier-ignore
    shapes.push(...symbolIn(key, [x + 8.3, middle], [6.2, to - from - 2], pen.variant));
    link.lines.forEach(({ fn }, i) => {
      const y = ys[i] ?? 0;
      shapes.push(terminal([x, y]), words(fn === "pole" ? "" : fn, [x + 0.9, y - 0.8], { capMm: CAP }));
    });
  }
  const top = middle - (LINE * text.lines.length) / 2 + 0.5 + CAP;
  text.lines.forEach((t, i) => {
    const isName = i < text.named;
    shapes.push(words(fitText(t, CAP, isName ? "semibold" : "regular", LEAF_TEXT - 1.5), [x + LEAF_BOX + 1.5, top + LINE * i], { capMm: CAP, weight: isName ? "semibold" : "regular", ink: isName ? "ink" : "ink2" })); // prettier-ignore
  });
  pen.items.push({ role: "symbol", about, name: text.lines.join(", "), shapes });
}

/** Where a circuit leaves a picture (`from`), or comes into one (`to`). */
function drawFlag(link: Link, end: "from" | "to", [x, y]: Point, ys: readonly number[], pen: TreePen): void {
  const leaves = end === "from";
  const id = cleanText(link.circuit.id);
  const shapes: Shape[] = ys.map((row): Shape => {
    const tip = leaves ? x + 1.8 : x - 2.2;
    return { is: "polyline", points: [[tip - 1.8, row - 0.9], [tip, row], [tip - 1.8, row + 0.9]], closed: true, fill: "ink" }; // prettier-ignore
  });
  if (!leaves) shapes.push(...ys.flatMap((row, i) => wireShapes([[x - 2.2, row], [x - 0.6, row]], link.lines[i]?.fn ?? "", undefined))); // prettier-ignore
  const where = pen.elsewhere(link.circuit.id, leaves ? "to" : "from");
  const far = leaves ? link.circuit.toText : link.circuit.fromText;
  const room = FLAG - 3.5;
  const [one = "", ...more] = wrapText(`${leaves ? "to" : "from"} ${cleanText(far)}`, CAP, "semibold", room);
  const names = more.length === 0 ? [one] : [one, fitText(more.join(" "), CAP, "semibold", room)];
  const place = leaves || where === "" ? where : `${id}, ${where}`;
  const says = [...names, ...(textWidth(place, CAP, "regular") <= room ? [place] : [id, where]), ...(where === "" && !leaves ? [id] : [])]; // prettier-ignore
  const middle = (y + (ys.at(-1) ?? y)) / 2;
  const top = middle - (LINE * says.length) / 2 + 0.5 + CAP;
  says.forEach((t, i) => {
    const weight = i < names.length ? "semibold" : "regular";
    const fitted = fitText(t, CAP, weight, room);
    const left = leaves ? x + 3 : x - 5.5 - textWidth(fitted, CAP, weight);
    shapes.push(words(fitted, [left, top + LINE * i], { capMm: CAP, weight }));
  });
  pen.note(link.circuit.id, end, [x, middle]);
  const item: Item = {
    role: "mark",
    about: `circuits.${link.circuit.id}`,
    name: `${leaves ? "to" : "from"} ${cleanText(far)}, ${place}`,
    shapes,
  };
  pen.items.push(item);
}
