import { openFrom, type Bounds } from "./bounds.ts";
import { costOf, isFixed, less, NOTHING, plus, type Cost } from "./cost.ts";
import { runOhms } from "./ladder.ts";
import type { Model } from "./model.ts";
import type { Weigher } from "./weigher.ts";

/** What the settling of trees starts from and writes to; all by circuit. */
export interface Setting {
  readonly bounds: Bounds;
  /** The rungs that are chosen; those of the core are read. */
  readonly rungs: Int32Array;
  /** A guess at them. */
  readonly before: Int32Array;
}

/** Settles trees on the core as it was solved last. */
export interface Settling {
  /** Chooses the sizes of a root and all beyond it, and says what they cost. */
  settle(root: number): Cost;
  /** Whether every tree could be settled by going through all that could be better. */
  exact(): boolean;
  /** How many circuits have been laid so far. */
  laid(): number;
}

/** Circuits that are laid for each circuit of a tree before it is settled step by step instead: far more than any build's feeders ask for. */
const MOST_LAID = 1000;

/**
 * For each size of a feeder its branches take the least that is enough, so a feeder's size is the one with the least sum. Many feeders in
 * series make that long: then every wire starts thin, and what gives most for its cost is made thicker until all have enough.
 */
export function prepareSettling(weigher: Weigher, { bounds, rungs, before }: Setting): Settling {
  const { model } = weigher;
  const { circuits } = model;
  const { floor, top: tops, short, above, below } = bounds;
  /** Where a leaf was found last. */
  const found = Int32Array.from(before, (r) => openFrom(bounds, r));
  const beyond = leastBeyond(model, floor);
  const families = circuits.map((c, i) =>
    c.radial && (c.children.length > 0 || c.parent < 0) ? familyOf(model, i) : [],
  );
  const tooLong = new Set<number>();
  let laid = 0;
  let stopAt = Infinity;
  const lay = (i: number, r: number): void => {
    const c = circuits[i];
    if (c === undefined) return;
    laid++;
    weigher.layCircuit(c, r);
  };

  const settleLeaf = (i: number): Cost => {
    const c = circuits[i];
    if (c === undefined) return NOTHING;
    const from = floor[i] ?? 0;
    const top = tops[i] ?? 0;
    // More copper never loses more, so the least that is enough is one step from one that is not; it mostly is what it was before.
    const enough = (r: number): boolean => {
      lay(i, r);
      return weigher.fits(c);
    };
    let r = Math.min(top, Math.max(from, found[i] ?? 0));
    if (enough(r)) while (r > from && enough(below[r] ?? 0)) r = below[r] ?? 0;
    else {
      do r = above[r] ?? top + 1;
      while (r <= top && !enough(r));
    }
    const none = r > top;
    if (none) r = isFixed(c) ? from : top;
    rungs[i] = found[i] = r;
    return { short: none ? 1 : (short[i] ?? 0), sum: costOf(c, r) };
  };

  const settleTree = (i: number): Cost => {
    const c = circuits[i];
    if (c === undefined) return NOTHING;
    if (c.children.length === 0) return settleLeaf(i);
    let best: Cost | null = null;
    let bestRungs: number[] = [];
    const family = families[i] ?? [];
    for (let r = floor[i] ?? 0; r <= (tops[i] ?? 0); r = above[r] ?? Infinity) {
      // What is settled, and the least that the rest can cost.
      let bound: Cost = { short: 0, sum: costOf(c, r) + (beyond[i] ?? 0) };
      // A thicker feeder with the thinnest branches costs more than the best so far.
      if (laid > stopAt || (best !== null && best.short === 0 && bound.sum >= best.sum)) break;
      lay(i, r);
      rungs[i] = r;
      let cost: Cost = { short: weigher.fits(c) ? 0 : 1, sum: costOf(c, r) };
      for (const child of c.children) {
        const settled = settleTree(child);
        cost = plus(cost, settled);
        const least = (beyond[child] ?? 0) + costOf(circuits[child], floor[child] ?? 0);
        bound = { short: cost.short, sum: bound.sum + settled.sum - least };
        if (best !== null && !less(bound, best)) break;
      }
      if (best === null || less(bound, best)) {
        best = cost;
        bestRungs = family.map((k) => rungs[k] ?? 0);
      }
    }
    family.forEach((k, n) => (rungs[k] = bestRungs[n] ?? rungs[k] ?? 0));
    return best ?? NOTHING;
  };

  /** The circuit on the way to another whose next size saves most ohms for its cost; −1 where none can be thicker. */
  const bestStep = (to: number): number => {
    let best = -1;
    let most = 0;
    for (let k = to; k >= 0; k = circuits[k]?.parent ?? -1) {
      const c = circuits[k];
      const r = rungs[k] ?? 0;
      if (c?.rungs === undefined || c.rungs === null || isFixed(c) || r >= (tops[k] ?? 0)) continue;
      const next = above[r] ?? r;
      const saved = runOhms(c.rungs, r, 0) - runOhms(c.rungs, next, 0);
      const gain = saved / Math.max(costOf(c, next) - costOf(c, r), 1e-9);
      if (gain > most) {
        most = gain;
        best = k;
      }
    }
    return best;
  };

  const settleByStep = (root: number): Cost => {
    const family = families[root] ?? [];
    for (const i of family) rungs[i] = floor[i] ?? 0;
    const hopeless = new Set<number>();
    for (;;) {
      for (const i of family) lay(i, rungs[i] ?? 0);
      const lacking = family.find((i) => {
        const c = circuits[i];
        return c !== undefined && !hopeless.has(i) && !weigher.fits(c);
      });
      if (lacking === undefined) break;
      const step = bestStep(lacking);
      if (step < 0) hopeless.add(lacking);
      else rungs[step] = above[rungs[step] ?? 0] ?? 0;
    }
    let cost = NOTHING;
    for (const i of family) {
      cost = plus(cost, { short: hopeless.has(i) ? 1 : (short[i] ?? 0), sum: costOf(circuits[i], rungs[i] ?? 0) });
    }
    return cost;
  };

  return {
    settle(root) {
      if (!tooLong.has(root)) {
        stopAt = laid + MOST_LAID * Math.max(1, families[root]?.length ?? 1);
        const cost = settleTree(root);
        const ended = laid <= stopAt;
        stopAt = Infinity;
        if (ended) return cost;
        tooLong.add(root);
      }
      return settleByStep(root);
    },
    exact: () => tooLong.size === 0,
    laid: () => laid,
  };
}

/** What all beyond each circuit cost at least. */
function leastBeyond(model: Model, floor: Int32Array): Float64Array {
  const { circuits } = model;
  const result = new Float64Array(circuits.length);
  for (const i of leavesFirst(model)) {
    const up = circuits[i]?.parent ?? -1;
    if (up < 0) continue;
    result[up] = (result[up] ?? 0) + (result[i] ?? 0) + costOf(circuits[i], floor[i] ?? 0);
  }
  return result;
}

/** Radial circuits, each before the one that it hangs on. */
function leavesFirst(model: Model): number[] {
  const order = [...model.roots];
  for (let k = 0; k < order.length; k++) order.push(...(model.circuits[order[k] ?? 0]?.children ?? []));
  return order.reverse();
}

/** A circuit and all that hang on it. */
function familyOf(model: Model, i: number): number[] {
  const family = [i];
  for (let k = 0; k < family.length; k++) family.push(...(model.circuits[family[k] ?? 0]?.children ?? []));
  return family;
}
