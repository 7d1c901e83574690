import type { LadderSystem } from "../../wire/convert/index.ts";
import type { Item, Point, Shape, Stroke, TextShape } from "../scene.ts";
import { boxAround, shapeBox, type Box } from "../shape-box.ts";
import { wrapText } from "../sheet/fit-text.ts";
import { words, type Region } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { notSmaller, type LadderColumn, type Rung } from "./ladder-columns.ts";

/** The size that others are compared with. */
export interface LadderMark {
  readonly system: LadderSystem;
  /** As its column names it. */
  readonly name: string;
  readonly areaMm2: number;
}

export interface LadderLook {
  readonly columns: readonly LadderColumn[];
  /** Thinnest and thickest that is shown, mm². */
  readonly range: readonly [least: number, most: number];
  readonly mark: LadderMark | null;
  /** The least area that will do, mm²; null: it is not told. */
  readonly neededMm2: number | null;
  /** Height of capitals of the sizes, mm. */
  readonly capMm: number;
  /** Whether each gauge size tells its area. */
  readonly areas: boolean;
}

const AXIS: Stroke = { ink: "frame", width: 0.25 };
const GUIDE: Stroke = { ink: "hair", width: 0.13 };
const RUNG: Stroke = { ink: "ink", width: 0.35 };
const RARE: Stroke = { ink: "frame", width: 0.18 };
const MARKED: Stroke = { ink: "focus", width: 0.7 };
const FLOOR: Stroke = { ink: "focus", width: 0.5 };
const THREAD: Stroke = { ink: "focus", width: 0.25 };

/** White between two headings, mm: less, and they read as one line. */
const HEAD_GAP = 2;

/** Least distance of two names in a column, in heights of capitals: closer, and they touch in print. */
const PITCH = 1.45;

/** Half a rung, and what stands beside the sizes, in heights of capitals. */
const [TICK, UNDER] = [0.75, 0.8];

/** Same height, same copper: equal steps up are equal factors of area. */
export function heightOf(
  areaMm2: number,
  [least, most]: readonly [number, number],
  [top, bottom]: readonly [number, number],
): number {
  return bottom - ((bottom - top) * Math.log(areaMm2 / least)) / Math.log(most / least);
}

/** An area as a reader wants it: three digits. */
export const areaText = (areaMm2: number): string => `${Number(areaMm2.toPrecision(3))}`;

/** A column on the paper. */
interface Laid {
  readonly column: LadderColumn;
  readonly x: number;
  /** From where to where its heading may reach. */
  readonly head: readonly [left: number, right: number];
  /** The size that is marked, or stands in for it. */
  readonly chosen: Rung | null;
}

interface Hand {
  readonly region: Region;
  readonly look: LadderLook;
  readonly ends: readonly [top: number, bottom: number];
  readonly y: (areaMm2: number) => number;
  readonly isShown: (rung: Rung) => boolean;
  /** Half a rung, mm. */
  readonly tick: number;
  /** Height of capitals of what stands beside the sizes, mm. */
  readonly under: number;
  readonly band: readonly [top: number, bottom: number] | null;
  /** Where the least area that will do stands. */
  readonly floor: number | null;
  /** What later texts may not touch. */
  readonly taken: Box[];
}

/** Draws the sides of the ladder into a space; texts have room of their own there, whatever the range. */
export function ladderItems(region: Region, look: LadderLook): Item[] {
  const { columns, range, mark, neededMm2, capMm } = look;
  const isShown = ({ areaMm2 }: Rung): boolean => areaMm2 >= range[0] * 0.9999 && areaMm2 <= range[1] * 1.0001;
  const laid = layColumns(region, look, isShown);
  const [tick, under] = [TICK * capMm, UNDER * capMm];
  const heads = laid.map(({ column, head: [from, to] }) =>
    wrapText(column.under, under, "regular", to - from - HEAD_GAP),
  );
  const headHeight = 2.2 * capMm + Math.max(...heads.map((lines) => lines.length)) * under * 1.6;
  const ends = [region.top + headHeight + 1.5 * capMm, region.top + region.height - 1.2 * capMm] as const;
  const y = (areaMm2: number): number => heightOf(areaMm2, range, ends);
  // A floor above the marked size, or none, has no band.
  const band =
    mark === null || neededMm2 === null || neededMm2 >= mark.areaMm2
      ? null
      : ([y(mark.areaMm2), y(neededMm2)] as const);
  const isFloorShown = neededMm2 !== null && neededMm2 >= range[0] && neededMm2 <= range[1];
  const floor = isFloorShown ? y(neededMm2) : null;
  const hand: Hand = { region, look, ends, y, isShown, tick, under, band, floor, taken: [] };
  const back: Shape[] = [];
  const [left, right] = [region.left, region.left + region.width];
  if (band !== null) back.push({ is: "rectangle", from: [left, band[0]], to: [right, band[1]], fill: "flow" });
  for (const { areaMm2, isStocked } of ladderGuides(columns)) {
    if (isStocked && areaMm2 >= range[0] && areaMm2 <= range[1])
      back.push({ is: "polyline", points: [[left, y(areaMm2)], [right, y(areaMm2)]], stroke: GUIDE }); // prettier-ignore
  }
  if (floor !== null) back.push({ is: "polyline", points: [[left, floor], [right, floor]], stroke: FLOOR }); // prettier-ignore
  const items: Item[] = [{ role: "frame", about: null, name: "", shapes: back }];
  laid.forEach((place, i) => items.push(drawColumn(place, heads[i] ?? [], hand)));
  items.push(...drawMarkLines(laid, hand), ...drawNotes(laid, hand));
  return items;
}

/** Equal columns, or, with areas beside the names, each as wide as what stands in it with equal white between. */
function layColumns({ left, width }: Region, look: LadderLook, isShown: (rung: Rung) => boolean): readonly Laid[] {
  const { columns, mark, capMm, areas } = look;
  const [tick, under] = [TICK * capMm, UNDER * capMm];
  const widest = (rungs: readonly Rung[]): number =>
    Math.max(0, ...rungs.filter(isShown).map(({ name }) => textWidth(name, capMm, "semibold")));
  const all = widest(columns.flatMap(({ rungs }) => rungs));
  const parts = columns.map((column) => {
    const told = areas && hasArea(column) ? column.rungs.filter(isShown).map((rung) => textWidth(areaBeside(column, rung), under, "regular")) : []; // prettier-ignore
    return {
      before: (areas ? widest(column.rungs) : all) + 0.5 * capMm + tick,
      after: tick + (told.length === 0 ? 0 : 0.4 * capMm + Math.max(...told)),
    };
  });
  const gap = (width - parts.reduce((sum, { before, after }) => sum + before + after, 0)) / columns.length;
  let at = left;
  return columns.map((column, i) => {
    const { before = 0, after = 0 } = parts[i] ?? {};
    const x = at + gap / 2 + before;
    at += gap + before + after;
    return { column, x, head: [x - before - gap / 2, at], chosen: mark === null ? null : chosenIn(column, mark) };
  });
}

/** Metric sizes reach across all columns, so that heights can be compared. */
const ladderGuides = (columns: readonly LadderColumn[]): readonly Rung[] =>
  (columns.find(({ system }) => system === "mm²") ?? columns[0])?.rungs ?? [];

function chosenIn(column: LadderColumn, { system, name, areaMm2 }: LadderMark): Rung | null {
  if (column.system !== system) return notSmaller(column, areaMm2);
  return column.rungs.find((rung) => rung.name === name) ?? { name, areaMm2, isStocked: false, note: "" };
}

function drawColumn({ column, x, head: [from, to], chosen }: Laid, head: readonly string[], hand: Hand): Item {
  const { region, look, ends, y, isShown, tick, under } = hand;
  const { capMm } = look;
  const middle = (from + to) / 2;
  const shapes: Shape[] = [
    words(column.head, [middle, region.top + capMm], {
      capMm,
      weight: "semibold",
      anchor: "middle",
    }),
  ];
  head.forEach((line, i) => {
    const at: Point = [middle, region.top + 2 * capMm + under * (1 + 1.6 * i)];
    shapes.push(words(line, at, { capMm: under, anchor: "middle", ink: "ink2" }));
  });
  shapes.push({ is: "polyline", points: [[x, ends[0] - 0.6 * capMm], [x, ends[1] + 0.6 * capMm]], stroke: AXIS }); // prettier-ignore
  const shown = [...column.rungs.filter(isShown)];
  if (chosen !== null && isShown(chosen) && !shown.includes(chosen)) shown.push(chosen);
  const labelled = withLabel(shown, chosen, (rung) => y(rung.areaMm2), PITCH * capMm);
  for (const rung of shown) {
    const at = y(rung.areaMm2);
    const isChosen = rung === chosen;
    const hasLabel = labelled.has(rung);
    const half = hasLabel ? tick : tick / 2;
    const stroke = isChosen ? MARKED : rung.isStocked ? RUNG : RARE;
    shapes.push({ is: "polyline", points: [[x - half, at], [x + half, at]], stroke }); // prettier-ignore
    hand.taken.push([[x - half, at - 0.4], [x + half, at + 0.4]]); // prettier-ignore
    if (!hasLabel) continue;
    const weight = isChosen || rung.isStocked ? "semibold" : "regular";
    const ink = isChosen ? "focus" : rung.isStocked ? "ink" : "ink2";
    shapes.push(...beside(words(rung.name, [x - tick - 0.5 * capMm, at + capMm / 2], { capMm, weight, anchor: "end", ink }), hand)); // prettier-ignore
    if (look.areas && hasArea(column)) {
      const text = areaBeside(column, rung);
      shapes.push(
        ...beside(words(text, [x + tick + 0.4 * capMm, at + under / 2], { capMm: under, ink: "ink2" }), hand),
      );
    }
  }
  const kept = shown.filter(({ isStocked }) => isStocked).map(({ name }) => name);
  return { role: "table", about: null, name: `${column.head}, ${column.under}: ${kept.join(", ")}`, shapes };
}

/** Names that are areas need none beside them. */
const hasArea = ({ system }: LadderColumn): boolean => system !== "mm²" && system !== "JIS";

const areaBeside = ({ system }: LadderColumn, { name, areaMm2 }: Rung): string =>
  system === "vehicle diameter" ? `${areaText(areaMm2)}, not ${name}` : areaText(areaMm2);

/** Sizes that have room for their name; those that matter more first. */
function withLabel(
  rungs: readonly Rung[],
  chosen: Rung | null,
  y: (rung: Rung) => number,
  pitch: number,
): ReadonlySet<Rung> {
  const rank = (rung: Rung): number => (rung === chosen ? 0 : rung.isStocked ? 1 : 2);
  const labelled = new Set<Rung>();
  const taken: number[] = [];
  for (const rung of [...rungs].sort((a, b) => rank(a) - rank(b))) {
    if (taken.some((other) => Math.abs(other - y(rung)) < pitch)) continue;
    taken.push(y(rung));
    labelled.add(rung);
  }
  return labelled;
}

/** A text with paper behind it, so that no guide runs through it; in the band there is none. */
function beside(text: TextShape, { band, floor, taken }: Hand): Shape[] {
  const [[x1, y1], [x2, y2]] = shapeBox(text);
  taken.push([[x1, y1], [x2, y2]]); // prettier-ignore
  const box: Box = [[x1 - 0.4, y1 - 0.12 * text.capMm], [x2 + 0.4, y2 + 0.12 * text.capMm]]; // prettier-ignore
  const isInBand = band !== null && box[0][1] < band[1] && box[1][1] > band[0];
  // The floor itself may not run through a name.
  const isOnFloor = floor !== null && box[0][1] < floor && box[1][1] > floor;
  return isInBand && !isOnFloor ? [text] : [{ is: "rectangle", from: box[0], to: box[1], fill: "paper" }, text];
}

const meets = ([[ax1, ay1], [ax2, ay2]]: Box, [[bx1, by1], [bx2, by2]]: Box, gap: number): boolean =>
  ax1 < bx2 + gap && ax2 > bx1 - gap && ay1 < by2 + gap && ay2 > by1 - gap;

/** The first of some places where a text touches nothing that stands there; without one it is left out. */
function placed(ways: readonly (readonly TextShape[])[], hand: Hand, more: readonly Box[] = []): Shape[] {
  const { left, top, width, height } = hand.region;
  const way = ways.find((lines) => {
    const box = boxAround(lines.flatMap(shapeBox));
    const isInside = box[0][0] >= left && box[0][1] >= top && box[1][0] <= left + width && box[1][1] <= top + height;
    return isInside && ![...hand.taken, ...more].some((other) => meets(box, other, 0.3));
  });
  return (way ?? []).flatMap((text) => beside(text, hand));
}

/** What is told of the chosen sizes and the floor. */
function drawMarkLines(laid: readonly Laid[], hand: Hand): Item[] {
  const { region, y, tick, isShown, under, look, floor, taken } = hand;
  const { mark, neededMm2, capMm } = look;
  const shapes: Shape[] = [];
  const [left, right] = [region.left, region.left + region.width];
  const seen = laid.flatMap(({ column, x, chosen }) =>
    chosen === null || !isShown(chosen) ? [] : [{ column, x, chosen }],
  );
  seen.forEach((from, i) => {
    const to = seen[i + 1];
    if (to === undefined) return;
    const end = to.x - tick - 0.8 * capMm - textWidth(to.chosen.name, capMm, "semibold");
    const told =
      look.areas && hasArea(from.column)
        ? textWidth(areaBeside(from.column, from.chosen), under, "regular") + 0.4 * capMm
        : 0;
    const start = from.x + tick + 0.4 * capMm + told;
    const points = threadBetween([start, y(from.chosen.areaMm2)], [end, y(to.chosen.areaMm2)]);
    shapes.push({ is: "polyline", points, stroke: THREAD });
    points.slice(1).forEach((point, k) => taken.push(boxAround([points[k] ?? point, point])));
  });
  if (neededMm2 !== null && floor !== null) {
    const at = floor;
    taken.push([[left, at - 0.3], [right, at + 0.3]]); // prettier-ignore
    const look = { capMm: under, weight: "semibold", anchor: "end", ink: "focus" } as const;
    // From the right, below the line; then above it.
    const ends = Array.from({ length: 40 }, (_, i) => right - (i * region.width) / 40);
    const ways = [at + 0.8 + under, at - 0.8].flatMap((base) => ends.map((x) => [words(`needed ${areaText(neededMm2)} mm²`, [x, base], look)])); // prettier-ignore
    const axes = laid.map(({ x }): Box => [[x - 0.5, at - 9], [x + 0.5, at + 9]]); // prettier-ignore
    const clear = placed(ways, hand, axes);
    shapes.push(...(clear.length > 0 ? clear : placed(ways, hand)));
  }
  if (mark === null && shapes.length === 0) return [];
  const others = seen
    .filter(({ column }) => column.system !== mark?.system)
    .map(({ column, chosen }) => `${chosen.name} ${column.head}, ${areaText(chosen.areaMm2)} mm²`);
  const name = mark === null ? "the floor" : `not smaller than ${mark.name} ${mark.system}: ${others.join("; ")}`;
  return [{ role: "mark", about: null, name, shapes }];
}

/** Areas of the chosen sizes, and what misleads in a size. */
function drawNotes(laid: readonly Laid[], hand: Hand): Item[] {
  const { look, isShown, tick, under, y } = hand;
  const shapes: Shape[] = [];
  for (const { column, x, head, chosen } of laid) {
    for (const rung of column.rungs.filter(isShown)) {
      const isOther = rung === chosen && column.system !== look.mark?.system && !look.areas && hasArea(column);
      const says = look.areas ? "" : rung.note !== "" ? rung.note : isOther ? `${areaText(rung.areaMm2)} mm²` : "";
      if (says === "") continue;
      const left = x + tick + 0.4 * look.capMm;
      const lines = wrapText(says, under, "regular", Math.max(head[1] - left, textWidth("3.31 mm²", under, "regular")));
      const block = (top: number): TextShape[] =>
        lines.map((line, i) => words(line, [left, top + under + 1.5 * under * i], { capMm: under, ink: "ink2" }));
      const [at, high] = [y(rung.areaMm2), under * (1.5 * lines.length - 0.5)];
      shapes.push(...placed([block(at - under / 2), block(at - high - 0.8), block(at + 0.8), block(at - high - 2.2), block(at + 2.2)], hand)); // prettier-ignore
    }
  }
  return [{ role: "caption", about: null, name: "", shapes }];
}

/** A line that leaves and arrives level. */
function threadBetween([x1, y1]: Point, [x2, y2]: Point): Point[] {
  const steps = y1 === y2 ? 1 : 16;
  return Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps;
    return [x1 + (x2 - x1) * t, y1 + (y2 - y1) * t * t * (3 - 2 * t)];
  });
}
