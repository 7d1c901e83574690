/**
 * In which order to eliminate the nodes of a network, so that little fill arises.
 *
 * Minimum degree: always take the node with the fewest neighbours left, and join its neighbours with each other, as the
 * elimination will. On a tree that is leaf by leaf, without any fill. What makes it fast on wiring, where a bus bar has
 * hundreds of neighbours, is that no step ever walks the neighbours of a bus bar before its own turn: whether two nodes
 * are neighbours already is asked of one hash table of pairs.
 */

const NONE = -1;

/** Pairs of nodes seen so far; open addressing, a key a cell. */
function makePairSet(nodeCount: number, expected: number): (a: number, b: number) => boolean {
  let size = 64;
  while (size < expected * 4) size *= 2;
  let cells = new Float64Array(size).fill(NONE);
  let count = 0;
  const spot = (lo: number, hi: number, mask: number) =>
    (Math.imul(Math.imul(lo, 0x9e3779b1) ^ hi, 0x85ebca6b) >>> 7) & mask;
  const grow = () => {
    const old = cells;
    size *= 2;
    cells = new Float64Array(size).fill(NONE);
    for (const key of old) {
      if (key === NONE) continue;
      let at = spot(Math.floor(key / nodeCount), key % nodeCount, size - 1);
      while (cells[at] !== NONE) at = (at + 1) & (size - 1);
      cells[at] = key;
    }
  };
  /** Adds the pair; true if it was not there. */
  return (a, b) => {
    const lo = a < b ? a : b;
    const hi = a < b ? b : a;
    const key = lo * nodeCount + hi;
    let at = spot(lo, hi, size - 1);
    for (;;) {
      const cell = cells[at];
      if (cell === key) return false;
      if (cell === NONE) break;
      at = (at + 1) & (size - 1);
    }
    cells[at] = key;
    if (++count * 2 > size) grow();
    return true;
  };
}

/**
 * The order of elimination for a symmetric matrix, by minimum degree.
 *
 * Ties go to the node that came to its degree first, so the same network always gets the same order.
 *
 * @param nodeCount rows of the matrix, ≥ 0
 * @param from one end of each entry off the diagonal, 0…nodeCount − 1; pairs may repeat, and may join a node with
 * itself
 * @param to the other end
 * @returns `order[k]` is the node that is eliminated as number k
 * @source the classical minimum-degree heuristic for sparse symmetric elimination (Tinney and Walker 1967, scheme 2)
 * @example a hub with three leaves: the leaves go first, whatever their numbers
 * findEliminationOrder(4, Int32Array.of(0, 0, 0), Int32Array.of(1, 2, 3)).indexOf(0) >= 2 //=> true
 */
export function findEliminationOrder(nodeCount: number, from: Int32Array, to: Int32Array): Int32Array {
  const n = nodeCount;
  const add = makePairSet(n, from.length);

  // Neighbours as linked lists in three arrays; nodes already eliminated stay in them and are skipped.
  const head = new Int32Array(n).fill(NONE);
  const degree = new Int32Array(n);
  let capacity = Math.max(16, from.length * 4);
  let next = new Int32Array(capacity);
  let neighbour = new Int32Array(capacity);
  let used = 0;
  const link = (a: number, b: number) => {
    if (used === capacity) {
      capacity *= 2;
      const longer = new Int32Array(capacity);
      longer.set(next);
      next = longer;
      const wider = new Int32Array(capacity);
      wider.set(neighbour);
      neighbour = wider;
    }
    neighbour[used] = b;
    next[used] = head[a] ?? NONE;
    head[a] = used++;
    degree[a] = (degree[a] ?? 0) + 1;
  };
  for (let e = 0; e < from.length; e++) {
    const a = from[e] ?? 0;
    const b = to[e] ?? 0;
    if (a === b || !add(a, b)) continue;
    link(a, b);
    link(b, a);
  }

  // One queue a degree: first come, first served.
  const front = new Int32Array(n + 1).fill(NONE);
  const back = new Int32Array(n + 1).fill(NONE);
  const before = new Int32Array(n);
  const after = new Int32Array(n);
  let least = 0;
  const enqueue = (v: number) => {
    const d = degree[v] ?? 0;
    const last = back[d] ?? NONE;
    before[v] = last;
    after[v] = NONE;
    if (last === NONE) front[d] = v;
    else after[last] = v;
    back[d] = v;
    if (d < least) least = d;
  };
  const dequeue = (v: number, d: number) => {
    const p = before[v] ?? NONE;
    const q = after[v] ?? NONE;
    if (p === NONE) front[d] = q;
    else after[p] = q;
    if (q === NONE) back[d] = p;
    else before[q] = p;
  };
  for (let v = 0; v < n; v++) enqueue(v);

  const order = new Int32Array(n);
  const gone = new Uint8Array(n);
  const around = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    while (front[least] === NONE) least++;
    const v = front[least] ?? 0;
    dequeue(v, least);
    order[k] = v;
    gone[v] = 1;
    let count = 0;
    for (let e = head[v] ?? NONE; e !== NONE; e = next[e] ?? NONE) {
      const u = neighbour[e] ?? 0;
      if (gone[u] === 0) around[count++] = u;
    }
    // The node with the fewest neighbours has all that are left: they all are neighbours of each other, any order will
    // do.
    const isClique = count === n - k - 1;
    for (let i = 0; i < count; i++) {
      const u = around[i] ?? 0;
      dequeue(u, degree[u] ?? 0);
    }
    if (!isClique) {
      for (let i = 0; i < count; i++) {
        const u = around[i] ?? 0;
        for (let j = 0; j < i; j++) {
          const w = around[j] ?? 0;
          if (add(u, w)) {
            link(u, w);
            link(w, u);
          }
        }
      }
    } else {
      for (let i = 0; i < count; i++) order[k + 1 + i] = around[i] ?? 0;
      break;
    }
    for (let i = 0; i < count; i++) {
      const u = around[i] ?? 0;
      degree[u] = (degree[u] ?? 1) - 1;
      enqueue(u);
    }
  }
  return order;
}
