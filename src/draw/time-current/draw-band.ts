import { isVerified, type Trust } from "../../explain/index.ts";
import type { Point, Shape, Stroke } from "../scene.ts";
import type { Box } from "../shape-box.ts";
import type { Axes } from "./axes.ts";
import { clipArea, clipLine, clipPath, hatch } from "./clip.ts";
import type { PlotDevice, PlotPoint } from "./plot.ts";

/** Directions of hatching, one a device, so that a band is told from its neighbour without colour; more than these are not drawn. */
export const hatchAngles: readonly number[] = [45, 135, 0, 90, 22.5, 112.5];
const PITCH = 2;
const EDGE = 0.5;

/** A band as it is drawn. */
export interface DrawnBand {
  readonly area: readonly Point[];
  readonly edges: readonly (readonly Point[])[];
  /** Where the device opens no more: a bar. */
  readonly bar: readonly [Point, Point] | null;
}

/** Edges that rest on nothing that was read or quoted are broken. */
export const edgeStroke = (trust: Trust): Stroke =>
  isVerified(trust) ? { ink: "ink", width: EDGE } : { ink: "ink", width: EDGE, dash: [2.4, 0.9] };

const inBox = (box: Box, [x, y]: Point): Point => [
  Math.min(Math.max(x, box[0][0]), box[1][0]),
  Math.min(Math.max(y, box[0][1]), box[1][1]),
];

/** Lays a band on the paper: both edges, and the area between them where both are known. */
export function layBand({ min, max, opensTo }: PlotDevice, { box, amps, seconds, place }: Axes): DrawnBand {
  const right = 10 ** amps[1];
  const end = opensTo === null ? right : Math.min(opensTo, right * 2);
  const [floor, roof] = [10 ** (seconds[0] - 1), 10 ** (seconds[1] + 1)];
  const closes = min === null ? null : cutAt(min, end, floor);
  const opens = max === null ? null : holdTo(max, end);
  const upper = opens?.[0] === undefined ? null : [[opens[0][0], roof] as const, ...opens];
  const lower = closes?.[0] === undefined ? null : [[closes[0][0], roof] as const, ...closes];
  const area =
    upper === null || lower === null
      ? []
      : clipArea([...lower, [Math.max(end, lower.at(-1)?.[0] ?? end), floor] as const, ...[...upper].reverse()].map(place), box); // prettier-ignore
  const edges = [lower, upper].flatMap((edge) => (edge === null ? [] : clipPath(edge.map(place), box)));
  return { area, edges, bar: opensTo === null || upper === null ? null : barOf(upper, lower, end, place, box, floor) };
}

/** What lies beyond the greatest current that the device opens is not drawn. */
function cutAt(points: readonly PlotPoint[], end: number, floor: number): readonly PlotPoint[] {
  const kept: PlotPoint[] = [];
  for (const [i, point] of points.entries()) {
    if (point[0] <= end) {
      kept.push(point);
      continue;
    }
    const before = points[i - 1];
    if (before !== undefined) kept.push([end, between(before, point, end)]);
    return kept;
  }
  const last = kept.at(-1);
  return last === undefined ? kept : [...kept, [last[0], floor]];
}

const between = ([a1, s1]: PlotPoint, [a2, s2]: PlotPoint, amps: number): number =>
  a1 === a2 ? s2 : s1 * (s2 / s1) ** (Math.log(amps / a1) / Math.log(a2 / a1));

function holdTo(points: readonly PlotPoint[], end: number): readonly PlotPoint[] {
  const kept = points.filter(([amps]) => amps <= end);
  const last = kept.at(-1);
  return last === undefined || last[0] >= end ? kept : [...kept, [end, last[1]]];
}

function barOf(
  upper: readonly PlotPoint[],
  lower: readonly PlotPoint[] | null,
  end: number,
  place: Axes["place"],
  box: Box,
  floor: number,
): readonly [Point, Point] | null {
  const top = upper.at(-1)?.[1] ?? floor;
  const last = lower?.at(-1);
  const bottom = last !== undefined && last[0] >= end ? last[1] : floor;
  return clipLine(place([end, top]), place([end, bottom]), box);
}

/** Hatching and edges; the tone beneath is drawn before all of them, so that none hides another. */
export function bandShapes({ area, edges, bar }: DrawnBand, index: number, trust: Trust): Shape[] {
  const lines = area.length < 3 ? [] : hatch(area, hatchAngles[index] ?? 45, PITCH);
  return [
    ...lines.map((points): Shape => ({ is: "polyline", points, stroke: { ink: "ink2", width: 0.13 } })),
    ...edges.map((points): Shape => ({ is: "polyline", points, stroke: edgeStroke(trust) })),
    ...(bar === null ? [] : [{ is: "polyline", points: bar, stroke: { ink: "ink", width: 1 } } satisfies Shape]),
  ];
}

/** The tone of a band. */
export const bandTone = ({ area }: DrawnBand, box: Box): Shape[] =>
  area.length < 3 ? [] : [{ is: "polyline", points: area.map((p) => inBox(box, p)), closed: true, fill: "flow" }];
