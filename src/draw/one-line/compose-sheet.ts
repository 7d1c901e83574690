import type { Item, Point, Shape } from "../scene.ts";
import { drawFrame } from "../sheet/draw-frame.ts";
import { zoneOf, type Paper } from "../sheet/paper.ts";
import {
  drawCheckBar,
  HEAD_CAP,
  HEAD_PITCH,
  PITCH,
  textItem,
  TEXT_CAP,
  words,
  writeList,
  writeNotes,
  type NoteText,
  type Region,
} from "../sheet/text-block.ts";
import { BLOCK_WIDTH, drawTitleBlock, titleHeight, type TitleFields } from "../sheet/title-block.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { cleanText } from "../clean-text.ts";
import { byGravity, gravityOf, type DrawnFinding, type Gravity } from "./drawn-finding.ts";
import { BOUNDARY, WIRE, ALTERNATING_BAR, type PlacedNote } from "./sketch.ts";

/** What stands beside and below a drawing. */
export interface SheetWords {
  readonly fields: TitleFields;
  readonly notes: readonly NoteText[];
  /** Said under the drawing: what a line stands for. */
  readonly reading: string;
  readonly legend: readonly LegendLine[];
  readonly caution: readonly string[];
  readonly assumed: readonly (readonly [says: string, mark: string])[];
  /** Where the rest of it stands. */
  readonly rest: string;
  readonly left: readonly string[];
  readonly source: string;
}

export interface LegendLine {
  readonly sample: "wire" | "bar" | "ac bar" | "frame" | null;
  readonly code: string;
  readonly says: string;
}

export interface Composed {
  readonly items: readonly Item[];
  /** Notes that are not told, or not whole, by their place among them. */
  readonly untold: readonly number[];
  readonly assumedWritten: number;
}

const PAD = 3;
/** Of the check bar and what stands beside it. */
const STRIP = 8;
const SIDE = 116;
const LEGEND_PITCH = 3.2;
/** Lines of a note where not all fit whole. */
const MOST_LINES = 3;

/**
 * Where a sheet keeps its drawing: mm.
 *
 * @param more lines under it than usual
 */
export function drawingRegion(paper: Paper, fields: TitleFields, more = 0): Region {
  const [[x1, y1], [x2, y2]] = paper.frame;
  const foot = titleHeight(fields) + STRIP;
  if (paper.name === "A3")
    return { left: x1, top: y1, width: x2 - x1 - SIDE - PAD, height: y2 - y1 - foot - 8 - PITCH * more };
  // The least room for words keeps the legend whole.
  return { left: x1, top: y1, width: x2 - x1, height: y2 - y1 - foot - 42 - PITCH * more };
}

/**
 * Puts frame, title block and words about a drawing.
 *
 * @param bottom where the drawing ends, mm
 */
export function composeSheet(paper: Paper, says: SheetWords, bottom: number): Composed {
  const [[x1, y1], [x2, y2]] = paper.frame;
  const items: Item[] = [drawFrame(paper), ...drawTitleBlock(says.fields, [x2, y2])];
  const foot = y2 - titleHeight(says.fields);
  const isWide = paper.name === "A3";
  const rule = (y: number, from = x1, to = x2): void => {
    items.push({ role: "sheet", about: null, name: "", shapes: [{ is: "polyline", points: [[from, y], [to, y]], stroke: { ink: "ink", width: 0.35 } }] }); // prettier-ignore
  };
  if (isWide) {
    const under = linesUnder(says, x2 - x1 - SIDE - 3 * PAD);
    if (bottom > y1) items.push(lineItem(under, [x1 + PAD, foot - 1 - PITCH * under.length], says));
    const side: Region = { left: x2 - SIDE, top: y1, width: SIDE - PAD, height: foot - y1 };
    items.push({ role: "sheet", about: null, name: "", shapes: [{ is: "polyline", points: [[x2 - SIDE - PAD, y1], [x2 - SIDE - PAD, foot]], stroke: { ink: "ink", width: 0.35 } }] }); // prettier-ignore
    const legendHeight = legendSize(says) + 4;
    const noted = notesInto({ ...side, top: y1 + PAD, height: side.height - legendHeight - PAD }, says, bottom > y1);
    rule(foot - legendHeight, x2 - SIDE - PAD, x2);
    const legend = legendInto({ ...side, top: foot - legendHeight + 2, height: legendHeight }, says);
    const low: Region = {
      left: x1 + PAD,
      top: foot + 2,
      width: x2 - x1 - BLOCK_WIDTH - 2 * PAD,
      height: y2 - foot - STRIP - 4,
    };
    rule(foot, x1, x2 - BLOCK_WIDTH);
    const listed = assumedInto(low, says, 2);
    items.push(...noted.items, ...legend, ...listed.items, ...strip(says, x1 + PAD, y2 - 3, x2 - BLOCK_WIDTH - PAD));
    return { items, untold: noted.untold, assumedWritten: listed.written };
  }
  rule(foot);
  const isDrawn = bottom > y1;
  const lines = isDrawn ? linesUnder(says, x2 - x1 - 2 * PAD) : [];
  if (isDrawn) items.push(lineItem(lines, [x1 + PAD, bottom - 1], says));
  const top = isDrawn ? bottom + PITCH * lines.length + 0.8 : y1;
  if (isDrawn) rule(top);
  const legendWidth = 60;
  const legendHeight = isDrawn ? legendSize(says) + 2 : 0;
  const free = foot - STRIP - top;
  const notesWidth = (isDrawn ? x2 - legendWidth - 2 * PAD : x2) - x1 - 2 * PAD;
  const notesNeeded = isDrawn || says.notes.length > 0 ? notesNeed(says, notesWidth) + 5 : 0;
  // Where there is nothing else each may be as long as it is.
  const columns = isDrawn || HEAD_PITCH + 3 + 4.6 * says.assumed.length > free - notesNeeded ? 2 : 1;
  const assumedHeight = Math.min(
    HEAD_PITCH + 3 + 4.6 * Math.ceil(says.assumed.length / columns),
    free - Math.max(legendHeight, notesNeeded),
  );
  const enough = says.assumed.length > 0 && assumedHeight >= HEAD_PITCH + 3 + 4.6;
  const notesHeight = free - (enough ? assumedHeight : 0) - 2 * PAD + 2;
  const middle = isDrawn ? x2 - legendWidth - 2 * PAD : x2;
  const isBlank = !isDrawn && says.notes.length === 0 && says.left.length === 0;
  const noted = isBlank
    ? { items: [], untold: [] }
    : notesInto({ left: x1 + PAD, top: top + PAD, width: notesWidth, height: notesHeight }, says, isDrawn);
  const legend = !isDrawn
    ? []
    : legendInto({ left: middle + PAD, top: top + PAD, width: legendWidth, height: notesHeight }, says);
  if (isDrawn) items.push({ role: "sheet", about: null, name: "", shapes: [{ is: "polyline", points: [[middle, top], [middle, top + notesHeight + PAD]], stroke: { ink: "hair", width: 0.25 } }] }); // prettier-ignore
  items.push(...noted.items, ...legend);
  let assumedWritten = 0;
  if (enough) {
    const at = isBlank ? y1 : foot - STRIP - assumedHeight;
    if (!isBlank) rule(at);
    const listed = assumedInto(
      { left: x1 + PAD, top: at + 2, width: x2 - x1 - 2 * PAD, height: assumedHeight - 2 },
      says,
      columns,
    );
    items.push(...listed.items);
    assumedWritten = listed.written;
  }
  items.push(...strip(says, x1 + PAD, foot - 2.4, x2 - PAD));
  return { items, untold: noted.untold, assumedWritten };
}

const notesNeed = (says: SheetWords, width: number): number =>
  HEAD_PITCH +
  says.notes.reduce(
    (sum, n) =>
      sum +
      PITCH *
        (wrapText(n.title, TEXT_CAP, "semibold", width - 8.5).length +
          wrapText(n.text, TEXT_CAP, "regular", width - 8.5).length) +
      1.4,
    0,
  ) +
  PITCH * says.left.length +
  3;

function strip(says: SheetWords, left: number, base: number, right: number): Item[] {
  return [
    drawCheckBar([left, base]),
    textItem([words(says.source, [right, base], { anchor: "end", ink: "ink2" })], says.source),
  ];
}

interface Line {
  readonly text: string;
  readonly weight: "regular" | "semibold";
  readonly ink: "ink" | "ink2";
}

/** What stands right under a drawing. */
const linesUnder = ({ reading, caution }: SheetWords, width: number): Line[] => [
  ...wrapText(reading, TEXT_CAP, "regular", width).map((text): Line => ({ text, weight: "regular", ink: "ink2" })),
  ...caution
    .flatMap((says) => wrapText(says, TEXT_CAP, "semibold", width))
    .map((text): Line => ({
      text,
      weight: "semibold",
      ink: "ink",
    })),
];

const lineItem = (lines: readonly Line[], [x, y]: Point, { reading, caution }: SheetWords): Item =>
  textItem(
    lines.map(({ text, ...look }, i) => words(text, [x, y + PITCH * (i + 1)], look)),
    `${reading} ${caution.join(" ")}`,
  );

/** @param mayCut whether long notes stand whole elsewhere where there is not room for all */
function notesInto(
  { left, top, width, height }: Region,
  says: SheetWords,
  mayCut: boolean,
): { items: Item[]; untold: readonly number[] } {
  const head = words(
    says.notes.length === 0 ? "No finding of this sheet needs a note" : "Notes to the numbers on the drawing",
    [left, top + HEAD_CAP + 0.5],
    { capMm: HEAD_CAP, weight: "semibold" },
  );
  const lost = says.left.flatMap((line) => wrapText(line, TEXT_CAP, "regular", width));
  const below = lost.length * PITCH + (lost.length > 0 ? 1 : 0);
  const space = (lines: number): Region => ({
    left,
    top: top + HEAD_PITCH,
    width,
    height: height - HEAD_PITCH - below - PITCH * lines,
  });
  let fitted = writeNotes(says.notes, space(0));
  const items: Item[] = [textItem([head])];
  if (fitted.written < says.notes.length && mayCut) {
    fitted = writeNotes(says.notes, space(1), MOST_LINES);
    const rest = says.notes.length - fitted.written;
    const more = `${rest} more ${rest === 1 ? "note" : "notes"}: see the sheet of notes`;
    if (rest > 0) items.push(textItem([words(more, [left, top + height - below - 1], { ink: "ink2" })]));
  }
  lost.forEach((line, i) =>
    items.push(textItem([words(line, [left, top + height - below + PITCH * (i + 1)], { ink: "ink2" })])),
  );
  const untold = says.notes.flatMap((_, i) => (i >= fitted.written || fitted.cut.includes(i) ? [i] : []));
  return { items: [...items, ...fitted.items], untold };
}

function legendSize(says: SheetWords): number {
  return HEAD_PITCH + LEGEND_PITCH * says.legend.length + 3;
}

function legendInto({ left, top }: Region, says: SheetWords): Item[] {
  const shapes: Shape[] = [words("Legend", [left, top + HEAD_CAP + 0.5], { capMm: HEAD_CAP, weight: "semibold" })];
  let y = top + HEAD_PITCH;
  const indent = 13;
  for (const { sample, code, says: text } of says.legend) {
    y += LEGEND_PITCH;
    const middle = y - TEXT_CAP / 2;
    const line = (stroke: typeof WIRE): void => {
      shapes.push({ is: "polyline", points: [[left, middle], [left + 10, middle]], stroke }); // prettier-ignore
    };
    if (sample === "wire") line(WIRE);
    if (sample === "frame") line(BOUNDARY);
    if (sample === "bar" || sample === "ac bar")
      shapes.push({
        is: "rectangle",
        from: [left, middle - 0.6],
        to: [left + 10, middle + 0.6],
        fill: sample === "bar" ? "ink" : ALTERNATING_BAR.ink,
      });
    if (code !== "") shapes.push(words(code, [left, y], { weight: "semibold" }));
    shapes.push(words(text, [left + indent, y], { ink: "ink2" }));
  }
  return [textItem(shapes, "legend")];
}

function assumedInto(
  { left, top, width, height }: Region,
  says: SheetWords,
  columns: number,
): { items: Item[]; written: number } {
  if (says.assumed.length === 0) return { items: [], written: 0 };
  const rowsHigh = height - HEAD_PITCH;
  let list = writeList(says.assumed, { left, top: top + HEAD_PITCH, width, height: rowsHigh }, columns);
  const rest = says.assumed.length - list.written;
  const head = `Assumed or not known, because the plan does not say${rest > 0 ? ` (and ${rest} more: ${says.rest})` : ""}`;
  if (rest > 0)
    list = writeList(
      says.assumed.slice(0, list.written),
      { left, top: top + HEAD_PITCH, width, height: rowsHigh },
      columns,
    );
  return {
    items: [
      textItem(
        [words(head, [left, top + HEAD_CAP + 0.3], { capMm: HEAD_CAP, weight: "semibold" }), ...list.shapes],
        head,
      ),
    ],
    written: list.written,
  };
}

/** So many findings of one place are told in full; of the others only what they are called. */
const TOLD = 3;

const GRAVITY_SAYS: Readonly<Record<Gravity, string>> = {
  fail: "must",
  warn: "should",
  unknown: "cannot be told",
  note: "a note",
};

/** Findings at a place as one numbered note, the gravest first. */
export function noteText({ number, gravity, at, findings }: PlacedNote, paper: Paper): NoteText {
  const zone = at === null ? "" : ` (${zoneOf(paper, at)})`;
  const grave = (f: DrawnFinding): Gravity => gravityOf(f) ?? "note";
  // What the plan leaves open says less of the thing than a fault of it.
  const isOpen = (f: DrawnFinding): number => (f.rule.startsWith("record/") ? 1 : 0);
  // Under the sign of the gravest what is less grave says so itself.
  const apart = (f: DrawnFinding): string => (grave(f) === gravity ? "" : ` (${GRAVITY_SAYS[grave(f)]})`);
  const sorted = [...findings].sort((a, b) => byGravity(grave(a), grave(b)) || isOpen(a) - isOpen(b));
  const [first] = sorted;
  // Much that cannot be told of one thing mostly lacks the same fact.
  const full = sorted.slice(1).filter((f, i) => i < TOLD - 1 && grave(f) !== "unknown");
  const rest = [
    ...new Set(
      sorted
        .slice(1)
        .filter((f) => !full.includes(f))
        .map((f) => `${f.title}${apart(f)}`),
    ),
  ];
  return {
    mark: gravity,
    number: number === 0 ? "–" : String(number),
    title: `${sentence(first?.title ?? "")}${zone}`,
    text: [
      first === undefined ? "" : reason(first),
      ...full.map((f) => `${sentence(f.title)}${apart(f)}: ${reason(f)}`),
      ...(rest.length === 0 ? [] : [`Also: ${stopped(rest.join("; "))}`]),
    ].join(" "),
    about: first?.about ?? null,
  };
}

const reason = ({ because, cure }: DrawnFinding): string =>
  `${stopped(sentence(because))}${cure === undefined ? "" : ` Cure: ${stopped(cure)}`}`;

const sentence = (text: string): string => {
  const clean = cleanText(text);
  return clean.charAt(0).toUpperCase() + clean.slice(1);
};
const stopped = (text: string): string => (/[.!?]$/.test(text) ? text : `${cleanText(text)}.`);
