/** At most so many are named. */
const MOST = 3;

/**
 * The first of many names, and how many more there are.
 *
 * @example
 * nameSome(["a", "b"]) //=> "a and b"
 * nameSome(["a", "b", "c", "d", "e"]) //=> "a, b, c and 2 more"
 */
export function nameSome(names: readonly string[]): string {
  const all = [...new Set(names)];
  if (all.length > MOST + 1) return `${all.slice(0, MOST).join(", ")} and ${all.length - MOST} more`;
  return all.length < 2 ? (all[0] ?? "") : `${all.slice(0, -1).join(", ")} and ${all.at(-1) ?? ""}`;
}
