import { openFrom, type Bounds } from "./bounds.ts";
import type { Chosen, SearchLimits } from "./chosen.ts";
import { costOf, isFixed, less, plus, type Cost } from "./cost.ts";
import { prepareSettling } from "./settle-trees.ts";
import { takeApart, type Touched } from "./take-apart.ts";
import type { Weigher } from "./weigher.ts";

/** Trees are laid no more often than this for each circuit of the build before the search contents itself with the best so far. */
const MOST_LAID = 2000;

/**
 * Chooses, between bounds, the sizes that cost least with which every load has what it needs, the loads' currents held.
 *
 * The trees are settled exactly: for each size of a feeder its branches take the least that is enough, so a feeder's size is the one with the
 * least sum. Over the core goes a branch-and-bound search whose bound is what the trees cost when all core circuits not yet settled have
 * the most copper: more copper in the core never asks for more in the trees.
 *
 * @param limits null: keep the core as it was chosen before, as far as it still may be, and settle the trees on it
 * @param before the choice of the round before, which is looked at first: mostly it still is the best, and the search then only proves it
 */
export function searchSizes(
  weigher: Weigher,
  bounds: Bounds,
  limits: SearchLimits | null,
  before: Pick<Chosen, "rungs" | "proved"> | null,
): Chosen {
  const { model } = weigher;
  const { circuits } = model;
  const { floor, top, above } = bounds;
  const rungs = Int32Array.from(floor);
  const short = Uint8Array.from(bounds.short);
  const hanging = prepareSettling(weigher, { bounds, rungs, before: before?.rungs ?? rungs });
  let evaluations = 0;

  const groups = model.coreGroups.filter((g) => g.some((i) => !isFixed(circuits[i])));
  const groupTop = groups.map((g) => Math.min(...g.map((i) => (isFixed(circuits[i]) ? Infinity : (top[i] ?? 0)))));
  const groupFloor = groups.map((g) => Math.max(...g.map((i) => floor[i] ?? 0)));
  const setGroup = (g: number, r: number): void => {
    for (const i of groups[g] ?? []) if (!isFixed(circuits[i])) rungs[i] = r;
  };
  const groupCost = (g: number, r: number): number =>
    (groups[g] ?? []).reduce((sum, i) => sum + (isFixed(circuits[i]) ? 0 : costOf(circuits[i], r)), 0);

  /** Cost of the part of the build that a set of groups touches, with the core as it stands. */
  const costOfPart = (touched: Touched): Cost => {
    evaluations++;
    weigher.solveCore(rungs);
    let cost = coreShort(weigher, touched.core);
    for (const root of touched.roots) cost = plus(cost, hanging.settle(root));
    return cost;
  };

  groups.forEach((g, k) => {
    const was = before === null ? 0 : openFrom(bounds, Math.max(...g.map((i) => before.rungs[i] ?? 0)));
    setGroup(k, Math.min(Math.max(was, groupFloor[k] ?? 0), groupTop[k] ?? 0));
  });
  let proved = limits === null ? (before?.proved ?? false) : true;
  if (limits !== null && groups.length > 0) {
    const most = limits.evaluations;
    for (const touched of takeApart(weigher, groups, groupFloor, groupTop, setGroup, rungs)) {
      const list = touched.groups;
      const now = list.map((g) => rungs[groups[g]?.[0] ?? 0] ?? 0);
      const set = (chosen: readonly number[]): void => {
        list.forEach((g, k) => {
          setGroup(g, chosen[k] ?? 0);
        });
      };
      let bestCore = now;
      // What stood before is only a guess: of equals the search takes the first that it meets, whatever stood before.
      let isGuess = true;
      const canBeat = (cost: Cost): boolean => (isGuess ? !less(best, cost) : less(cost, best));
      set(now);
      let best = plus(costOfPart(touched), {
        short: 0,
        sum: list.reduce((sum, g, k) => sum + groupCost(g, now[k] ?? 0), 0),
      });
      const tops = list.map((g) => groupTop[g] ?? 0);
      const floors = list.map((g) => groupFloor[g] ?? 0);
      // The least that the trees can cost, with all the copper there is in these groups.
      set(tops);
      const bottom = costOfPart(touched);
      // Thinner than this a group leaves somebody short however thick the others are.
      list.forEach((g, k) => {
        // One by itself is gone through in order anyway.
        for (let r = floors[k] ?? 0; list.length > 1 && r < (tops[k] ?? 0); r = above[r] ?? Infinity) {
          setGroup(g, r);
          floors[k] = r;
          if (costOfPart(touched).short <= bottom.short) break;
          floors[k] = above[r] ?? r;
        }
        setGroup(g, tops[k] ?? 0);
      });
      const restFrom = list.map((_, k) =>
        list.slice(k + 1).reduce((sum, g, n) => sum + groupCost(g, floors[k + 1 + n] ?? 0), 0),
      );
      const search = (k: number, chosen: readonly number[], spent: number, bound: Cost): void => {
        if (k === list.length) {
          const total = plus(bound, { short: 0, sum: spent });
          if (canBeat(total)) {
            best = total;
            isGuess = false;
            bestCore = [...chosen];
          }
          return;
        }
        const rest = restFrom[k] ?? 0;
        for (let r = floors[k] ?? 0; r <= (tops[k] ?? 0); r = above[r] ?? Infinity) {
          const here = spent + groupCost(list[k] ?? 0, r);
          const least: Cost = { short: 0, sum: here + rest };
          if (!canBeat(plus(bound, least))) break;
          if (evaluations >= most || hanging.laid() > MOST_LAID * circuits.length) {
            proved = false;
            return;
          }
          const tried = [...chosen, r];
          set([...tried, ...tops.slice(k + 1)]);
          const trees = costOfPart(touched);
          if (canBeat(plus(trees, least))) search(k + 1, tried, here, trees);
          // Nothing more is to be had from the last group: the trees already cost the least that they can. One before it, thicker, may let it be thinner.
          if (k === list.length - 1 && !less(bound, trees)) break;
        }
      };
      search(0, [], 0, bottom);
      set(bestCore);
    }
  }

  evaluations++;
  weigher.solveCore(rungs);
  for (const root of model.roots) hanging.settle(root);
  weigher.layAll(rungs);
  let sum = 0;
  circuits.forEach((c, i) => {
    if (c.leader >= 0) rungs[i] = rungs[c.leader] ?? 0;
    sum += costOf(c, rungs[i] ?? 0);
    if (c.rungs !== null && !isFixed(c) && !weigher.fits(c)) short[i] = 1;
  });
  for (const c of circuits) if (short[c.leader] === 1) short[c.position] = 1;
  return { rungs, short, sum, proved: proved && hanging.exact(), evaluations, open: null };
}

/** How many of these core circuits do not have what they need. */
function coreShort(weigher: Weigher, core: readonly number[]): Cost {
  let short = 0;
  for (const i of core) {
    const c = weigher.model.circuits[i];
    if (c === undefined) continue;
    if (!weigher.fits(c)) short++;
    if (c.charging !== null && weigher.chargingDrop(c).volts > c.charging.limitVolts + 1e-7) short++;
  }
  return { short, sum: 0 };
}
