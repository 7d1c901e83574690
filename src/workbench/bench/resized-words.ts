import type { Design } from "../../size/index.ts";

/** So many are named; of more only how many. */
const NAMED = 4;

/**
 * Wires whose chosen size became another one by an edit of something else; empty: none.
 *
 * @param about what was edited, which says so itself
 */
export function resizedWords(was: Design, is: Design, about: string | null): string {
  const before = new Map(was.circuits.map(({ id, size }) => [id, size?.label]));
  const other = is.circuits.flatMap(({ id, size, outcome }) => {
    const old = before.get(id);
    const isOwn = about === `circuits.${id}`;
    if (isOwn || outcome !== "chosen" || old === undefined || size === null || old === size.label) return [];
    return [`${id} ${old} → ${size.label}`];
  });
  if (other.length === 0) return "";
  const more = other.length > NAMED ? ` and ${other.length - NAMED} more` : "";
  return `also ${other.slice(0, NAMED).join(", ")}${more}`;
}
