import type { Point, Stroke } from "../scene.ts";
import type { Axes } from "./axes.ts";
import { clipPath } from "./clip.ts";
import type { PlotConductor, PlotPulse } from "./plot.ts";

/** Damage of a conductor: the boldest line, broken by points, and nothing else is. */
export const DAMAGE: Stroke = { ink: "fail", width: 0.7, dash: [5, 1.2, 0.9, 1.2] };
/** What a load draws: dots. */
export const PULSE: Stroke = { ink: "pass", width: 0.5, dash: [0.1, 1.1] };

/** The damage line of a conductor within the plot. */
export const layConductor = ({ points }: PlotConductor, { place, box }: Axes): readonly (readonly Point[])[] =>
  clipPath(points.map(place), box);

/** The stepped line of a start and the running current after it, from the shortest time up. */
export function layPulse({ start, running }: PlotPulse, { place, box, seconds }: Axes): readonly (readonly Point[])[] {
  const [floor, roof] = [10 ** seconds[0], 10 ** seconds[1]];
  const after: readonly Point[] = running === null ? [] : [place([running, start[1]]), place([running, roof])];
  return clipPath([place([start[0], floor]), place(start), ...after], box);
}
