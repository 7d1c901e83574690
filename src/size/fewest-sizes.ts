import { boundsOf } from "./bounds.ts";
import type { Choose, Chosen } from "./chosen.ts";
import { costOf, isFixed } from "./cost.ts";
import type { Model } from "./model.ts";
import type { Weigher } from "./weigher.ts";

/** Sets of sizes that are settled in full before the choice contents itself with the best so far. */
const MOST_SETS = 150;

/** A set of sizes, and the least that a choice out of it can cost. */
interface Candidate {
  readonly open: Uint8Array;
  readonly bound: number;
}

/**
 * Chooses as few different sizes as there can be without taking more copper than the plan has to spare, and of those choices the one with the least
 * copper. Sizes that the plan pins are there anyway and count as none.
 *
 * Sets of one size, of two, of three are gone through in the order of the least that they can cost: each circuit at the next size of the set that is enough
 * for it when all others are as thick as can be. Only sets whose least is below the best so far are settled in full.
 */
export function chooseFewest(weigher: Weigher, least: Int32Array, choose: Choose, before: Chosen | null): Chosen {
  const { model } = weigher;
  const all = choose(null, before === null ? null : { ...before, open: null });
  const shelf = model.circuits.find((c) => !isFixed(c))?.rungs?.ladder;
  if (shelf === undefined) return all;
  const short = countShort(all);
  const most = all.sum * (1 + model.system.stock.spare);
  const needs = needsOf(weigher, least);
  const metres = new Float64Array(shelf.makes.length);
  let fixed = 0;
  model.circuits.forEach((c, i) => {
    if (isFixed(c)) fixed += costOf(c, 0);
    else metres[needs[i] ?? 0] = (metres[needs[i] ?? 0] ?? 0) + c.paidMetres;
  });
  const pinned = pinnedRungs(
    model,
    shelf.makes.map((m) => m.size.label),
  );
  const used = new Set(model.circuits.flatMap((c, i) => (isFixed(c) ? [] : [all.rungs[i] ?? 0])));
  const enough = [...used].filter((r) => pinned[r] === 0).length;
  let evaluations = all.evaluations;
  let settled = 0;
  for (let count = 0; count < enough; count++) {
    let best: Chosen | null = null;
    let proved = true;
    for (const { open, bound } of setsOf(count, shelf.areas, metres, pinned, most - fixed)) {
      if (best !== null && bound + fixed >= best.sum - 1e-9 * best.sum) break;
      if (settled++ >= MOST_SETS) {
        proved = false;
        break;
      }
      const found = choose(open, best ?? all);
      evaluations += found.evaluations;
      proved &&= found.proved;
      if (countShort(found) > short || found.sum > most * (1 + 1e-9)) continue;
      if (best === null || found.sum < best.sum * (1 - 1e-9)) best = { ...found, rungs: Int32Array.from(found.rungs) };
    }
    if (best !== null) return { ...best, proved: proved && all.proved, evaluations };
    if (!proved) return { ...all, proved: false, evaluations };
  }
  return { ...all, evaluations };
}

const countShort = ({ short }: Chosen): number => short.reduce((n, s) => n + s, 0);

/** 1 where a size of the shelf is in the build whatever is chosen. */
function pinnedRungs({ circuits }: Model, labels: readonly string[]): Uint8Array {
  const there = new Set(
    circuits.flatMap(({ circuit: { size } }) => (size === undefined || size === "unknown" ? [] : [size.label])),
  );
  return Uint8Array.from(labels, (label) => (there.has(label) ? 1 : 0));
}

/** The least rung of each circuit that is enough when all others have all the copper there is. */
function needsOf(weigher: Weigher, least: Int32Array): Int32Array {
  const { model } = weigher;
  const { circuits } = model;
  const { floor, top } = boundsOf(circuits, least, null, null);
  weigher.solveCore(top);
  weigher.layAll(top);
  const needs = Int32Array.from(floor);
  const layBeyond = (i: number): void => {
    for (const k of circuits[i]?.children ?? []) {
      const c = circuits[k];
      if (c !== undefined) weigher.layCircuit(c, top[k] ?? 0);
      layBeyond(k);
    }
  };
  const allFit = (i: number): boolean => {
    const c = circuits[i];
    return c === undefined || (weigher.fits(c) && c.children.every(allFit));
  };
  circuits.forEach((c, i) => {
    if (!c.radial || isFixed(c)) return;
    const last = top[i] ?? 0;
    // What all the copper there is does not mend asks for nothing.
    weigher.layCircuit(c, last);
    layBeyond(i);
    if (allFit(i)) {
      let r = floor[i] ?? 0;
      for (; r < last; r++) {
        weigher.layCircuit(c, r);
        layBeyond(i);
        if (allFit(i)) break;
      }
      needs[i] = r;
    }
    weigher.layCircuit(c, last);
    layBeyond(i);
  });
  return needs;
}

/**
 * Every set of some sizes beside the pinned ones that can be enough, the one that can cost least first.
 *
 * @param metres by rung: conductor that asks for that rung at least, m
 * @param most what may be spent
 */
function setsOf(
  count: number,
  areas: Float64Array,
  metres: Float64Array,
  pinned: Uint8Array,
  most: number,
): Candidate[] {
  const found: Candidate[] = [];
  const open = Uint8Array.from(pinned);
  const greatest = metres.findLastIndex((m) => m > 0);
  /** What asks for a rung above the last open one, up to this one. */
  const upTo = (from: number, to: number): number => {
    let sum = 0;
    for (let r = from; r <= to; r++) sum += metres[r] ?? 0;
    return sum * (areas[to] ?? 0);
  };
  const go = (rung: number, from: number, left: number, spent: number): void => {
    if (spent > most) return;
    if (rung === areas.length) {
      if (left === 0 && from > greatest) found.push({ open: Uint8Array.from(open), bound: spent });
      return;
    }
    if (pinned[rung] === 1) {
      go(rung + 1, rung + 1, left, spent + upTo(from, rung));
      return;
    }
    if (left > 0) {
      open[rung] = 1;
      go(rung + 1, rung + 1, left - 1, spent + upTo(from, rung));
      open[rung] = 0;
    }
    go(rung + 1, from, left, spent);
  };
  go(0, 0, count, 0);
  return found.sort((a, b) => a.bound - b.bound);
}
