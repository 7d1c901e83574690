import type { Grid } from "../system/index.ts";

const known = new WeakMap<Grid, Int32Array>();

/**
 * Numbers the pieces of live metal, every contact closed: what a fault can draw from without passing a converter. Units of one string belong together.
 *
 * @returns by node; nodes with the same number are one piece
 */
export function liveMetal(grid: Grid): Int32Array {
  let pieces = known.get(grid);
  if (pieces === undefined) known.set(grid, (pieces = findPieces(grid)));
  return pieces;
}

function findPieces(grid: Grid): Int32Array {
  const parent = Int32Array.from({ length: grid.nodeCount }, (_, n) => n);
  const root = (node: number): number => {
    let at = node;
    while ((parent[at] ?? at) !== at) {
      const up = parent[at] ?? at;
      parent[at] = parent[up] ?? up;
      at = up;
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    parent[root(b)] = root(a);
  };
  const isLive = new Uint8Array(grid.nodeCount);
  for (const { a, b, live } of grid.edges) {
    if (!live) continue;
    join(a, b);
    isLive[a] = isLive[b] = 1;
  }
  for (const { plus, minus } of grid.stores) if (isLive[minus] === 1) join(plus, minus);
  return Int32Array.from({ length: grid.nodeCount }, (_, n) => root(n));
}
