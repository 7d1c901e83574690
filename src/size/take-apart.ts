import type { Weigher } from "./weigher.ts";

/** Groups of the core that touch the same loads, and what they touch. */
export interface Touched {
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
export function takeApart(
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
