import type { Box } from "../shape-box.ts";
import { shapeBox } from "../shape-box.ts";
import type { Field, Item, ItemRole, Point, Shape, Stroke, TextShape } from "../scene.ts";
import { textWidth } from "../text-width.ts";
import { byGravity, gravityOf, type DrawnFinding, type Gravity } from "./drawn-finding.ts";
import { drawMark, MARK_MM } from "../sheet/draw-mark.ts";

/** Heights of capitals on a one-line, mm. */
export const BODY = 1.8;

export const WIRE: Stroke = { ink: "ink", width: 0.35 };
export const BAR: Stroke = { ink: "ink", width: 1.2 };
export const ALTERNATING_BAR: Stroke = { ink: "frame", width: 1.2 };
export const BOUNDARY: Stroke = { ink: "frame", width: 0.18, dash: [3, 0.8, 0.5, 0.8] };

/** A place where a wire from elsewhere may land. */
export interface Landing {
  /** On the grid. */
  readonly at: Point;
  /** Where the thing itself begins; the last piece of the wire leads there. */
  readonly on: Point;
  /** The way out of the thing. */
  readonly out: Point;
  /** Whether a dot marks the joint. */
  readonly dot: boolean;
}

/** A note to what is drawn: findings about one place. */
export interface PlacedNote {
  readonly number: number;
  readonly gravity: Gravity;
  readonly at: Point | null;
  readonly findings: readonly DrawnFinding[];
  /** Key paths of what it is about, each with its gravest finding. */
  readonly abouts: readonly { readonly about: string; readonly gravity: Gravity }[];
}

/** A straight piece of wire. */
export type Piece = readonly [from: Point, to: Point];

/** An item while it is drawn. */
export interface Drawn extends Item {
  /**
   * Key paths of what it belongs to, where it is no picture of a thing itself: the circuit of a device, the circuits whose currents come
   * together in a stretch of wire.
   */
  readonly of?: readonly string[];
}

/** What is being drawn on one sheet, and what stands in the way of more. */
export interface Sketch {
  readonly items: Drawn[];
  /** On the page that a plan is worked on: marks have no numbers, each figure is a text of its own. */
  readonly onBench: boolean;
  /** Wires pass here under a symbol. */
  readonly gaps: { readonly of: readonly string[]; readonly points: readonly Point[] }[];
  /** What no wire may pass, with its halo. */
  readonly solids: Box[];
  readonly pieces: Piece[];
  readonly landings: Map<string, Landing[]>;
  readonly notes: PlacedNote[];
  readonly findings: ReadonlyMap<string, readonly DrawnFinding[]>;
  /** Key paths whose findings have their number. */
  readonly told: Set<string>;
  readonly counter: { next: number };
  readonly shown: Set<string>;
  readonly pictured: Set<string>;
}

/** A sketch with nothing on it. */
export const emptySketch = ({ findings, onBench }: Pick<Sketch, "findings" | "onBench">): Sketch => ({
  items: [],
  onBench,
  gaps: [],
  solids: [],
  pieces: [],
  landings: new Map(),
  notes: [],
  findings,
  told: new Set(),
  counter: { next: 1 },
  shown: new Set(),
  pictured: new Set(),
});

export function addLanding({ landings }: Sketch, key: string, landing: Landing): void {
  const list = landings.get(key);
  if (list === undefined) landings.set(key, [landing]);
  else list.push(landing);
}

const HALO = 0.5;

/** What hangs below the line of a text, and stands above its capitals, as a share of their height. */
const DESCENT = 0.3;
const ASCENT = 0.1;

/** The ink of a text: its capitals, what rises above them, and what hangs below the line. */
export function textInk(shape: TextShape): Box {
  const [[x1, y1], [x2, y2]] = shapeBox(shape);
  return [
    [x1, y1 - ASCENT * shape.capMm],
    [x2, y2 + DESCENT * shape.capMm],
  ];
}

const grown = ([[x1, y1], [x2, y2]]: Box, by: number): Box => [
  [x1 - by, y1 - by],
  [x2 + by, y2 + by],
];

/** Adds an item and keeps what it takes up. */
export function put(
  sketch: Sketch,
  role: ItemRole,
  about: string | null,
  name: string,
  shapes: readonly Shape[],
  solid: Box | null = null,
  of: readonly string[] = [],
): void {
  if (shapes.length === 0) return;
  // A thing has one picture; where it is drawn on, the second is only its continuation.
  const isThing = role === "symbol" || role === "bar";
  const again = isThing && about !== null && sketch.pictured.has(about);
  const belongs = about === null || again ? [...(about === null ? [] : [about]), ...of] : of;
  const item: Drawn = { role, about: again ? null : about, name: again ? "" : name, shapes };
  sketch.items.push(belongs.length === 0 ? item : { ...item, of: belongs });
  if (about !== null) sketch.shown.add(about);
  if (isThing && about !== null) sketch.pictured.add(about);
  if (solid !== null) sketch.solids.push(grown(solid, HALO));
}

/** A wire along some points; each piece lies across or down. */
export function putWire(
  sketch: Sketch,
  about: string | null,
  name: string,
  points: readonly Point[],
  of: readonly string[] = [],
): void {
  for (const [i, to] of points.entries()) {
    const from = points[i - 1];
    if (from !== undefined) sketch.pieces.push([from, to]);
  }
  put(sketch, "wire", about, name, [{ is: "polyline", points, stroke: WIRE }], null, of);
}

export function putDot(sketch: Sketch, [x, y]: Point, of: readonly string[] = []): void {
  put(sketch, "mark", null, "", [{ is: "ellipse", centre: [x, y], radii: [0.625, 0.625], fill: "ink" }], null, of);
}

/** A run of one text in one weight. */
export interface Words {
  readonly text: string;
  readonly bold?: boolean;
  readonly faint?: boolean;
  readonly field?: Field;
}

const weightOf = ({ bold }: Words): TextShape["weight"] => (bold === true ? "semibold" : "regular");

/** Two figures on one line: on the bench each can be taken for itself. */
export const figuresOf = ({ onBench }: Sketch, ...words: readonly Words[]): Words[] =>
  onBench ? [...words] : [{ ...words[0], text: words.map(({ text }) => text).join("") }];

/** Width of some words on one line, mm. */
export const wordsWidth = (words: readonly Words[], capMm = BODY): number =>
  words.reduce((sum, w) => sum + textWidth(w.text, capMm, weightOf(w)), 0);

/** Words on one line; the anchor is that of the whole. */
export function textLine(
  words: readonly Words[],
  at: Point,
  anchor: TextShape["anchor"] = "start",
  capMm = BODY,
): TextShape[] {
  const width = wordsWidth(words, capMm);
  let x = at[0] - (anchor === "start" ? 0 : anchor === "end" ? width : width / 2);
  return words.map((w) => {
    const shape: TextShape = {
      is: "text",
      at: [x, at[1]],
      text: w.text,
      capMm,
      weight: weightOf(w),
      anchor: "start",
      ink: w.faint === true ? "ink2" : "ink",
      ...(w.field === undefined ? {} : { field: w.field }),
    };
    x += textWidth(w.text, capMm, weightOf(w));
    return shape;
  });
}

/** A caption of some lines, and what it takes up. */
export function putText(
  sketch: Sketch,
  about: string | null,
  shapes: readonly TextShape[],
  role: ItemRole = "caption",
  of: readonly string[] = [],
): void {
  const seen = shapes.filter(({ text }) => text !== "");
  if (seen.length === 0) return;
  put(sketch, role, about, "", seen, null, of);
  for (const shape of seen) sketch.solids.push(grown(textInk(shape), HALO));
}

/** Width that a numbered mark takes, mm; 0: nothing is to be told of these. */
export function noteWidth(sketch: Sketch, abouts: readonly string[]): number {
  if (findingsOf(sketch, abouts).length === 0) return 0;
  if (sketch.onBench) return MARK_MM + 0.7;
  return MARK_MM + 0.6 + textWidth(String(sketch.counter.next), BODY, "semibold") + 0.7;
}

const findingsOf = (sketch: Sketch, abouts: readonly string[]): DrawnFinding[] =>
  abouts.filter((about) => !sketch.told.has(about)).flatMap((about) => sketch.findings.get(about) ?? []);

/**
 * Sets the number of a note beside what it is about, its mark to the left of it.
 *
 * @param at left end, on the middle of the text's height
 */
export function putNote(sketch: Sketch, abouts: readonly string[], [x, y]: Point): void {
  const findings = findingsOf(sketch, abouts);
  const each = abouts
    .filter((about) => !sketch.told.has(about))
    .flatMap((about) => {
      const gravities = (sketch.findings.get(about) ?? []).map(gravityOf).filter((g) => g !== null);
      const gravest = gravities.sort(byGravity)[0];
      return gravest === undefined ? [] : [{ about, gravity: gravest }];
    })
    .sort((a, b) => byGravity(a.gravity, b.gravity));
  for (const about of abouts) sketch.told.add(about);
  const gravest = each[0]?.gravity;
  if (gravest === undefined) return;
  const number = sketch.counter.next++;
  const centre: Point = [x + MARK_MM / 2, y];
  const mark = drawMark(gravest, centre);
  const half = MARK_MM / 2;
  const text = sketch.onBench
    ? []
    : textLine([{ text: String(number), bold: true }], [x + MARK_MM + 0.6, y + BODY / 2]);
  const titles = findings.map(({ title }) => title).join("; ");
  const about = (sketch.onBench ? each[0]?.about : abouts[0]) ?? null;
  put(sketch, "mark", about, sketch.onBench ? titles : `note ${number}: ${titles}`, mark, [
    [x, y - half],
    [x + MARK_MM, y + half],
  ]);
  putText(sketch, null, text, "mark");
  sketch.notes.push({ number, gravity: gravest, at: centre, findings, abouts: each });
}
