/** Help for whoever writes a plan: where an offset stands, what may be written there, what its key means. Works on half-written text. */
export type { Around, Offered, PartEnd } from "./around.ts";
export { completionsAt, type Completions } from "./complete.ts";
export { writingPlaceAt, type WritingPlace } from "./place.ts";
export { kindOf, rulesAt, type RulesAt } from "./rules-at.ts";
export { sectionHelp } from "./sections.ts";
