/**
 * Nodes that are one node, because nothing but resistors of 0 Ω stands between them, and what flows in those resistors.
 *
 * The joined nodes hang together in a tree of joins; what flows in a join of the tree is what all nodes on its far side
 * need together (Kirchhoff's current law for that part). A join beyond the tree closes a ring of no resistance at all:
 * how the current divides round it cannot be known, and it is said so of each join of the ring.
 */

const NONE = -1;

export interface Joined {
  /** Nodes after joining. */
  readonly count: number;
  /** By node: the node it has become. */
  readonly of: Int32Array;
  /** Nodes in an order in which each comes after the one it hangs on. */
  readonly walk: Int32Array;
  /** By node: the node it hangs on, or −1 at the top of each tree. */
  readonly above: Int32Array;
  /** By node: the join it hangs by (index into the joins given), or −1. */
  readonly via: Int32Array;
  /** By join: 1 = it is part of a ring. */
  readonly ring: Uint8Array;
}

/**
 * Joins nodes.
 *
 * @param nodeCount nodes before joining
 * @param from one end of each join
 * @param to its other end
 * @example three nodes, the last two joined
 * const joined = joinNodes(3, Int32Array.of(1), Int32Array.of(2));
 * joined.count //=> 2
 * joined.of[1] === joined.of[2] //=> true
 */
export function joinNodes(nodeCount: number, from: Int32Array, to: Int32Array): Joined {
  const n = nodeCount;
  const joins = from.length;
  const degree = new Int32Array(n + 1);
  for (let j = 0; j < joins; j++) {
    const a = from[j] ?? 0;
    const b = to[j] ?? 0;
    degree[a] = (degree[a] ?? 0) + 1;
    degree[b] = (degree[b] ?? 0) + 1;
  }
  const start = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) start[i + 1] = (start[i] ?? 0) + (degree[i] ?? 0);
  const incident = new Int32Array(joins * 2);
  const cursor = start.slice();
  for (let j = 0; j < joins; j++) {
    for (const node of [from[j] ?? 0, to[j] ?? 0]) {
      const at = cursor[node] ?? 0;
      incident[at] = j;
      cursor[node] = at + 1;
    }
  }

  const of = new Int32Array(n).fill(NONE);
  const walk = new Int32Array(n);
  const above = new Int32Array(n).fill(NONE);
  const via = new Int32Array(n).fill(NONE);
  const depth = new Int32Array(n);
  const ring = new Uint8Array(joins);
  let walked = 0;
  let count = 0;
  for (let top = 0; top < n; top++) {
    if (of[top] !== NONE) continue;
    of[top] = count;
    walk[walked++] = top;
    for (let w = walked - 1; w < walked; w++) {
      const node = walk[w] ?? 0;
      for (let p = start[node] ?? 0; p < (start[node + 1] ?? 0); p++) {
        const j = incident[p] ?? 0;
        const other = from[j] === node ? (to[j] ?? 0) : (from[j] ?? 0);
        if (of[other] !== NONE) continue;
        of[other] = count;
        above[other] = node;
        via[other] = j;
        depth[other] = (depth[node] ?? 0) + 1;
        walk[walked++] = other;
      }
    }
    count++;
  }

  for (let j = 0; j < joins; j++) {
    let a = from[j] ?? 0;
    let b = to[j] ?? 0;
    if (via[a] === j || via[b] === j) continue;
    ring[j] = 1;
    while (a !== b) {
      if ((depth[a] ?? 0) < (depth[b] ?? 0)) [a, b] = [b, a];
      ring[via[a] ?? 0] = 1;
      a = above[a] ?? 0;
    }
  }
  return { count, of, walk, above, via, ring };
}

/**
 * What flows in each join, from the current that the rest of the network takes away at each node.
 *
 * @param taken current that leaves each node other than by joins, A, by node; is written over
 * @param into receives the current of each join from its `from` to its `to`, A; 0 in a join beyond the tree
 */
export function findJoinAmps(joined: Joined, from: Int32Array, taken: Float64Array, into: Float64Array): void {
  into.fill(0);
  for (let w = joined.walk.length - 1; w >= 0; w--) {
    const node = joined.walk[w] ?? 0;
    const j = joined.via[node] ?? NONE;
    if (j === NONE) continue;
    const need = taken[node] ?? 0;
    const top = joined.above[node] ?? 0;
    into[j] = from[j] === node ? -need : need;
    taken[top] = (taken[top] ?? 0) + need;
  }
}
