import type { LegendLine } from "./compose-sheet.ts";
import type { Graph } from "./graph.ts";

/** The lines of a legend, of what is drawn alone. */
export function legendOf(graph: Graph): LegendLine[] {
  const devices = new Set(graph.wires.flatMap((w) => w.devices.map(({ name }) => /^[A-Z]+/.exec(name)?.[0] ?? "")));
  const breaker = ["Q", "CB"].find((letters) => devices.has(letters));
  const has = (is: string): boolean => [...graph.parts.values()].some((p) => p.is === is);
  const given = graph.wires.some((w) => w.given || w.devices.some((d) => d.given));
  const unknown = graph.wires.some((w) => w.size.includes("?") || w.lengthFigure === "?");
  const line = (sample: LegendLine["sample"], code: string, says: string): LegendLine => ({ sample, code, says });
  return [
    line("wire", "", "both conductors, or all cores"),
    ...(has("bar") || has("panel") ? [line("bar", "", "bar, direct current")] : []),
    ...(graph.wires.some((w) => w.current === "AC") ? [line("ac bar", "", "bar, alternating current")] : []),
    ...(has("panel") ? [line("frame", "", "enclosure, + its name")] : []),
    ...(devices.has("F") ? [line(null, "F12", "fuse of circuit W12")] : []),
    ...(breaker === undefined ? [] : [line(null, `${breaker}12`, "breaker of circuit W12")]),
    ...(given ? [line(null, "*", "as the plan gives it; else chosen")] : []),
    ...(unknown ? [line(null, "?", "not given, not worked out")] : []),
  ];
}
