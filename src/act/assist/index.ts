/** Help with the text of a compiled plan: what may be written at a place, what stands there and what it came to. */
export { aroundOf, type Assisted } from "./around-of.ts";
export { completeAt } from "./complete-at.ts";
export { hoverAt, type Hover } from "./hover-at.ts";
