/** One circuit from top to bottom, for a card. */
export { drawStrip } from "./draw-strip.ts";
