import type { Settled } from "../../size/index.ts";

/**
 * Pieces of metal that carry current, by node of the grid: what conductors and closed contacts hold together. Protective conductors carry none.
 *
 * @param isClosed of an edge of the grid
 */
export function piecesOf({ model }: Pick<Settled, "model">, isClosed: (edge: number) => boolean): Int32Array {
  const { grid, system } = model;
  const sets = disjointSets(grid.nodeCount);
  grid.edges.forEach(({ a, b, circuit, conductor }, e) => {
    if (circuit >= 0 && system.circuits[circuit]?.conductors[conductor]?.role === "protective") return;
    if (isClosed(e)) sets.unite(a, b);
  });
  return sets.roots();
}

const joined = new WeakMap<Settled["model"], Int32Array>();

/** Pieces of metal while every contact is closed. */
export function joinedPieces({ model }: Pick<Settled, "model">): Int32Array {
  let pieces = joined.get(model);
  if (pieces === undefined) joined.set(model, (pieces = piecesOf({ model }, () => true)));
  return pieces;
}

export interface DisjointSets {
  /** The member that stands for all of its set: always the same one until it is united with another. */
  readonly root: (member: number) => number;
  readonly unite: (a: number, b: number) => void;
  /** By member. */
  readonly roots: () => Int32Array;
}

/** Members 0 … count − 1, each a set of its own until united. */
export function disjointSets(count: number): DisjointSets {
  const parent = new Int32Array(count);
  for (let n = 0; n < count; n++) parent[n] = n;
  const root = (member: number): number => {
    let at = member;
    for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) {
      parent[at] = parent[up] ?? up;
      at = up;
    }
    return at;
  };
  // The earlier one stands for both.
  const unite = (a: number, b: number): void => {
    const ra = root(a);
    const rb = root(b);
    if (ra < rb) parent[rb] = ra;
    else parent[ra] = rb;
  };
  const roots = (): Int32Array => {
    const all = new Int32Array(count);
    for (let n = 0; n < count; n++) all[n] = root(n);
    return all;
  };
  return { root, unite, roots };
}
