import type { Grid } from "../system/index.ts";

/**
 * Finds the loads that no battery reaches when some edges are open, every contact closed. What chargers alone would hold up counts as dark.
 *
 * @param isOpen edges that carry nothing
 * @returns names of parts, in the order of the grid
 */
export function darkLoads(grid: Grid, isOpen: (edge: number) => boolean): string[] {
  const isFed = new Uint8Array(grid.nodeCount);
  const spread = (from: number): void => {
    if (isFed[from] === 1) return;
    isFed[from] = 1;
    const queue = [from];
    for (let i = 0; i < queue.length; i++) {
      const node = queue[i] ?? 0;
      for (const e of grid.at[node] ?? []) {
        const edge = grid.edges[e];
        if (edge === undefined || isOpen(e)) continue;
        const next = edge.a === node ? edge.b : edge.a;
        if (isFed[next] === 1) continue;
        isFed[next] = 1;
        queue.push(next);
      }
    }
  };
  for (const { plus } of grid.stores) spread(plus);
  // What a converter feeds is alive where its input is.
  for (let changed = true; changed;) {
    changed = false;
    for (const { in: input, out } of grid.converters) {
      if ((input !== null && isFed[input.plus] !== 1) || isFed[out.plus] === 1) continue;
      spread(out.plus);
      changed = true;
    }
  }
  const dark = grid.draws.flatMap(({ element, inverter, plus }) =>
    isFed[plus] === 1 ? [] : [(inverter ?? element).part],
  );
  return [...new Set(dark)];
}
