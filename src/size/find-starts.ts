import type { Grid, Trees } from "../system/index.ts";
import type { CircuitModel, Starts } from "./model.ts";

/**
 * Finds at which end each circuit starts. How its path is written does not count: a branch starts where it hangs on the build, a circuit of the core at the
 * end that fewer conductors part from a source that does not limit itself, at both where they are equally near.
 *
 * @returns by position of the circuit; neither end where it is fed in the middle of its path
 */
export function findStarts(grid: Grid, trees: Trees, circuits: readonly CircuitModel[]): Starts[] {
  const stiff: number[] = grid.stores.map((s) => s.plus);
  const limited: number[] = [];
  for (const { element, plus } of grid.feeds) (element.selfLimited === true ? limited : stiff).push(plus);
  for (const { element, out } of grid.converters) (element.selfLimited === true ? limited : stiff).push(out.plus);
  const near = conductorsFrom(grid, trees, stiff);
  const nearLimited = conductorsFrom(grid, trees, limited);
  return circuits.map(({ circuit, edges }) => {
    const live = edges.filter((e) => grid.edges[e]?.live === true);
    const first = live[0];
    const last = live.at(-1);
    if (first === undefined || last === undefined) return { from: true, to: false };
    const from = grid.nodeOf(circuit.conductors[grid.edges[first]?.conductor ?? 0]?.from ?? "");
    const to = grid.nodeOf(circuit.conductors[grid.edges[last]?.conductor ?? 0]?.to ?? "");
    if (trees.isTree[first] === 1 || trees.isTree[last] === 1) {
      return { from: trees.up[from] !== first, to: trees.up[to] !== last };
    }
    const gap = (near[from] ?? 0) - (near[to] ?? 0);
    // Both out of reach of any such source: then the others tell.
    const nearer = Number.isNaN(gap) ? (nearLimited[from] ?? 0) - (nearLimited[to] ?? 0) : gap;
    return { from: !(nearer > 0), to: !(nearer < 0) };
  });
}

/** By node of the core: how many conductors part it from the nearest of some nodes; contacts count as none. */
function conductorsFrom(grid: Grid, trees: Trees, nodes: readonly number[]): Float64Array {
  const steps = new Float64Array(grid.nodeCount).fill(Infinity);
  let level = [...nodes];
  for (let step = 0; level.length > 0; step++) {
    const next: number[] = [];
    for (let i = 0; i < level.length; i++) {
      const n = level[i] ?? 0;
      if ((steps[n] ?? 0) <= step) continue;
      steps[n] = step;
      for (const e of grid.at[n] ?? []) {
        const edge = grid.edges[e];
        if (edge === undefined || trees.isTree[e] === 1 || !edge.live) continue;
        (edge.contact === null ? next : level).push(edge.a === n ? edge.b : edge.a);
      }
    }
    level = next;
  }
  return steps;
}
