/** Help for whoever writes a plan: where an offset stands, what may be written there, what its key means. Works on half-written text. */
export type { Around, Offered, PartEnd } from "./around.ts";
export { completionsAt } from "./complete.ts";
export type { Completions } from "./completions.ts";
export { docText } from "./doc-text.ts";
export { writingPlaceAt, type WritingPlace } from "./place.ts";
export { kindOf, rulesAt } from "./rules-at.ts";
export { sectionHelp } from "./sections.ts";
