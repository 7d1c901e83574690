/** Help with the text of a compiled plan: what may be written at a place, what stands there and what it came to. */
export { completeAt } from "./complete-at.ts";
export { hoverAt } from "./hover-at.ts";
