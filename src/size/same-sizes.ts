import type { Bounds } from "./bounds.ts";
import type { Chosen } from "./chosen.ts";
import { costOf, isFixed, less } from "./cost.ts";
import type { Model } from "./model.ts";

/**
 * Chooses with the circuits of each group at one common size: every size that could be the best is tried, thin ones first. A size is passed over when the
 * group at that size and all others at their least already cost more than the best so far.
 *
 * @param boundsOf bounds with some circuits held at one rung each
 */
export function chooseTogether(
  model: Model,
  boundsOf: (only: Int32Array | null) => Bounds,
  search: (bounds: Bounds, before: Chosen | null) => Chosen,
  before: Chosen | null,
): Chosen {
  const { circuits, sizeGroups } = model;
  const free = boundsOf(null);
  if (sizeGroups.length === 0) return search(free, before);
  const { floor, top, above } = free;
  const groupFloor = sizeGroups.map((g) => Math.max(...g.map((i) => floor[i] ?? 0)));
  const groupTop = sizeGroups.map((g) => Math.min(...g.map((i) => top[i] ?? 0)));
  const only = new Int32Array(circuits.length).fill(-1);
  let best: Chosen | null = null;
  let evaluations = 0;
  let proved = true;
  /** The least that all can cost with the groups as far as they are held. */
  const leastSum = (): number => {
    let sum = 0;
    circuits.forEach((c, i) => (sum += costOf(c, isFixed(c) ? 0 : Math.max(only[i] ?? -1, floor[i] ?? 0))));
    return sum;
  };
  const shortOf = ({ short }: Chosen): number => short.reduce((n, s) => n + s, 0);
  const tryGroup = (g: number): void => {
    const group = sizeGroups[g];
    if (group === undefined) {
      const found = search(boundsOf(only), best ?? before);
      evaluations += found.evaluations;
      proved &&= found.proved;
      if (best === null || less({ short: shortOf(found), sum: found.sum }, { short: shortOf(best), sum: best.sum })) {
        best = { ...found, rungs: Int32Array.from(found.rungs) };
      }
      return;
    }
    for (let r = groupFloor[g] ?? 0; r <= (groupTop[g] ?? 0); r = above[r] ?? Infinity) {
      for (const i of group) only[i] = r;
      if (best !== null && shortOf(best) === 0 && !less({ short: 0, sum: leastSum() }, { short: 0, sum: best.sum }))
        break;
      tryGroup(g + 1);
    }
    for (const i of group) only[i] = -1;
  };
  tryGroup(0);
  // Where the group's floors lie above all its tops nothing was tried: each then has what it can get.
  const found: Chosen = best ?? search(free, before);
  // What was laid last is not the choice.
  return { ...found, evaluations, proved };
}
