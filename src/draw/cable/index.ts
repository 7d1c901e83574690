export { drawCableSection, type CableSectionOptions } from "./draw-cable-section.ts";
export type { ConductorInk } from "./draw-core.ts";
export { patterns, type Pattern } from "./patterns.ts";
