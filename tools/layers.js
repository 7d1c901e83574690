/**
 * The folders of src/ in the order in which data walks through them.
 * A folder may import itself and what stands before it; the doors never import each other.
 * `diagnostic.ts` is open to all. See docs/architecture.md.
 */
export const layers = [
  "quantity",
  "explain",
  "reference",
  "wire",
  "device",
  "ruleset",
  "plan",
  "system",
  "switching",
  "route",
  "network",
  "ampacity",
  "protect",
  "fault",
  "size",
  "coordinate",
  "rules",
  "cure",
  "why",
  "draw",
  "act",
];
/** May import every layer. */
export const doors = ["cli", "workbench"];
