import { fromSi, metres, ohms } from "../../quantity/index.ts";
import type { Item, Shape, TextShape } from "../scene.ts";
import { words, type Region } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { areaText } from "./ladder-items.ts";
import type { ChartUnits, SizeFacts } from "./size-facts.ts";

export interface SizeTableLook {
  readonly side: "mm²" | "AWG";
  readonly units: ChartUnits;
  /** Height of capitals, mm. */
  readonly capMm: number;
  /** Whether each size is drawn beside its figures as thick as it is. */
  readonly dots: boolean;
  /** Least distance from line to line, mm. */
  readonly pitch: number;
}

/** White between two dots that stand over each other, mm. */
const GAP = 0.9;
const UNIT = 0.78;

interface Column {
  readonly head: string;
  readonly unit: string;
  readonly cell: (facts: SizeFacts) => string;
  readonly isStrong?: boolean;
}

/** A column with the right edge of its texts, mm. */
type PlacedColumn = Column & { readonly right: number };

const digits = (value: number, figures: number): string => {
  const text = value.toPrecision(figures);
  return text.includes("e") ? String(Number(text)) : text;
};
const milliohms = (resistance: number): string => digits(fromSi(ohms(resistance), "resistance", "mΩ"), 3);
const inInches = (mm: number): number => fromSi(metres(mm / 1000), "length", "in");

function columnsOf({ side, units, dots }: SizeTableLook): readonly Column[] {
  const isMetric = units === "metric";
  const across: Column = {
    head: "Ø",
    unit: isMetric ? "mm" : "in",
    cell: ({ strandedMm }) =>
      isMetric ? strandedMm.toFixed(strandedMm < 10 ? 2 : 1) : inInches(strandedMm).toFixed(3),
  };
  const ten: Column = { head: "10 m", unit: "mΩ", cell: (facts) => milliohms(facts.ohmsPerTenMetres) };
  const hundred: Column = { head: "100 ft", unit: "mΩ", cell: (facts) => milliohms(facts.ohmsPerHundredFeet) };
  const name: Column = {
    head: side,
    unit: side === "AWG" ? "then kcmil" : "label",
    cell: (facts) => facts.name,
    isStrong: true,
  };
  const area: Column = { head: "area", unit: "mm²", cell: ({ areaMm2 }) => areaText(areaMm2) };
  const to = side === "mm²" ? "AWG" : "mm²";
  const other: Column = {
    head: to,
    unit: dots ? "" : "or more",
    cell: (facts) => facts.other?.name ?? "–",
    isStrong: true,
  };
  const gain: Column = {
    head: "",
    unit: "not smaller",
    cell: (facts) => (facts.other === null ? "" : `+${Math.round(100 * facts.other.gain)} %`),
  };
  const resistances = dots ? (isMetric ? [ten, hundred] : [hundred, ten]) : [isMetric ? ten : hundred];
  return [name, ...(side === "AWG" && dots ? [area] : []), across, ...resistances, other, ...(dots ? [gain] : [])];
}

/** Columns as wide as what stands in them, the rest of the width between them. */
function placeColumns(
  columns: readonly Column[],
  facts: readonly SizeFacts[],
  [left, right]: readonly [number, number],
  capMm: number,
): readonly PlacedColumn[] {
  const widths = columns.map(({ head, unit, cell, isStrong = false }) =>
    Math.max(
      textWidth(head, capMm, "semibold"),
      // What stands under two heads may reach across both.
      head === "" ? 0 : textWidth(unit, UNIT * capMm, "regular"),
      ...facts.map((each) => textWidth(cell(each), capMm, isStrong ? "semibold" : "regular")),
    ),
  );
  const gap = (right - left - widths.reduce((sum, width) => sum + width, 0)) / Math.max(1, columns.length - 1);
  let at = left;
  return columns.map((column, i) => {
    at += (widths[i] ?? 0) + (i === 0 ? 0 : gap);
    return { ...column, right: at };
  });
}

/** Height that the table takes, mm. */
export function sizeTableHeight(facts: readonly SizeFacts[], look: SizeTableLook): number {
  return headHeight(look) + facts.reduce((sum, each) => sum + rowHeight(each, look), 0);
}

const headHeight = ({ capMm }: SizeTableLook): number => 4.4 * capMm;
const rowHeight = ({ strandedMm }: SizeFacts, { dots, pitch }: SizeTableLook): number =>
  Math.max(pitch, dots ? strandedMm + GAP : 0);

/** The pitch with which the table fills a height, mm; the least that is given where there is no more room. */
export function fillingPitch(facts: readonly SizeFacts[], look: SizeTableLook, height: number): number {
  let pitch = look.pitch;
  while (sizeTableHeight(facts, { ...look, pitch: pitch + 0.05 }) <= height) pitch += 0.05;
  return pitch;
}

/**
 * A table of sizes, thickest on top as on the ladder, with a dot beside each line that is as thick as the conductor is: fine strands to the outer edge, one
 * solid wire of the same area to the inner one.
 */
export function drawSizeTable({ left, top, width }: Region, facts: readonly SizeFacts[], look: SizeTableLook): Item[] {
  const { capMm, dots, side } = look;
  const dotRoom = dots ? Math.max(...facts.map(({ strandedMm }) => strandedMm)) + 2 : 0;
  const columns = placeColumns(columnsOf(look), facts, [left + dotRoom, left + width], capMm);
  const written = (shapes: readonly TextShape[]): TextShape[] => shapes.filter(({ text }) => text !== "");
  const head: Shape[] = columns.flatMap((column) =>
    written([
      words(column.head, [column.right, top + capMm], { capMm, weight: "semibold", anchor: "end" }),
      words(column.unit, [column.right, top + 2.6 * capMm], { capMm: UNIT * capMm, anchor: "end", ink: "ink2" }),
    ]),
  );
  if (dots) {
    const middle = left + dotRoom / 2 - 1;
    head.push(words("true size", [middle, top + capMm], { capMm, weight: "semibold", anchor: "middle" }));
    head.push(words("1 : 1", [middle, top + 2.6 * capMm], { capMm: UNIT * capMm, anchor: "middle", ink: "ink2" }));
  }
  const lineAt = (y: number, weight: 0.13 | 0.35): Shape => ({
    is: "polyline",
    points: [[left, y], [left + width, y]], // prettier-ignore
    stroke: { ink: weight === 0.35 ? "ink" : "hair", width: weight },
  });
  let y = top + headHeight(look);
  head.push(lineAt(y - 0.9 * capMm, 0.35));
  const items: Item[] = [{ role: "table", about: null, name: `${side}, true size and figures`, shapes: head }];
  [...facts].reverse().forEach((each, i) => {
    const height = rowHeight(each, look);
    const middle = y + height / 2;
    const shapes: Shape[] = [];
    if (i > 0) shapes.push(dots ? { is: "polyline", points: [[left + dotRoom, y], [left + width, y]], stroke: { ink: "hair", width: 0.13 } } : lineAt(y, 0.13)); // prettier-ignore
    if (dots) shapes.push(...dotOf(each, left + dotRoom / 2 - 1, middle));
    for (const column of columns)
      shapes.push(...written([words(column.cell(each), [column.right, middle + capMm / 2], { capMm, anchor: "end", weight: column.isStrong === true ? "semibold" : "regular" })])); // prettier-ignore
    items.push({ role: "table", about: null, name: `${each.label}: ${columns.slice(1).filter((column) => column.cell(each) !== "").map((column) => `${column.head} ${column.cell(each)} ${column.unit}`.trim()).join(", ")}`, shapes }); // prettier-ignore
    y += height;
  });
  return items;
}

/** A conductor cut through as thick as it is: the edge of the fill, which no line makes thicker. */
export function dotOf({ strandedMm, solidMm }: SizeFacts, x: number, y: number): Shape[] {
  const across = (mm: number): readonly [number, number] => [mm / 2, mm / 2];
  return [
    { is: "ellipse", centre: [x, y], radii: across(strandedMm), fill: "copper" },
    { is: "ellipse", centre: [x, y], radii: across(solidMm), stroke: { ink: "BK", width: 0.1, dash: [0.6, 0.5] } },
  ];
}
