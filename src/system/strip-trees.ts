/** Nodes and edges, whatever else is known of them. */
interface Graph {
  readonly nodeCount: number;
  readonly edges: readonly { readonly a: number; readonly b: number }[];
  /** Edges at each node. */
  readonly at: readonly (readonly number[])[];
}

/**
 * The grid taken apart into a core, where current may divide, and trees that hang on it, where what flows in an edge is the sum of
 * the loads beyond.
 *
 *     core ──● node kept ──edge──● ──edge──● load
 *            │
 *            └──edge──● load
 */
export interface Trees {
  /** Edge that leads from each stripped node towards the core; −1 for nodes of the core. */
  readonly up: Int32Array;
  /** Node at the other end of that edge. */
  readonly above: Int32Array;
  /** Node of the core that each node hangs on; itself for one of the core. */
  readonly foot: Int32Array;
  /** Stripped nodes, those next to the core first. */
  readonly order: Int32Array;
  /** By edge: 1 where it belongs to a tree. */
  readonly isTree: Uint8Array;
}

/**
 * Strips dead ends from a graph again and again until only loops, sources and the paths between them are left.
 *
 * @param kept nodes that stay in the core: terminals of sources, and what else must not be stripped
 */
export function stripTrees(grid: Graph, kept: Uint8Array): Trees {
  const { nodeCount, edges, at } = grid;
  const degree = new Int32Array(nodeCount);
  for (let n = 0; n < nodeCount; n++) degree[n] = at[n]?.length ?? 0;
  const up = new Int32Array(nodeCount).fill(-1);
  const above = new Int32Array(nodeCount).fill(-1);
  const isTree = new Uint8Array(edges.length);
  const stripped: number[] = [];
  const queue: number[] = [];
  for (let n = 0; n < nodeCount; n++) if (degree[n] === 1 && kept[n] === 0) queue.push(n);
  for (let i = 0; i < queue.length; i++) {
    const n = queue[i] ?? 0;
    if (degree[n] !== 1) continue;
    for (const e of at[n] ?? []) {
      const edge = edges[e];
      if (edge === undefined || isTree[e] === 1) continue;
      isTree[e] = 1;
      const other = edge.a === n ? edge.b : edge.a;
      up[n] = e;
      above[n] = other;
      stripped.push(n);
      degree[n] = 0;
      const left = (degree[other] ?? 0) - 1;
      degree[other] = left;
      if (left === 1 && kept[other] === 0) queue.push(other);
    }
  }
  const order = Int32Array.from(stripped).reverse();
  const foot = new Int32Array(nodeCount);
  for (let n = 0; n < nodeCount; n++) foot[n] = n;
  for (const n of order) foot[n] = foot[above[n] ?? n] ?? n;
  return { up, above, foot, order, isTree };
}

/**
 * Sums what hangs on each node up the trees.
 *
 * @param flow by node: current that leaves the grid there (into a load's plus), negative where it comes back; is changed so that each
 * node of the core holds all that hangs on it
 * @param into by edge: current from the core outwards, signed as `flow`; only edges of trees are written
 */
export function sumTrees(trees: Trees, flow: Float64Array, into: Float64Array): void {
  const { order, up, above } = trees;
  for (let i = order.length - 1; i >= 0; i--) {
    const n = order[i] ?? 0;
    const f = flow[n] ?? 0;
    into[up[n] ?? 0] = f;
    const a = above[n] ?? 0;
    flow[a] = (flow[a] ?? 0) + f;
  }
}
