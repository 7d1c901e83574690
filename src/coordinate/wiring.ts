import type { Grid, Trees } from "../system/index.ts";
import { stripTrees } from "../system/strip-trees.ts";

/** A grid taken apart once: what an open edge of a tree cuts off is what hangs on it, so that only the core has to be walked. */
export interface Wiring {
  readonly grid: Grid;
  readonly trees: Trees;
  /** Edges from each node to its foot; 0 for nodes of the core. */
  readonly depth: Int32Array;
  /** By edge of a tree the node at its far end; −1: an edge of the core. */
  readonly beyond: Int32Array;
  /** Edges of the core at each node. */
  readonly coreAt: readonly (readonly number[])[];
}

const known = new WeakMap<Grid, Wiring>();

/** Takes a grid apart, so that all that feeds anything stands in the core. */
export function wiringOf(grid: Grid): Wiring {
  let wiring = known.get(grid);
  if (wiring === undefined) known.set(grid, (wiring = takeApart(grid)));
  return wiring;
}

function takeApart(grid: Grid): Wiring {
  const kept = new Uint8Array(grid.nodeCount);
  for (const { plus } of grid.stores) kept[plus] = 1;
  for (const { in: input, out } of grid.converters) {
    kept[out.plus] = 1;
    if (input !== null) kept[input.plus] = 1;
  }
  const trees = stripTrees(grid, kept);
  const depth = new Int32Array(grid.nodeCount);
  const beyond = new Int32Array(grid.edges.length).fill(-1);
  for (const n of trees.order) {
    depth[n] = (depth[trees.above[n] ?? n] ?? 0) + 1;
    const e = trees.up[n] ?? -1;
    if (e >= 0) beyond[e] = n;
  }
  const coreAt = grid.at.map((edges) => edges.filter((e) => trees.isTree[e] === 0));
  return { grid, trees, depth, beyond, coreAt };
}

/** Whether the way of a node to its foot leads through an edge of a tree. */
export function hangsOn({ trees, depth, beyond }: Wiring, node: number, edge: number): boolean {
  const end = beyond[edge] ?? -1;
  if (end < 0) return false;
  const least = depth[end] ?? 0;
  let at = node;
  while ((depth[at] ?? 0) > least) at = trees.above[at] ?? at;
  return at === end;
}

/** Marks the nodes of the core that are reached from one of them, some edges being open. */
export function walkCore({ grid, coreAt }: Wiring, from: number, open: readonly number[], seen: Uint8Array): void {
  if (seen[from] === 1) return;
  seen[from] = 1;
  const queue = [from];
  for (let i = 0; i < queue.length; i++) {
    const node = queue[i] ?? 0;
    for (const e of coreAt[node] ?? []) {
      const edge = grid.edges[e];
      if (edge === undefined || open.includes(e)) continue;
      const next = edge.a === node ? edge.b : edge.a;
      if (seen[next] === 1) continue;
      seen[next] = 1;
      queue.push(next);
    }
  }
}

/** Tells how many edges lie between two nodes at least; −1: no metal joins them. */
export function stepsIn(wiring: Wiring): (from: number, to: number) => number {
  const { grid, trees, depth, coreAt } = wiring;
  const fromFoot = new Map<number, Int32Array>();
  const stepsInCore = (from: number): Int32Array => {
    let steps = fromFoot.get(from);
    if (steps === undefined) {
      fromFoot.set(from, (steps = new Int32Array(grid.nodeCount).fill(-1)));
      steps[from] = 0;
      const queue = [from];
      for (let i = 0; i < queue.length; i++) {
        const node = queue[i] ?? 0;
        for (const e of coreAt[node] ?? []) {
          const edge = grid.edges[e];
          const next = edge === undefined ? node : edge.a === node ? edge.b : edge.a;
          if (steps[next] !== -1) continue;
          steps[next] = (steps[node] ?? 0) + 1;
          queue.push(next);
        }
      }
    }
    return steps;
  };
  return (from, to) => {
    let [a, b, steps] = [from, to, 0];
    while (a !== b) {
      const [deepA, deepB] = [depth[a] ?? 0, depth[b] ?? 0];
      if (deepA === 0 && deepB === 0) {
        const core = stepsInCore(a)[b] ?? -1;
        return core < 0 ? -1 : core + steps;
      }
      if (deepA >= deepB) a = trees.above[a] ?? a;
      else b = trees.above[b] ?? b;
      steps++;
    }
    return steps;
  };
}
