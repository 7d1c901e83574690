/** So many further states are all named; of more the first three. */
const MOST = 4;
const FIRST = 3;

/**
 * The further states in which something is found, in words.
 *
 * Names of states made of positions have commas of their own: such names stand between semicolons.
 *
 * @param see where all of them are told: "`states`"; empty: nowhere
 * @example
 * alsoInSays(["at anchor", "under way"]) //=> "at anchor and under way"
 * alsoInSays(["GEN running", "INL in, TS at shore"]) //=> "GEN running; and INL in, TS at shore"
 * alsoInSays(["a", "b", "c", "d", "e"], "`states`") //=> "a, b, c and 2 more states (see `states`)"
 */
export function alsoInSays(states: readonly string[], see = ""): string {
  const named = states.length > MOST ? states.slice(0, FIRST) : states;
  const more = states.length - named.length;
  const all = more === 0 ? named : [...named, `${more} more states${see === "" ? "" : ` (see ${see})`}`];
  const last = all.at(-1) ?? "";
  const before = all.slice(0, -1);
  if (before.length === 0) return last;
  return named.some((name) => name.includes(","))
    ? `${before.join("; ")}; and ${last}`
    : `${before.join(", ")} and ${last}`;
}
