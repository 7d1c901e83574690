import type { Stroke } from "./scene.ts";

/** How a line ends: round, but flat where round ends would fill the gaps of its dashes, or reach out as far as a band is wide; dots need round ends to be seen at all. */
export function lineCap({ ink, dash = [], width }: Stroke): "round" | "butt" {
  if (ink === "flow") return "butt";
  const dashes = dash.filter((_, i) => i % 2 === 0);
  return dashes.length === 0 || dashes.some((length) => length < width) ? "round" : "butt";
}
