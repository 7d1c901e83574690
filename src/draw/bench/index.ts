/** The one-line that the page works on: drawn, travelled and told. */
export type { BenchDrawing, BenchMark, BenchOptions, Place } from "./bench-drawing.ts";
export { drawBench } from "./draw-bench.ts";
export { travelOf, type Travel, type Ways } from "./travel-of.ts";
export { sayDrawing } from "./say-drawing.ts";
export { spokenName, spokenNames, type SpokenLength } from "./spoken-name.ts";
