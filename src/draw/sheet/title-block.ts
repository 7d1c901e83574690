import type { Item, Point, Shape, Stroke } from "../scene.ts";
import { textWidth } from "../text-width.ts";
import { fitText } from "./fit-text.ts";

/** What stands in the block at the foot of a sheet; an empty field is for a hand to fill. */
export interface TitleFields {
  readonly owner: string;
  readonly documentType: string;
  readonly status: string;
  readonly revision: string;
  readonly title: string;
  readonly identification: string;
  readonly supplement: string;
  readonly scale: string;
  readonly sheet: string;
  readonly language: string;
  readonly date: string;
  readonly creator: string;
  readonly approval: string;
  readonly rules: string;
  /** What has changed, newest last; not more than five. */
  readonly changes: readonly {
    readonly revision: string;
    readonly zone: string;
    readonly what: string;
    readonly date: string;
  }[];
}

export const BLOCK_WIDTH = 180;
const ROW = 9;
export const BLOCK_HEIGHT = 4 * ROW;
/** A row of the list of changes. */
const CHANGE = 6;

const OUTER: Stroke = { ink: "ink", width: 0.7 };
const INNER: Stroke = { ink: "ink", width: 0.35 };
const [CAPTION, VALUE, STRONG, TITLE] = [1.8, 2.5, 3.5, 5];
const PAD = 1.4;

type Field = readonly [caption: string, value: string, width: number, cap?: number];

/** Height of the block with its list of changes, mm. */
export const titleHeight = ({ changes }: TitleFields): number => BLOCK_HEIGHT + CHANGE * (changes.length + 1);

/**
 * Draws the title block and, above it, the list of changes.
 *
 * @param corner its lower right corner, mm
 * @source ISO 7200, fields and their order of weight, read second-hand; `checked by` is never filled in by software
 */
export function drawTitleBlock(fields: TitleFields, [right, bottom]: Point): Item[] {
  const left = right - BLOCK_WIDTH;
  const top = bottom - BLOCK_HEIGHT;
  const shapes: Shape[] = [];
  const rows: readonly (readonly Field[])[] = [
    [
      ["owner", fields.owner, 60],
      ["document", fields.documentType, 70],
      ["status", fields.status, 25],
      ["rev", fields.revision, 25, VALUE],
    ],
    [
      ["title", fields.title, 130, TITLE],
      ["number", fields.identification, 50, STRONG],
    ],
    [
      ["systems", fields.supplement, 100],
      ["scale", fields.scale, 20],
      ["sheet", fields.sheet, 20],
      ["language", fields.language, 15],
      ["issued", fields.date, 25],
    ],
    [
      ["drawn by", fields.creator, 45],
      ["checked by, in ink", "", 45],
      ["approved", fields.approval, 45],
      ["rules", fields.rules, 45],
    ],
  ];
  rows.forEach((row, i) => {
    const y = top + ROW * i;
    if (i > 0) shapes.push({ is: "polyline", points: [[left, y], [right, y]], stroke: INNER }); // prettier-ignore
    let x = left;
    for (const [caption, value, width, usual = VALUE] of row) {
      if (x > left) shapes.push({ is: "polyline", points: [[x, y], [x, y + ROW]], stroke: INNER }); // prettier-ignore
      const beside = usual > VALUE;
      shapes.push({ is: "text", at: [x + PAD, y + 0.9 + CAPTION], text: caption, capMm: CAPTION, weight: "regular", anchor: "start", ink: "ink2" }); // prettier-ignore
      const indent = usual === TITLE ? 9 : PAD;
      const weight = usual > VALUE || caption === "rev" ? "semibold" : "regular";
      const room = width - indent - PAD;
      // What is too long for its field is written smaller before it is cut.
      const cap =
        textWidth(value, usual, weight) <= room
          ? usual
          : usual > VALUE && textWidth(value, VALUE, weight) <= room
            ? VALUE
            : usual > STRONG
              ? STRONG
              : CAPTION;
      const text = fitText(value, cap, weight, room);
      shapes.push({ is: "text", at: [x + indent, y + ROW - (beside ? 1.6 : 1.5)], text, capMm: cap, weight, anchor: "start", ink: "ink" }); // prettier-ignore
      x += width;
    }
  });
  shapes.push({ is: "rectangle", from: [left, top], to: [right, bottom], stroke: OUTER });
  const spoken = `${fields.title}, ${fields.documentType}, sheet ${fields.sheet}, revision ${fields.revision}, ${fields.status}`;
  return [{ role: "table", about: null, name: spoken, shapes }, drawChanges(fields, left, top)];
}

function drawChanges({ changes }: TitleFields, left: number, bottom: number): Item {
  const shapes: Shape[] = [];
  const widths = [12, 18, 90, 30, 30];
  const lines = [
    ["rev", "zone", "what has changed", "date", "by, approved"],
    ...[...changes].reverse().map((c) => [c.revision, c.zone, c.what, c.date, ""]),
  ];
  const top = bottom - CHANGE * lines.length;
  lines.forEach((line, i) => {
    const y = top + CHANGE * i;
    shapes.push({ is: "polyline", points: [[left, y], [left + BLOCK_WIDTH, y]], stroke: INNER }); // prettier-ignore
    let x = left;
    line.forEach((text, k) => {
      const width = widths[k] ?? 0;
      const isHead = i === 0;
      if (k > 0) shapes.push({ is: "polyline", points: [[x, y], [x, y + CHANGE]], stroke: INNER }); // prettier-ignore
      const cap = isHead ? CAPTION : VALUE;
      shapes.push({ is: "text", at: [x + PAD, y + CHANGE / 2 + cap / 2], text: fitText(text, cap, "regular", width - 2 * PAD), capMm: cap, weight: "regular", anchor: "start", ink: isHead ? "ink2" : "ink" }); // prettier-ignore
      x += width;
    });
  });
  shapes.push({ is: "polyline", points: [[left, top], [left, bottom]], stroke: INNER }); // prettier-ignore
  return { role: "table", about: null, name: "changes", shapes };
}
