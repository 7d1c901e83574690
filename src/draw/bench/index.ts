/** The one-line that the page works on: drawn, travelled and told. */
export type { BenchDrawing, BenchOptions } from "./bench-drawing.ts";
export { drawBench } from "./draw-bench.ts";
export type { StateView } from "./read-state.ts";
export { travelOf, type Travel } from "./travel-of.ts";
export { sayDrawing } from "./say-drawing.ts";
export { spokenName, spokenNames } from "./spoken-name.ts";
