import { decimalText } from "../../quantity/decimal-text.ts";
import { cleanText } from "../clean-text.ts";
import type { Item, Point, Scene, Shape, Stroke } from "../scene.ts";
import { fitText } from "../sheet/fit-text.ts";
import { textItem, words } from "../sheet/text-block.ts";
import { hatch } from "../time-current/clip.ts";
import { ampsText, type BankPicture, type Given, type PictureUnit } from "./bank-picture.ts";

/** mm. As narrow as a phone shows it without words smaller than 12 px. */
const WIDTH = 90;
const EDGE = 3;
const [CAP, HEAD_CAP] = [2.2, 2.8];
/** From line to line of the words. */
const LINE = 5;
/** Across the bars at most; the figures stand at their right. */
const BARS = 52;
const [BAR, BAR_PITCH, UNIT_GAP] = [3.6, 5.2, 4];
/** What the even mark stands out above and below the bars of a unit. */
const OUT = 0.9;
const PITCH = 1.5;

const MARK: Stroke = { ink: "focus", width: 0.5, dash: [1.4, 1] };

/** Where shares lie across the picture. */
interface Axis {
  readonly x: (share: number) => number;
}

/** From no share, or the least where one is charged by another, to twice an even share or the greatest. */
function axisOf(units: readonly PictureUnit[], even: number): Axis {
  const shares = units.flatMap(({ load, fault }) => [load?.share ?? 0, fault?.share ?? 0]);
  const low = Math.min(0, ...shares);
  const high = Math.max(2 * even, ...shares);
  return { x: (share) => EDGE + (BARS * (share - low)) / (high - low) };
}

const percent = (share: number): string =>
  `${share < 0 ? "−" : ""}${decimalText(Math.abs(100 * share), { decimals: 1 })} %`;

const figures = (given: Given | null): string =>
  given === null
    ? "–"
    : given.share === null
      ? ampsText(given.amps)
      : `${percent(given.share)}, ${ampsText(given.amps)}`;

/**
 * Draws how the batteries of a bank share: each with its wires, a bar for what it gives at load and one for what it gives into a fault, and a mark where
 * both would end if all gave alike.
 *
 * @returns mm; words are not smaller than 12 px where it is shown 358 px wide
 */
export function drawBankSharing({ units, load, fault }: BankPicture): Scene {
  const even = 1 / Math.max(1, units.length);
  const axis = axisOf(units, even);
  const names = units.map(({ name }) => cleanText(name));
  const title = `How ${names.join(", ")} share`;
  const fit = (text: string, width: number, weight: "regular" | "semibold" = "regular", cap = CAP): string =>
    fitText(cleanText(text), cap, weight, width);
  const items: Item[] = [];
  let y = EDGE + HEAD_CAP;
  items.push(textItem([words(fit(title, WIDTH - 2 * EDGE, "semibold", HEAD_CAP), [EDGE, y], { capMm: HEAD_CAP, weight: "semibold" })], title)); // prettier-ignore
  const keys: readonly (readonly [string, (from: Point, to: Point) => Shape[]])[] = [
    [`at load: ${load ?? "no state is told"}`, loadBar],
    [`in a fault: ${fault ?? "none can be told"}`, faultBar],
    [`even share, ${percent(even)}`, ([x, top], [, bottom]) => [evenMark(x + 4, top - 0.4, bottom + 0.4)]],
  ];
  for (const [says, swatch] of keys) {
    y += LINE;
    const text = fit(says, WIDTH - 2 * EDGE - 10);
    items.push({ role: "table", about: null, name: cleanText(says), shapes: [...swatch([EDGE, y - CAP], [EDGE + 8, y]), words(text, [EDGE + 10, y], { capMm: CAP, ink: "ink2" })] }); // prettier-ignore
  }
  y += UNIT_GAP / 2;
  units.forEach((unit, i) => {
    y += LINE;
    const name = fit(names[i] ?? "", WIDTH - 2 * EDGE, "semibold");
    const shapes: Shape[] = [words(name, [EDGE, y], { capMm: CAP, weight: "semibold" })];
    for (const lead of unit.leads.slice(0, MOST_LEADS)) {
      y += LINE - 0.8;
      shapes.push(words(fit(lead, WIDTH - 2 * EDGE - 3), [EDGE + 3, y], { capMm: CAP, ink: "ink2" }));
    }
    const more = unit.leads.length - MOST_LEADS;
    if (more > 0) {
      y += LINE - 0.8;
      shapes.push(words(`and ${more} more`, [EDGE + 3, y], { capMm: CAP, ink: "ink2" }));
    }
    const top = y + 2.2;
    const rows = [
      [unit.load, loadBar],
      [unit.fault, faultBar],
    ] as const;
    rows.forEach(([given, bar], row) => {
      const at = top + row * BAR_PITCH;
      const [from, to] = [axis.x(0), axis.x(given?.share ?? 0)];
      if (from !== to) shapes.push(...bar([Math.min(from, to), at], [Math.max(from, to), at + BAR]));
      shapes.push(words(figures(given), [WIDTH - EDGE, at + (BAR + CAP) / 2], { capMm: CAP, anchor: "end" }));
    });
    const bottom = top + BAR_PITCH + BAR;
    shapes.push({ is: "polyline", points: [[axis.x(0), top - OUT], [axis.x(0), bottom + OUT]], stroke: { ink: "frame", width: 0.25 } }); // prettier-ignore
    shapes.push(evenMark(axis.x(even), top - OUT, bottom + OUT));
    const spoken = `${names[i] ?? ""}: at load ${figures(unit.load)}; in a fault ${figures(unit.fault)}; by ${unit.leads.map(cleanText).join("; ")}`;
    items.push({ role: "symbol", about: unit.about, name: spoken, shapes });
    y = bottom + UNIT_GAP - 1;
  });
  return { width: WIDTH, height: y + EDGE, title, says: `${title}: at load and in a fault.`, items };
}

/** Wires told of a unit. */
const MOST_LEADS = 4;

const evenMark = (x: number, top: number, bottom: number): Shape => ({
  is: "polyline",
  points: [
    [x, top],
    [x, bottom],
  ],
  stroke: MARK,
});

const loadBar = (from: Point, to: Point): Shape[] => [
  { is: "rectangle", from, to, fill: "idle", stroke: { ink: "ink", width: 0.25 } },
];

/** Hatched, so that it is told from the other without colour. */
function faultBar(from: Point, to: Point): Shape[] {
  const corners: Point[] = [from, [to[0], from[1]], to, [from[0], to[1]]];
  return [
    { is: "rectangle", from, to, fill: "paper", stroke: { ink: "ink", width: 0.35 } },
    ...hatch(corners, 45, PITCH).map((points): Shape => ({ is: "polyline", points, stroke: { ink: "ink2", width: 0.25 } })), // prettier-ignore
  ];
}
