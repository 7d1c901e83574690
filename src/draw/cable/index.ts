export { drawCableSection } from "./draw-cable-section.ts";
export { inksOfColour, type ConductorInk } from "./draw-core.ts";
export { fillRing } from "./fill-ring.ts";
