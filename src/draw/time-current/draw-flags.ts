import type { Item, Shape } from "../scene.ts";
import { fitText } from "../sheet/fit-text.ts";
import { TEXT_CAP, words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import type { Axes } from "./axes.ts";
import type { PlotMarker } from "./plot.ts";

/** A row of flags above the plot, mm. */
export const FLAG_ROW = 3.6;
/** A line of writing is no longer than this, so that it stays at its marker. */
const MOST = 62;

interface Flag {
  readonly marker: PlotMarker;
  readonly text: string;
  readonly x: number;
  readonly row: number;
}

/**
 * Sets flags on the markers, from the right to the left, so that no line of a marker runs through the words of another.
 *
 * @param right how far words may reach, mm
 */
export function layFlags(markers: readonly PlotMarker[], { place, box }: Axes, right: number): readonly Flag[] {
  const flags: Flag[] = [];
  for (const marker of [...markers].sort((a, b) => b.amps - a.amps)) {
    // More than six decades are not drawn: what lies beyond stands at the edge, with its figure.
    const x = Math.min(Math.max(place([marker.amps, 1])[0], box[0][0]), box[1][0]);
    const text = fitText(marker.label, TEXT_CAP, "regular", Math.min(MOST, right - x - 1));
    const end = x + 2 + textWidth(text, TEXT_CAP, "regular");
    const under = flags.filter((other) => other.x <= end).map(({ row }) => row);
    flags.push({ marker, text, x, row: under.length === 0 ? 0 : Math.max(...under) + 1 });
  }
  return flags;
}

/** The upright lines of fault currents, each with its flag above the plot. */
export function drawFlags(flags: readonly Flag[], { box: [[, top], [, bottom]] }: Axes): Item[] {
  return flags.map(({ marker, text, x, row }) => {
    const y = top - 1.2 - row * FLAG_ROW;
    const shapes: Shape[] = [
      { is: "polyline", points: [[x, bottom], [x, y - TEXT_CAP - 0.4]], stroke: { ink: "focus", width: 0.35, dash: [3, 0.7, 0.7, 0.7] } }, // prettier-ignore
      words(text, [x + 1, y], { ink: "ink" }),
    ];
    return { role: "caption", about: marker.about, name: marker.label, shapes };
  });
}
