import type { System } from "../../system/index.ts";
import { cleanText } from "../clean-text.ts";
import type { Point } from "../scene.ts";
import { fitFigure, fitText } from "../sheet/fit-text.ts";
import { textWidth } from "../text-width.ts";
import { M } from "./columns.ts";
import { placeArt } from "./compact-art.ts";
import { nameWords } from "./draw-feeder.ts";
import type { Page } from "./page.ts";
import { captionOver } from "./draw-line.ts";
import type { Graph } from "./graph.ts";
import type { PartView } from "./part-view.ts";
import { BAR, BODY, noteWidth, put, putNote, putText, putWire, textLine, wordsWidth } from "./sketch.ts";
import { partOf, type WireView } from "./wire-view.ts";

/** A bar, a structure or an electrode on the way back, with the wires that are drawn to it. */
export interface ReturnPlace {
  readonly part: PartView | null;
  readonly wires: readonly WireView[];
  /** What else lands there. */
  readonly says: string;
}

/** Modules. */
const ROW = 2;
const BAR_AT = 17;

/** What belongs to the way back and is drawn nowhere else. */
export function findReturns(system: System, graph: Graph): ReturnPlace[] {
  const drawn = new Set(graph.vertices.map(({ part }) => part.id));
  for (const wire of graph.wires) if (wire.live) for (const id of [...wire.inline, ...wire.draws]) drawn.add(id);
  const ids = new Set(system.parts.map(({ id }) => id));
  const landing = new Map<string, string[]>();
  for (const circuit of system.circuits) {
    const touched = new Set(
      circuit.conductors
        .filter(({ role }) => role === "return")
        .flatMap(({ from, to }) => [partOf(from, ids), partOf(to, ids)]),
    );
    for (const part of touched) {
      if (part === null || part === circuit.from.part || part === circuit.to.part) continue;
      landing.set(part, [...(landing.get(part) ?? []), cleanText(circuit.id)]);
    }
  }
  const inPE = system.circuits.flatMap(({ conductors }) =>
    conductors
      .filter(({ role }) => role === "protective")
      .flatMap(({ from, to }) => [partOf(from, ids), partOf(to, ids)]),
  );
  const places: ReturnPlace[] = [];
  const told = new Set<string>();
  for (const part of graph.parts.values()) {
    if (drawn.has(part.id)) continue;
    const wires = graph.returns.filter(
      (w) => !told.has(w.id) && (w.to.part === part.id || (w.from.part === part.id && drawn.has(w.to.part))),
    );
    const back = landing.get(part.id) ?? [];
    if (wires.length === 0 && back.length === 0 && !inPE.includes(part.id)) continue;
    for (const { id } of wires) told.add(id);
    const says =
      back.length === 0 ? "" : back.length > 3 ? `returns of ${back.length} circuits` : `returns of ${back.join(", ")}`;
    places.push({ part, wires, says });
  }
  const rest = graph.returns.filter(({ id }) => !told.has(id));
  return rest.length === 0 ? places : [...places, { part: null, wires: rest, says: "" }];
}

const heightOf = ({ wires }: ReturnPlace): number => Math.max(3, wires.length * ROW + 1);

/** Where the places of a way back stand: beside the last block, or side by side under it; modules. */
export interface ReturnsAt {
  readonly top: number;
  readonly lefts: readonly number[];
  readonly width: number;
}

/** Places in lines of as many as stand side by side. */
const lines = (places: readonly ReturnPlace[], each: number): ReturnPlace[][] =>
  places.flatMap((_, i) => (i % each === 0 ? [places.slice(i, i + each)] : []));

export const returnsHeight = (places: readonly ReturnPlace[], { lefts }: ReturnsAt): number =>
  lines(places, lefts.length).reduce((sum, line) => sum + Math.max(...line.map(heightOf)), 0);

/** Draws the way back: bars, structure and electrodes with the wires that are theirs alone. */
export function drawReturns(page: Page, places: readonly ReturnPlace[], at: ReturnsAt): void {
  let { top } = at;
  for (const line of lines(places, at.lefts.length)) {
    line.forEach((place, i) => {
      drawPlace(page, place, at.lefts[i] ?? 0, at.width, top);
    });
    top += Math.max(...line.map(heightOf));
  }
}

function drawPlace(
  { hand, x, y }: Page,
  { part, wires, says }: ReturnPlace,
  left: number,
  width: number,
  top: number,
): void {
  const { sketch } = hand;
  const bar = x(left + BAR_AT);
  const right = x(left + width);
  const rows = Math.max(2, wires.length);
  const isBar = part !== null && (part.is === "bar" || part.is === "panel") && !part.structure;
  wires.forEach((wire, i) => {
    const row = y(top + ROW * i + 1);
    const goesAway = part !== null && wire.from.part === part.id;
    // The terminal is told whole, whatever becomes of the name.
    const name = (end: WireView["from"], sign: string, room: number): string => {
      const terminal = sign === "" ? (end.port === "" ? "" : ` ${cleanText(end.port)}`) : ` ${sign}`;
      const left = room - textWidth(terminal, BODY, "semibold");
      return left < 3
        ? fitText(`${cleanText(end.part)}${terminal}`, BODY, "semibold", room)
        : `${fitText(cleanText(end.part), BODY, "semibold", left)}${terminal}`;
    };
    const near = goesAway ? name(wire.to, wire.toSign, 9) : name(wire.from, wire.fromSign, 9);
    const label = textLine([{ text: near, bold: true }], [x(left + 1), row + BODY / 2]);
    putText(sketch, null, label, "caption", [wire.about]);
    const start: Point = [x(left + 5), row];
    const end: Point = [isBar ? bar - BAR.width / 2 : bar, row];
    putWire(sketch, wire.about, wire.says, [start, end]);
    captionOver(sketch, [wire], [end[0] - 0.8, row], end[0] - start[0] - 1, true);
    put(
      sketch,
      "mark",
      null,
      "",
      [{ is: "ellipse", centre: start, radii: [0.5, 0.5], stroke: { ink: "ink", width: 0.25 }, fill: "paper" }],
      null,
      [wire.about],
    );
    if (part === null) putText(sketch, null, textLine([{ text: name(wire.to, wire.toSign, right - bar - 2), bold: true }], [bar + 1.2, row + BODY / 2])); // prettier-ignore
    const note = noteWidth(sketch, [wire.about]);
    if (note > 0 && part === null) putNote(sketch, [wire.about], [right - note, row]);
  });
  if (part === null) return;
  const middle = y(top + 1) + (rows - 1) * ROW * M * 0.5 * (wires.length > 1 ? 1 : 0);
  let text = bar + 2;
  if (isBar) {
    const box = [[bar - BAR.width / 2, y(top)], [bar + BAR.width / 2, y(top + ROW * Math.max(1, wires.length))]] as const; // prettier-ignore
    put(sketch, "bar", part.about, part.says, [{ is: "rectangle", from: box[0], to: box[1], fill: "ink" }], box);
  } else {
    const art = placeArt(part.symbol, hand.variant, "line", [bar, middle], "left", [6, 4.4]);
    put(sketch, "symbol", part.about, part.says, art.shapes, art.box);
    if (wires.length > 1) putWire(sketch, null, "", [[bar, y(top + 1)], [bar, y(top + ROW * (wires.length - 1) + 1)]], wires.map(({ about }) => about)); // prettier-ignore
    text = art.box[1][0] + 1.4;
  }
  const abouts = [part.about, ...wires.map(({ about }) => about)];
  const note = noteWidth(sketch, abouts);
  const words = [
    ...nameWords(part, right - text - note - 14),
    { text: part.values[0] === undefined ? "" : ` ${fitFigure([part.values[0]], BODY, "regular", 12)}`, faint: true },
  ];
  putText(sketch, part.about, textLine(words, [text, y(top + 1) + BODY / 2]));
  if (note > 0) putNote(sketch, abouts, [text + wordsWidth(words) + 1, y(top + 1)]);
  putText(
    sketch,
    part.about,
    textLine([{ text: fitText(says, BODY, "regular", right - text), faint: true }], [text, y(top + 1) + BODY / 2 + 3]),
  );
}
