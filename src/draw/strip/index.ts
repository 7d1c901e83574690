/** One circuit from top to bottom, for a card. */
export { drawStrip, type StripBuild, type StripOptions } from "./draw-strip.ts";
