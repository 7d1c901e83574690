import type { LadderSystem } from "../../wire/convert/index.ts";
import type { Item, Scene, Shape } from "../scene.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { drawCheckBar, textItem, words, type Region } from "../sheet/text-block.ts";
import { aughts, cautions, counting, facts, sources, traps } from "./chart-words.ts";
import { colourKeyHeight, drawColourKey, type ColourKeyLook } from "./colour-key.ts";
import { EVERYTHING } from "./draw-size-ladder.ts";
import { ladderColumns } from "./ladder-columns.ts";
import { ladderItems, type LadderMark } from "./ladder-items.ts";
import { sizeFacts, type ChartUnits } from "./size-facts.ts";
import { drawSizeTable, fillingPitch, type SizeTableLook } from "./size-table.ts";
import { writeBlocks } from "./write-blocks.ts";

/** A sheet for the wall, lying. */
export type ChartPaper = "A3" | "Tabloid";

/** mm. */
export const chartPapers: Readonly<Record<ChartPaper, { readonly width: number; readonly height: number }>> = {
  A3: { width: 420, height: 297 },
  Tabloid: { width: 431.8, height: 279.4 },
};

export interface WallChartOptions {
  /** A3 where left out, Tabloid with American units. */
  readonly paper?: ChartPaper;
  /** Which system and units stand first; metric where left out. */
  readonly units?: ChartUnits;
  /** The size that the ladder shows as an example; else 2.5 mm² or 12 AWG. */
  readonly mark?: LadderMark;
}

/** From the edge of the paper to the frame, and on to what is in it. */
const [EDGE, PAD] = [8, 5];
const [CAP, SMALL] = [2.2, 1.8];
/** Heights of the head and the foot, mm. */
const [HEAD, FOOT] = [15, 12.5];
const COLOURS: ColourKeyLook = { capMm: 1.9, columns: 4, names: true };
/** Height of the key of colours with its heading and the white above it, mm. */
const KEY = 9 + colourKeyHeight(COLOURS);
/** Widths: the ladder, the tables, the words; what is left goes between them. */
const [LADDER, METRIC, AMERICAN, WORDS] = [118, 82, 90, 90];

/** The systems of a chart, that of its reader first. */
export const systemsOf = (units: ChartUnits): readonly LadderSystem[] =>
  units === "metric"
    ? ["mm²", "AWG", "SAE", "vehicle diameter", "JIS", "SWG"]
    : ["AWG", "mm²", "SAE", "vehicle diameter", "JIS", "SWG"];

/** An example that is often met. */
export const usualMark = (units: ChartUnits): LadderMark => {
  const [system, name] = units === "metric" ? (["mm²", "2.5"] as const) : (["AWG", "12"] as const);
  const size = ladderColumns([system])[0]?.rungs.find((rung) => rung.name === name);
  if (size === undefined) throw new Error(`the ladder has no ${name} ${system}`);
  return { system, name, areaMm2: size.areaMm2 };
};

/**
 * Draws the wall chart: the size ladder, every size on sale as thick as it is with its figures, and how sizes are named and mistaken.
 *
 * A teaching sheet: it tells what a size is, never what it may carry. All its figures are computed from the tables when it is drawn.
 *
 * @accuracy dots are as thick as `conductorDiameter` has them, when the sheet is printed at 100 %; the bar tells whether it is
 */
export function drawWallChart(options: WallChartOptions = {}): Scene {
  const { units = "metric" } = options;
  const { paper = units === "metric" ? "A3" : "Tabloid", mark = usualMark(units) } = options;
  const { width, height } = chartPapers[paper];
  const [left, right] = [EDGE + PAD, width - EDGE - PAD];
  const [top, bottom] = [EDGE + PAD + HEAD, height - EDGE - PAD - FOOT];
  const gap = (right - left - LADDER - METRIC - AMERICAN - WORDS) / 3;
  const widthOf = { "mm²": METRIC, AWG: AMERICAN } as const;

  const sides = units === "metric" ? (["mm²", "AWG"] as const) : (["AWG", "mm²"] as const);
  const firstTable = left + LADDER + gap;
  const secondTable = firstTable + widthOf[sides[0]] + gap;
  const tables = sides.flatMap((side, i) => {
    const of = sizeFacts(side);
    const least: SizeTableLook = { side, units, capMm: 2.1, dots: true, pitch: 4.5 };
    const hasKey = side === "mm²";
    const room = bottom - top - (hasKey ? KEY : 0);
    const look = { ...least, pitch: fillingPitch(of, least, room) };
    const region = { left: i === 0 ? firstTable : secondTable, top, width: widthOf[side], height: room };
    const items = drawSizeTable(region, of, look);
    return hasKey ? [...items, ...colours({ ...region, top: bottom - KEY + 3 })] : items;
  });
  const columns = ladderColumns(systemsOf(units));
  const blocks = [aughts(), counting(), traps(units), facts()];
  const at = { left: right - WORDS, top, width: WORDS };
  // As large as there is room for.
  const caps = [2.6, 2.5, 2.4, 2.3, 2.2, 2.1, 2];
  const cap = caps.find((each) => writeBlocks(blocks, at, each).bottom <= bottom) ?? 1.9;
  const written = writeBlocks(blocks, at, cap);
  return {
    width,
    height,
    title: "Wire sizes side by side",
    says: "Wire sizes of six systems by area, every size on sale as thick as it is with its resistance, and how sizes are named and mistaken.",
    items: [
      frame(width, height),
      ...head(left, right),
      ...ladderItems({ left, top, width: LADDER, height: bottom - top }, { columns, range: EVERYTHING, mark, neededMm2: null, capMm: 2.1, areas: true }), // prettier-ignore
      ...tables,
      ...written.items,
      foot(left, right, bottom),
    ],
  };
}

const frame = (width: number, height: number): Item => ({
  role: "sheet",
  about: null,
  name: "",
  shapes: [
    { is: "rectangle", from: [EDGE, EDGE], to: [width - EDGE, height - EDGE], stroke: { ink: "ink", width: 0.5 } },
  ],
});

function head(left: number, right: number): Item[] {
  const y = EDGE + PAD;
  const shapes: Shape[] = [
    words("Wire sizes side by side", [left, y + 5], { capMm: 5, weight: "semibold" }),
    words("Same height, same copper. A substitute may only stand higher. In colour, for example: what may stand in place of one size.", [left, y + 9.6], { capMm: CAP, ink: "ink2" }), // prettier-ignore
  ];
  return [
    textItem(shapes, "Same height, same copper. A substitute may only stand higher."),
    drawCheckBar([right - 98, y + 4]),
  ];
}

function colours({ left, top, width }: Region): Item[] {
  const shapes: Shape[] = [
    words("Colours: letters and patterns", [left, top + 2.6], { capMm: 1.2 * CAP, weight: "semibold" }),
    { is: "polyline", points: [[left, top + 4.2], [left + width, top + 4.2]], stroke: { ink: "ink", width: 0.25 } }, // prettier-ignore
  ];
  return [textItem(shapes), ...drawColourKey({ left, top: top + 5.4, width }, COLOURS)];
}

function foot(left: number, right: number, top: number): Item {
  const y = top + 4.2;
  const shapes: Shape[] = [{ is: "polyline", points: [[left, y - 1.6], [right, y - 1.6]], stroke: { ink: "ink", width: 0.25 } }]; // prettier-ignore
  const gap = 8;
  const half = (right - left - gap) / 2;
  [`Dots: outer edge, fine strands; dashed, one solid wire of the same area. ${cautions}`, sources].forEach(
    (text, i) => {
      wrapText(text, SMALL, "regular", half).forEach((line, n) => {
        shapes.push(words(line, [left + i * (half + gap), y + SMALL + n * 1.5 * SMALL], { capMm: SMALL, ink: "ink2" }));
      });
    },
  );
  return textItem(shapes, `${cautions} ${sources}`);
}
