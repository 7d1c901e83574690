/** Longer names are not compared sign by sign: nobody mistypes them, they are pasted. */
const LONGEST = 60;

/**
 * Names that somebody may have meant who wrote another.
 *
 * Case, spaces and accents do not count; then the names with the fewest signs to change (two neighbours swapped are one
 * change), up to a third of the name; then those that hold the name, or that it holds.
 *
 * @param name as it was written
 * @param names that there are, in the order of the plan; of two equally near the first comes first
 * @param most offered
 * @example
 * nearestNames("frige", ["windlass", "fridge", "bridge"]) //=> ["fridge"]
 * nearestNames("Bilge-Pump", ["bilge pump"]) //=> ["bilge pump"]
 */
export function nearestNames(name: string, names: Iterable<string>, most = 3): string[] {
  const meant = folded(name);
  if (meant === "" || meant.length > LONGEST) return [];
  const limit = Math.max(1, Math.floor(meant.length / 3));
  const near: { name: string; distance: number }[] = [];
  for (const candidate of new Set(names)) {
    const other = folded(candidate);
    const distance = distanceOf(meant, other, limit);
    if (distance <= limit) near.push({ name: candidate, distance });
    else if (holds(other, meant) || holds(meant, other)) near.push({ name: candidate, distance: limit + 1 });
  }
  near.sort((a, b) => a.distance - b.distance);
  return near.slice(0, most).map((found) => found.name);
}

/** A name without what people do not see as a difference. */
function folded(name: string): string {
  return name.normalize("NFD").replace(/\p{M}/gu, "").replace(/[\s_–−-]+/gu, "").toLowerCase(); // prettier-ignore
}

function holds(long: string, short: string): boolean {
  return short.length >= 3 && long.length <= LONGEST && long.includes(short);
}

/** Signs to insert, delete, replace or swap with their neighbour; anything above `limit` once it must be. */
function distanceOf(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let older: number[] = [];
  let old = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((old[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (old[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, (older[j - 2] ?? 0) + 1);
      row.push(cost);
      least = Math.min(least, cost);
    }
    // A swap reaches back two rows, so only two rows above the limit are final.
    if (least > limit && Math.min(...old) > limit) return limit + 1;
    [older, old] = [old, row];
  }
  return old[b.length] ?? limit + 1;
}
