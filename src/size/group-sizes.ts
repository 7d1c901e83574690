import type { Grid } from "../system/index.ts";
import { isFixed } from "./cost.ts";
import type { CircuitModel, Model } from "./model.ts";

/** Finds which circuits get one size: leads of equal batteries, and those that the plan puts together. */
export function groupSizes(grid: Grid, circuits: readonly CircuitModel[]): Pick<Model, "coreGroups" | "sizeGroups"> {
  const core = groupCore(grid, circuits);
  const asked = circuits.filter((c) => c.circuit.sameSizeAs !== undefined && !isFixed(c));
  if (asked.length === 0) return { coreGroups: core, sizeGroups: [] };
  const positions = new Map(asked.map((c) => [c.circuit.id, c.position]));
  let lists: number[][] = [...core];
  for (const c of asked) {
    const group = new Set([c.position, ...(c.circuit.sameSizeAs ?? []).flatMap((id) => positions.get(id) ?? [])]);
    // A lead of a battery brings its equals along.
    const touched = lists.filter((list) => list.some((i) => group.has(i)));
    for (const list of touched) for (const i of list) group.add(i);
    lists = [...lists.filter((list) => !touched.includes(list)), [...group].sort((a, b) => a - b)];
  }
  const isCore = (i: number): boolean => circuits[i]?.radial === false;
  const coreGroups = [
    ...lists.filter((list) => list.every(isCore)),
    ...core.filter((list) => isMixed(lists, list, isCore)),
  ];
  return {
    coreGroups: coreGroups.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0)),
    sizeGroups: lists.filter((list) => list.length > 1 && !list.every(isCore)),
  };
}

/** Whether a group of the core is part of a group that reaches beyond it. */
const isMixed = (
  lists: readonly (readonly number[])[],
  list: readonly number[],
  isCore: (i: number) => boolean,
): boolean => lists.some((other) => !other.every(isCore) && list.every((i) => other.includes(i)));

/** Circuits of the core; leads of equal batteries that meet at one terminal go together. */
function groupCore(grid: Grid, circuits: readonly CircuitModel[]): number[][] {
  const storeAt = new Map(grid.stores.map((s) => [s.plus, s.element]));
  const groups: number[][] = [];
  const leads = new Map<string, number[]>();
  circuits.forEach((c, i) => {
    if (c.radial || c.rungs === null || c.leader >= 0) return;
    const live = c.circuit.conductors.find((k) => k.role === "live");
    if (live !== undefined && c.circuit.size === undefined) {
      const a = grid.nodeOf(live.from);
      const b = grid.nodeOf(live.to);
      const store = storeAt.get(a) ?? storeAt.get(b);
      if (store !== undefined) {
        const meets = storeAt.has(a) ? b : a;
        const key = `${meets} ${store.curve} ${store.nominalVolts} ${store.ohms.high}`;
        const there = leads.get(key);
        if (there !== undefined) {
          there.push(i);
          return;
        }
        const group = [i];
        leads.set(key, group);
        groups.push(group);
        return;
      }
    }
    groups.push([i]);
  });
  // A return that shares a size goes where that is chosen.
  return groups.map((group) =>
    group.flatMap((i) => ((circuits[i]?.follower ?? -1) < 0 ? [i] : [i, circuits[i]?.follower ?? i])),
  );
}
