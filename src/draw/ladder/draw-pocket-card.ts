import type { Item, Scene, Shape } from "../scene.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { textItem, words } from "../sheet/text-block.ts";
import { pocketCautions, pocketTraps } from "./chart-words.ts";
import { colourKeyHeight, drawColourKey, type ColourKeyLook } from "./colour-key.ts";
import { EVERYTHING } from "./draw-size-ladder.ts";
import { systemsOf, usualMark } from "./draw-wall-chart.ts";
import { ladderColumns } from "./ladder-columns.ts";
import { ladderItems, type LadderMark } from "./ladder-items.ts";
import { sizeFacts, type ChartUnits, type SizeFacts } from "./size-facts.ts";
import { dotOf, drawSizeTable, sizeTableHeight, type SizeTableLook } from "./size-table.ts";
import { writeBlocks } from "./write-blocks.ts";

/** A card for a pocket, upright: the size of a postcard, or of an American index card. */
export type CardPaper = "A6" | "Index";

/** mm. */
export const cardPapers: Readonly<Record<CardPaper, { readonly width: number; readonly height: number }>> = {
  A6: { width: 105, height: 148 },
  Index: { width: 101.6, height: 152.4 },
};

export interface PocketCardOptions {
  /** A6 where left out, an index card with American units. */
  readonly paper?: CardPaper;
  /** Which system and units stand first; metric where left out. */
  readonly units?: ChartUnits;
  /** The size that the ladder shows as an example; else 2.5 mm² or 12 AWG. */
  readonly mark?: LadderMark;
}

const EDGE = 5;
/** Of the front; the back is written as large as there is room for. */
const CAP = 1.6;
const BACK_CAPS = [1.7, 1.65, 1.6, 1.55, 1.5] as const;
const THIN = { ink: "ink", width: 0.25 } as const;

/**
 * Draws the pocket card: the size ladder on one side, on the other the figures of every size on sale, the thin ones as thick as they are, and the
 * costliest traps.
 *
 * @returns two scenes, front and back, of the same size
 */
export function drawPocketCard(options: PocketCardOptions = {}): readonly [front: Scene, back: Scene] {
  const { units = "metric" } = options;
  const { paper = units === "metric" ? "A6" : "Index", mark = usualMark(units) } = options;
  const { width, height } = cardPapers[paper];
  const of = { width, height };
  return [
    {
      ...of,
      title: "Wire sizes, pocket card, front",
      says: "Wire sizes of six systems by area; same height, same copper; a substitute may only stand higher.",
      items: front(width, height, units, mark),
    },
    {
      ...of,
      title: "Wire sizes, pocket card, back",
      says: "Diameter and resistance of every size on sale, what stands in for it, and what is mistaken most.",
      items: largestBack(width, height, units),
    },
  ];
}

function front(width: number, height: number, units: ChartUnits, mark: LadderMark): Item[] {
  const [left, right] = [EDGE, width - EDGE];
  const bottom = height - EDGE;
  const head: Shape[] = [
    words("Wire sizes", [left, EDGE + 3], { capMm: 3, weight: "semibold" }),
    words("Same height, same copper. A substitute may only stand higher.", [left, EDGE + 6.2], { capMm: CAP, ink: "ink2" }), // prettier-ignore
  ];
  const region = { left, top: EDGE + 9, width: right - left, height: bottom - 7 - EDGE - 9 };
  const columns = ladderColumns(systemsOf(units));
  return [
    textItem(head, "Wire sizes"),
    ...ladderItems(region, { columns, range: EVERYTHING, mark, neededMm2: null, capMm: 1.75, areas: true }),
    bar(left, bottom),
  ];
}

/** The bar that tells whether the card is as large as it should be. */
const bar = (x: number, y: number): Item => ({
  role: "sheet",
  about: null,
  name: "check bar of 50 mm",
  shapes: [
    { is: "polyline", points: [[x, y - 1.6], [x, y], [x + 50, y], [x + 50, y - 1.6]], stroke: THIN }, // prettier-ignore
    words("this bar is 50 mm: print at 100 %", [x + 51.5, y], { capMm: CAP, ink: "ink2" }),
  ],
});

function largestBack(width: number, height: number, units: ChartUnits): readonly Item[] {
  const ways = BACK_CAPS.map((capMm) => back(width, height, units, capMm));
  return (ways.find(({ fits }) => fits) ?? ways.at(-1))?.items ?? [];
}

interface Back {
  readonly items: readonly Item[];
  readonly fits: boolean;
}

function back(width: number, height: number, units: ChartUnits, capMm: number): Back {
  const [left, right] = [EDGE, width - EDGE];
  const gap = 5;
  const half = (right - left - gap) / 2;
  const items: Item[] = [];
  const sides = units === "metric" ? (["mm²", "AWG"] as const) : (["AWG", "mm²"] as const);
  let y = EDGE;
  const tables = sides.map((side) => ({ facts: sizeFacts(side), look: { side, units, capMm, dots: false, pitch: 1.72 * capMm } satisfies SizeTableLook })); // prettier-ignore
  tables.forEach(({ facts, look }, i) => {
    items.push(...drawSizeTable({ left: left + i * (half + gap), top: y, width: half, height: 0 }, facts, look));
  });
  y += Math.max(...tables.map(({ facts, look }) => sizeTableHeight(facts, look))) + 1;
  for (const { facts, look } of tables) {
    const strip = dotStrip(facts, look.side, [left, right], y, capMm);
    items.push(strip.item);
    y += strip.height;
  }
  const key: ColourKeyLook = { capMm, columns: 8, names: false };
  items.push(...drawColourKey({ left, top: y, width: right - left }, key));
  y += colourKeyHeight(key) + 1.6;
  const written = writeBlocks([pocketTraps(units)], { left, top: y, width: right - left }, capMm);
  items.push(...written.items);
  const shapes: Shape[] = wrapText(pocketCautions, capMm, "regular", right - left).map((line, i, lines) =>
    words(line, [left, height - EDGE - (lines.length - 1 - i) * 1.55 * capMm], { capMm, ink: "ink2" }),
  );
  items.push(textItem(shapes, pocketCautions));
  const foot = height - EDGE - (shapes.length - 1) * 1.55 * capMm - capMm;
  return { items, fits: written.bottom + 0.8 * capMm <= foot };
}

/** The thin sizes as thick as they are, in a row; as many as there is room for. */
function dotStrip(
  facts: readonly SizeFacts[],
  side: string,
  [left, right]: readonly [number, number],
  top: number,
  capMm: number,
): { readonly item: Item; readonly height: number } {
  const white = 2.6;
  const head = 9;
  const shown: SizeFacts[] = [];
  let used = head;
  for (const each of facts) {
    const width = Math.max(each.strandedMm, 2.4) + white;
    if (used + width > right - left) break;
    used += width;
    shown.push(each);
  }
  const spread = (right - left - used) / Math.max(1, shown.length - 1);
  const tallest = Math.max(0, ...shown.map(({ strandedMm }) => strandedMm));
  const middle = top + tallest / 2;
  const shapes: Shape[] = [
    words(side, [left, middle], { capMm, weight: "semibold" }),
    words("1 : 1", [left, middle + 1.6 * capMm], { capMm, ink: "ink2" }),
  ];
  let x = left + head;
  for (const each of shown) {
    const width = Math.max(each.strandedMm, 2.4) + white;
    shapes.push(...dotOf(each, x + width / 2, middle));
    shapes.push(words(each.name, [x + width / 2, top + tallest + 1.7 * capMm], { capMm, weight: "semibold", anchor: "middle" })); // prettier-ignore
    x += width + spread;
  }
  const name = `true size: ${shown.map((each) => `${each.name} ${side}, Ø ${each.strandedMm.toFixed(1)} mm`).join("; ")}`;
  return { item: { role: "table", about: null, name, shapes }, height: tallest + 3 * capMm };
}
