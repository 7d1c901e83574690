import { sumTrees } from "../system/index.ts";
import type { Model } from "./model.ts";

/** What flows and what is lost in the trees of the build, from the core outwards. */
export interface TreeVolts {
  /** Given cases, the base, and a last column for the sum of ohms. */
  readonly columns: number;
  /** By case and edge: current from the core outwards. */
  readonly flows: readonly Float64Array[];
  /**
   * By node × columns: volts of a node less those of the core node that its tree hangs on, and the ohms between them. Written by `layEdge`.
   */
  readonly lost: Float64Array;
  /** What loads take from now on. @param drawAmps by case and draw */
  update(drawAmps: readonly Float64Array[]): void;
  /** Sets the far end of a tree edge from its near end. */
  layEdge(edge: number, ohms: number): void;
}

/** @param given how many cases are laid: the given states; the base stands behind them */
export function prepareTrees(model: Model, caseCount: number, given: number): TreeVolts {
  const { grid, trees } = model;
  const columns = given + 2;
  const ohmsColumn = given + 1;
  const flows = Array.from({ length: caseCount }, () => new Float64Array(grid.edges.length));
  const lost = new Float64Array(grid.nodeCount * columns);
  const flow = new Float64Array(grid.nodeCount);
  // The same flows by edge × laid cases, so that laying an edge reads one after the other.
  const laid = given + 1;
  const across = new Float64Array(grid.edges.length * laid);
  const drawPlus = Int32Array.from(grid.draws, (d) => d.plus);
  const drawMinus = Int32Array.from(grid.draws, (d) => d.minus);
  // By tree edge: the node beyond it and the one towards the core.
  const far = new Int32Array(grid.edges.length);
  const near = new Int32Array(grid.edges.length);
  for (const n of trees.order) {
    const e = trees.up[n] ?? 0;
    far[e] = n;
    near[e] = trees.above[n] ?? 0;
  }

  const layEdge: TreeVolts["layEdge"] = (edge, ohms) => {
    const to = (far[edge] ?? 0) * columns;
    const from = (near[edge] ?? 0) * columns;
    const flowing = edge * laid;
    for (let g = 0; g < laid; g++) lost[to + g] = (lost[from + g] ?? 0) - (across[flowing + g] ?? 0) * ohms;
    lost[to + ohmsColumn] = (lost[from + ohmsColumn] ?? 0) + ohms;
  };
  return {
    columns,
    flows,
    lost,
    update(drawAmps) {
      flows.forEach((into, j) => {
        flow.fill(0);
        const amps = drawAmps[j];
        for (let d = 0; d < drawPlus.length; d++) {
          const i = amps?.[d] ?? 0;
          const plus = drawPlus[d] ?? 0;
          const minus = drawMinus[d] ?? 0;
          flow[plus] = (flow[plus] ?? 0) + i;
          flow[minus] = (flow[minus] ?? 0) - i;
        }
        sumTrees(trees, flow, into);
        if (j < laid) for (let e = 0; e < into.length; e++) across[e * laid + j] = into[e] ?? 0;
      });
    },
    layEdge,
  };
}
