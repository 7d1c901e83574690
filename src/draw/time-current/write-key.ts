import { printTrust } from "../../explain/index.ts";
import type { Item, Shape, Stroke } from "../scene.ts";
import { fitText, wrapText } from "../sheet/fit-text.ts";
import { TEXT_CAP, words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import { hatch } from "./clip.ts";
import { edgeStroke, hatchAngles } from "./draw-band.ts";
import { DAMAGE, PULSE } from "./draw-loads.ts";
import type { PlotConductor, PlotDevice, PlotPulse } from "./plot.ts";

/** What a key says of one line of the plot. */
export interface KeyRow {
  readonly about: string | null;
  readonly swatch: (x: number, y: number) => readonly Shape[];
  readonly label: string;
  readonly says: string;
}

const LINE = 3;
const SWATCH = 8;
const GAP = 1.2;

function deviceSwatch(device: PlotDevice, index: number): KeyRow["swatch"] {
  return (x, y) => {
    if (device.min === null && device.max === null) return [];
    const corners = [[x, y], [x + SWATCH, y], [x + SWATCH, y + 2.2], [x, y + 2.2]] as const; // prettier-ignore
    const stroke = { ...edgeStroke(device.trust), width: 0.35 };
    if (device.min === null || device.max === null) return [{ is: "polyline", points: [corners[3], corners[2]], stroke }]; // prettier-ignore
    return [
      { is: "polyline", points: corners, closed: true, fill: "flow" },
      ...hatch(corners, hatchAngles[index] ?? 45, 1).map((points): Shape => ({ is: "polyline", points, stroke: { ink: "ink2", width: 0.13 } })), // prettier-ignore
      { is: "polyline", points: corners, closed: true, stroke },
    ];
  };
}

const lineSwatch =
  (stroke: Stroke): KeyRow["swatch"] =>
  (x, y) => [{ is: "polyline", points: [[x, y + 1.1], [x + SWATCH, y + 1.1]], stroke }]; // prettier-ignore

const sentence = (...parts: readonly (string | null)[]): string =>
  parts.filter((p) => p !== null && p !== "").join("; ");

export function keyRows(
  devices: readonly PlotDevice[],
  conductors: readonly PlotConductor[],
  pulses: readonly PlotPulse[],
): readonly KeyRow[] {
  return [
    ...devices.map((device, i): KeyRow => ({
      about: device.about,
      swatch: deviceSwatch(device, i),
      label: device.label,
      says: sentence(device.says, device.missing, device.min === null && device.max === null ? null : `band ${printTrust(device.trust)}`), // prettier-ignore
    })),
    ...conductors.map(({ about, label, says, trust }): KeyRow => ({
      about,
      swatch: lineSwatch(DAMAGE),
      label,
      says: `damage line: ${says} (${printTrust(trust)})`,
    })),
    ...pulses.map(({ about, label, says }): KeyRow => ({ about, swatch: lineSwatch(PULSE), label, says })),
  ];
}

/** Width for the short labels: that of the widest, and not more than a third. */
const labelWidth = (rows: readonly KeyRow[], width: number): number =>
  Math.min(width / 3, Math.max(0, ...rows.map(({ label }) => textWidth(label, TEXT_CAP, "semibold"))) + 2);

const linesOf = (row: KeyRow, width: number): string[] => wrapText(row.says, TEXT_CAP, "regular", width);

/** The rows with no more than one line of words each. */
export function oneLineEach(rows: readonly KeyRow[], width: number): readonly KeyRow[] {
  const room = width - SWATCH - 2 - labelWidth(rows, width);
  return rows.map((row) => ({ ...row, says: fitText(row.says, TEXT_CAP, "regular", room) }));
}

/** How high the key will be, mm. */
export function keyHeight(rows: readonly KeyRow[], notes: readonly string[], width: number): number {
  const room = width - SWATCH - 2 - labelWidth(rows, width);
  const keyed = rows.reduce((sum, row) => sum + Math.max(1, linesOf(row, room).length) * LINE + GAP, 0);
  const noted = notes.reduce((sum, note) => sum + wrapText(note, TEXT_CAP, "regular", width).length * LINE + GAP, 0);
  return keyed + noted;
}

/** Writes the key and, below it, the notes. */
export function writeKey(
  rows: readonly KeyRow[],
  notes: readonly string[],
  { left, top, width }: { readonly left: number; readonly top: number; readonly width: number },
): Item[] {
  const items: Item[] = [];
  const forLabel = labelWidth(rows, width);
  const room = width - SWATCH - 2 - forLabel;
  let y = top;
  for (const row of rows) {
    const label = fitText(row.label, TEXT_CAP, "semibold", forLabel - 1);
    const shapes: Shape[] = [...row.swatch(left, y), words(label, [left + SWATCH + 2, y + TEXT_CAP + 0.2], { weight: "semibold" })]; // prettier-ignore
    const lines = linesOf(row, room);
    for (const [i, line] of lines.entries())
      shapes.push(words(line, [left + SWATCH + 2 + forLabel, y + TEXT_CAP + 0.2 + i * LINE], { ink: "ink2" })); // prettier-ignore
    items.push({ role: "table", about: row.about, name: `${row.label}: ${row.says}`, shapes });
    y += Math.max(1, lines.length) * LINE + GAP;
  }
  for (const note of notes) {
    const lines = wrapText(note, TEXT_CAP, "regular", width);
    items.push({ role: "table", about: null, name: note, shapes: lines.map((line, i) => words(line, [left, y + TEXT_CAP + 0.2 + i * LINE])) }); // prettier-ignore
    y += lines.length * LINE + GAP;
  }
  return items;
}
