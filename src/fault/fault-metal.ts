import { stripTrees, type Trees } from "../system/strip-trees.ts";

/** Metal as numbered nodes and the edges between them; a grid is one. */
export interface FaultMetal {
  readonly nodeCount: number;
  readonly edges: readonly { readonly a: number; readonly b: number }[];
  /** Edges at each node. */
  readonly at: readonly (readonly number[])[];
}

/** The two nodes that a source stands between. */
export interface FaultPort {
  readonly plus: number;
  readonly minus: number;
}

/** What can push: sources that hold volts behind a resistance, and sources that push no more than their limit. */
export interface FaultPorts {
  readonly stores: readonly FaultPort[];
  readonly limited: readonly FaultPort[];
}

/** The numbers of one case. */
export interface FaultCase {
  /** By edge, Ω, above 0; Infinity: open. */
  readonly ohms: Float64Array;
  /** By store: volts at rest, and resistance inside, Ω; Infinity: it is off. */
  readonly storeVolts: Float64Array;
  readonly storeOhms: Float64Array;
  /** By limited source: volts that it holds, and the most that it pushes, A; 0: it is off. */
  readonly limitedVolts: Float64Array;
  readonly limitedAmps: Float64Array;
}

/**
 * A place in the metal: a node; a point within an edge, its share of the edge's resistance lying towards `a`; or, once the edge is cut on the other side of
 * the point, the end of a stub of that edge that hangs on a node.
 */
export type FaultPoint =
  | { readonly node: number }
  | { readonly edge: number; readonly share: number }
  | { readonly stub: number; readonly ohms: number; readonly on: "a" | "b" };

/** The metal taken apart: a core in which current may divide and in which every source stands, and trees that hang on it. */
export interface FaultShape {
  readonly metal: FaultMetal;
  readonly ports: FaultPorts;
  readonly trees: Trees;
  /** Place in the core by node; −1: it is of a tree. */
  readonly coreOf: Int32Array;
  readonly coreCount: number;
  /** Edges of the core. */
  readonly coreEdges: Int32Array;
}

/** Takes the metal apart, so that what hangs on the core as a tree costs sums and no equations. */
export function shapeMetal(metal: FaultMetal, ports: FaultPorts): FaultShape {
  const kept = new Uint8Array(metal.nodeCount);
  for (const { plus, minus } of [...ports.stores, ...ports.limited]) kept[plus] = kept[minus] = 1;
  const trees = stripTrees(metal, kept);
  const coreOf = new Int32Array(metal.nodeCount).fill(-1);
  let coreCount = 0;
  for (let n = 0; n < metal.nodeCount; n++) if ((trees.up[n] ?? -1) < 0) coreOf[n] = coreCount++;
  const coreEdges = Int32Array.from(metal.edges.keys()).filter((e) => trees.isTree[e] === 0);
  return { metal, ports, trees, coreOf, coreCount, coreEdges };
}
