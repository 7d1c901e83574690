import type { Settled } from "../../size/index.ts";

/**
 * Pieces of metal that carry current, by node of the grid: what conductors and closed contacts hold together. Protective conductors carry none.
 *
 * @param isClosed of an edge of the grid
 */
export function piecesOf({ model }: Pick<Settled, "model">, isClosed: (edge: number) => boolean): Int32Array {
  const { grid, system } = model;
  const sets = disjointSets(grid.nodeCount);
  grid.edges.forEach((edge, e) => {
    const { a, b, circuit, conductor } = edge;
    if (circuit >= 0 && system.circuits[circuit]?.conductors[conductor]?.role === "protective") return;
    if (isClosed(e)) sets.unite(a, b);
  });
  return Int32Array.from({ length: grid.nodeCount }, (_, n) => sets.root(n));
}

export interface DisjointSets {
  /** The member that stands for all of its set: always the same one until it is united with another. */
  readonly root: (member: number) => number;
  readonly unite: (a: number, b: number) => void;
}

/** Members 0 … count − 1, each a set of its own until united. */
export function disjointSets(count: number): DisjointSets {
  const parent = Int32Array.from({ length: count }, (_, n) => n);
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
    const [ra, rb] = [root(a), root(b)];
    parent[Math.max(ra, rb)] = Math.min(ra, rb);
  };
  return { root, unite };
}
