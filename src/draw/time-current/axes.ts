import type { Item, Point, Shape } from "../scene.ts";
import type { Box } from "../shape-box.ts";
import { TEXT_CAP, words } from "../sheet/text-block.ts";
import { textWidth } from "../text-width.ts";
import type { PlotPoint, TimeCurrentPlot } from "./plot.ts";

/** Where currents and times lie on the paper. */
export interface Axes {
  readonly box: Box;
  /** Powers of ten at the ends. */
  readonly amps: readonly [low: number, high: number];
  readonly seconds: readonly [low: number, high: number];
  /** On the paper, off the box where the figures are. */
  readonly place: (point: PlotPoint) => Point;
}

/** 0.01 s to 10 000 s: below, energy counts and not time; above, a device carries the current for good. */
const SECONDS = [-2, 4] as const;
const LEAST_DECADES = 3;
const MOST_DECADES = 6;

const isDrawable = (value: number): boolean => Number.isFinite(value) && value > 0;

/** The whole decades of current that a plot needs. */
export function decadesOf({ devices, markers, conductors, pulses }: TimeCurrentPlot): readonly [number, number] {
  const inside = ([, s]: PlotPoint): boolean => s >= 10 ** SECONDS[0] && s <= 10 ** SECONDS[1];
  const amps = [
    ...devices.flatMap(({ min, max }) => [...(min ?? []), ...(max ?? [])].filter(inside).map(([a]) => a)),
    ...markers.map((marker) => marker.amps),
    ...conductors.flatMap(({ points }) => points.slice(0, 1).map(([a]) => a)),
    ...pulses.flatMap(({ start, running }) => [start[0], running ?? start[0]]),
  ].filter(isDrawable);
  if (amps.length === 0) return [1, 1 + LEAST_DECADES];
  const [least, most] = [Math.min(...amps), Math.max(...amps)];
  // What stands on the edge itself could not be told from the frame.
  const high = Math.ceil(Math.log10(most) + 0.02);
  const low = Math.max(Math.floor(Math.log10(least) - 0.02), high - MOST_DECADES);
  return [low, Math.max(high, low + LEAST_DECADES)];
}

/** Axes over a box, with decades of equal length. */
export function makeAxes(plot: TimeCurrentPlot, box: Box): Axes {
  const amps = decadesOf(plot);
  const [[x1, y1], [x2, y2]] = box;
  const place = ([a, s]: PlotPoint): Point => [
    x1 + ((x2 - x1) * (Math.log10(a) - amps[0])) / (amps[1] - amps[0]),
    y2 - ((y2 - y1) * (Math.log10(s) - SECONDS[0])) / (SECONDS[1] - SECONDS[0]),
  ];
  return { box, amps, seconds: SECONDS, place };
}

/** `0.01`, `5`, `20 000`: a space in thousands, as in other drawings. */
const figure = (value: number): string => {
  const text = String(Number(value.toPrecision(6)));
  return text.length > 4 && !text.includes(".") ? text.replace(/\B(?=(\d{3})+$)/g, "\u2009") : text;
};

/** The grid with its figures and the titles of the axes. */
export function drawAxes({ box, amps, seconds, place }: Axes, unit: string): Item {
  const [[x1, y1], [x2, y2]] = box;
  const shapes: Shape[] = [];
  const fine: Shape[] = [];
  const line = (to: Shape[], from: Point, end: Point, isDecade: boolean): void => {
    to.push({ is: "polyline", points: [from, end], stroke: isDecade ? { ink: "frame", width: 0.25 } : { ink: "hair", width: 0.13 } }); // prettier-ignore
  };
  const steps = (low: number, high: number, each: (value: number, step: number) => void): void => {
    for (let power = low; power <= high; power++)
      for (let step = 1; step < (power === high ? 2 : 10); step++) each(step * 10 ** power, step);
  };
  /** Ends of the figures along the foot, so that those between the decades keep clear of them. */
  const taken: (readonly [left: number, right: number])[] = [];
  const across = (value: number, x: number, step: number): void => {
    const half = textWidth(figure(value), TEXT_CAP, "regular") / 2 + 0.5;
    if (taken.some(([left, right]) => x - half < right && left < x + half)) return;
    taken.push([x - half, x + half]);
    shapes.push(words(figure(value), [x, y2 + 1.2 + TEXT_CAP], { anchor: "middle", ink: step === 1 ? "ink" : "ink2" })); // prettier-ignore
  };
  steps(...amps, (value, step) => {
    const [x] = place([value, 1]);
    line(step === 1 ? shapes : fine, [x, y1], [x, y2], step === 1);
    if (step === 1) across(value, x, step);
  });
  steps(...amps, (value, step) => {
    if (step === 2 || step === 5) across(value, place([value, 1])[0], step);
  });
  // The least room down is 16 mm a decade: figures of 1.8 mm at 1, 2 and 5 keep clear of each other.
  steps(...seconds, (value, step) => {
    const [, y] = place([1, value]);
    line(step === 1 ? shapes : fine, [x1, y], [x2, y], step === 1);
    if (step === 1 || step === 2 || step === 5)
      shapes.push(words(figure(value), [x1 - 1.2, y + TEXT_CAP / 2], { anchor: "end", ink: step === 1 ? "ink" : "ink2" })); // prettier-ignore
  });
  shapes.push(
    { is: "rectangle", from: box[0], to: box[1], stroke: { ink: "ink", width: 0.35 } },
    words(`prospective current, ${unit}`, [x2, y2 + 2.6 + 2 * TEXT_CAP + 1.2], { anchor: "end" }),
    words("time, s", [x1 - 1.2, y1 - 2], { anchor: "end" }),
  );
  return { role: "frame", about: null, name: "", shapes: [...fine, ...shapes] };
}
