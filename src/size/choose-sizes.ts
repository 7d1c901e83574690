import { ampacityAt } from "./ladder.ts";
import { copperOf, isFixed, lastRung, less, plus, type Cost } from "./cost.ts";
import type { CircuitModel } from "./model.ts";
import { devicesAllow } from "./devices-allow.ts";
import type { Devices } from "./place-devices.ts";
import type { CircuitCurrents } from "./design-currents.ts";
import { prepareSettling } from "./settle-trees.ts";
import type { Weigher } from "./weigher.ts";

export interface Chosen {
  readonly rungs: Int32Array;
  /** By circuit: nothing on sale meets what it has to meet. */
  readonly short: Uint8Array;
  readonly copper: number;
  /** Whether the search went through every choice that could have been better. */
  readonly proved: boolean;
  readonly evaluations: number;
}

/** Trees are laid no more often than this for each circuit of the build before the search contents itself with the best so far. */
const MOST_LAID = 2000;

/** How many sets of core sizes are looked at before the search contents itself with the best so far. */
export interface SearchLimits {
  readonly evaluations: number;
}

/**
 * First rung of a circuit that carries its current, allows its devices and is not too thin, whatever the volts; one past the last where
 * none does.
 */
export function leastLocal(c: CircuitModel, currents: CircuitCurrents, devices: Devices["circuits"][number]): number {
  if (c.rungs === null) return 0;
  const { rungs } = c;
  const top = rungs.ladder.makes.length;
  for (let r = rungs.least; r < top; r++) {
    const iz = ampacityAt(rungs, r);
    if (currents.steady <= iz + 1e-9 && devicesAllow(c, devices, iz)) return r;
  }
  return top;
}

/**
 * Chooses the sizes with the least copper with which every load has what it needs, the loads' currents held.
 *
 * The trees are settled exactly: for each size of a feeder its branches take the least that is enough, so a feeder's size is the one with the
 * least sum. Over the core goes a branch-and-bound search whose bound is what the trees cost when all core circuits not yet settled have
 * the most copper: more copper in the core never asks for more in the trees.
 *
 * @param least first rung that each circuit may have, from `leastLocal` and from rounds before
 * @param limits null: keep the core as it was chosen before, as far as it still may be, and settle the trees on it
 * @param before the choice of the round before, which is looked at first: mostly it still is the best, and the search then only proves it
 */
export function chooseSizes(
  weigher: Weigher,
  least: Int32Array,
  limits: SearchLimits | null,
  before: Chosen | null,
): Chosen {
  const { model } = weigher;
  const { circuits } = model;
  const rungs = Int32Array.from(least);
  const short = new Uint8Array(circuits.length);
  circuits.forEach((c, i) => {
    const top = lastRung(c);
    if ((rungs[i] ?? 0) > top) {
      rungs[i] = top;
      if (c.rungs !== null && !isFixed(c)) short[i] = 1;
    }
  });
  const floor = Int32Array.from(rungs);
  const hanging = prepareSettling(weigher, { floor, short, rungs, before: before?.rungs ?? rungs });
  let evaluations = 0;

  const groups = model.coreGroups.filter((g) => g.some((i) => !isFixed(circuits[i])));
  const groupTop = groups.map((g) => Math.min(...g.map((i) => lastRung(circuits[i]))));
  const groupFloor = groups.map((g) => Math.max(...g.map((i) => floor[i] ?? 0)));
  const setGroup = (g: number, r: number): void => {
    for (const i of groups[g] ?? []) if (!isFixed(circuits[i])) rungs[i] = r;
  };
  const groupCopper = (g: number, r: number): number =>
    (groups[g] ?? []).reduce((sum, i) => sum + (isFixed(circuits[i]) ? 0 : copperOf(circuits[i], r)), 0);

  /** Cost of the part of the build that a set of groups touches, with the core as it stands. */
  const costOf = (touched: Touched): Cost => {
    evaluations++;
    weigher.solveCore(rungs);
    let cost = coreShort(weigher, touched.core);
    for (const root of touched.roots) cost = plus(cost, hanging.settle(root));
    return cost;
  };

  groups.forEach((g, k) => {
    const was = before === null ? 0 : Math.max(...g.map((i) => before.rungs[i] ?? 0));
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
      set(now);
      let best = plus(costOf(touched), {
        short: 0,
        copper: list.reduce((sum, g, k) => sum + groupCopper(g, now[k] ?? 0), 0),
      });
      const tops = list.map((g) => groupTop[g] ?? 0);
      const floors = list.map((g) => groupFloor[g] ?? 0);
      // The least that the trees can cost, with all the copper there is in these groups.
      set(tops);
      const bottom = costOf(touched);
      // Thinner than this a group leaves somebody short however thick the others are.
      list.forEach((g, k) => {
        // One by itself is gone through in order anyway.
        for (let r = floors[k] ?? 0; list.length > 1 && r < (tops[k] ?? 0); r++) {
          setGroup(g, r);
          floors[k] = r;
          if (costOf(touched).short <= bottom.short) break;
          floors[k] = r + 1;
        }
        setGroup(g, tops[k] ?? 0);
      });
      const restFrom = list.map((_, k) =>
        list.slice(k + 1).reduce((sum, g, n) => sum + groupCopper(g, floors[k + 1 + n] ?? 0), 0),
      );
      const search = (k: number, chosen: readonly number[], spent: number, bound: Cost): void => {
        if (k === list.length) {
          const total = plus(bound, { short: 0, copper: spent });
          if (less(total, best)) {
            best = total;
            bestCore = [...chosen];
          }
          return;
        }
        const rest = restFrom[k] ?? 0;
        for (let r = floors[k] ?? 0; r <= (tops[k] ?? 0); r++) {
          const here = spent + groupCopper(list[k] ?? 0, r);
          const least: Cost = { short: 0, copper: here + rest };
          if (!less(plus(bound, least), best)) break;
          if (evaluations >= most || hanging.laid() > MOST_LAID * circuits.length) {
            proved = false;
            return;
          }
          const tried = [...chosen, r];
          set([...tried, ...tops.slice(k + 1)]);
          const trees = costOf(touched);
          if (less(plus(trees, least), best)) search(k + 1, tried, here, trees);
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
  let copper = 0;
  circuits.forEach((c, i) => {
    copper += copperOf(c, rungs[i] ?? 0);
    if (c.rungs !== null && !isFixed(c) && !weigher.fits(c)) short[i] = 1;
  });
  return { rungs, short, copper, proved: proved && hanging.exact(), evaluations };
}

/** Groups of the core that touch the same loads, and what they touch. */
interface Touched {
  readonly groups: readonly number[];
  /** Radial circuits next to the core. */
  readonly roots: readonly number[];
  /** Circuits of the core with loads of their own, or that charge. */
  readonly core: readonly number[];
}

/** Volts that differ by less are the same. */
const UNTOUCHED = 1e-9;

/**
 * Takes the search apart: groups of core circuits that touch no load in common can be settled one after the other. What touches what is found by giving
 * one group at a time all the copper there is, once beside thin neighbours and once beside thick ones.
 */
function takeApart(
  weigher: Weigher,
  groups: readonly (readonly number[])[],
  floors: readonly number[],
  tops: readonly number[],
  setGroup: (g: number, r: number) => void,
  rungs: Int32Array,
): Touched[] {
  const { model } = weigher;
  const keep = Int32Array.from(rungs);
  const radialRoot = (i: number): number => {
    let at = i;
    for (let up = model.circuits[at]?.parent ?? -1; up >= 0; up = model.circuits[at]?.parent ?? -1) at = up;
    return at;
  };
  // One row for each tree and each core circuit that is judged.
  const rowOf = model.circuits.map((c, i) =>
    c.rungs === null || (c.judged.length === 0 && c.charging === null) ? -1 : c.radial ? radialRoot(i) : i,
  );
  const touches = groups.map(() => new Set<number>());
  const now: number[] = [];
  for (const thick of [false, true]) {
    groups.forEach((_, g) => {
      setGroup(g, (thick ? tops[g] : floors[g]) ?? 0);
    });
    weigher.solveCore(rungs);
    // One list for all, and where each circuit stands in it.
    const plain: number[] = [];
    const first = model.circuits.map((c, i) => {
      const from = plain.length;
      if (rowOf[i] !== -1) weigher.coreSees(c, plain);
      return from;
    });
    groups.forEach((_, g) => {
      setGroup(g, (thick ? floors[g] : tops[g]) ?? 0);
      weigher.solveCore(rungs);
      model.circuits.forEach((c, i) => {
        const row = rowOf[i] ?? -1;
        if (row < 0 || touches[g]?.has(row) === true) return;
        const from = first[i] ?? 0;
        now.length = 0;
        weigher.coreSees(c, now);
        if (now.some((v, k) => Math.abs(v - (plain[from + k] ?? 0)) > UNTOUCHED)) touches[g]?.add(row);
      });
      setGroup(g, (thick ? tops[g] : floors[g]) ?? 0);
    });
  }
  rungs.set(keep);
  const parts: { groups: number[]; rows: Set<number> }[] = [];
  groups.forEach((_, g) => {
    const rows = new Set(touches[g]);
    const mine = [g];
    for (let k = parts.length - 1; k >= 0; k--) {
      const part = parts[k];
      if (part === undefined || ![...part.rows].some((r) => rows.has(r))) continue;
      mine.push(...part.groups);
      for (const r of part.rows) rows.add(r);
      parts.splice(k, 1);
    }
    parts.push({ groups: mine.sort((a, b) => a - b), rows });
  });
  return parts.map(({ groups: list, rows }) => ({
    groups: list,
    roots: [...rows].filter((r) => model.circuits[r]?.radial === true),
    core: [...rows].filter((r) => model.circuits[r]?.radial === false),
  }));
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
  return { short, copper: 0 };
}
