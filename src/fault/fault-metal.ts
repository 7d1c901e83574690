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

/** An edge of a fault's path. */
export interface EdgeFlow {
  readonly edge: number;
  /** Current into the edge at `a` and out of it at `b`, A; other than equal only where the fault lies within it. */
  readonly atA: number;
  readonly atB: number;
}

/** How a place of a tree hangs on the core. */
export interface Way {
  /** Node of the core, by its place there. */
  readonly foot: number;
  /** Edges from the place to the core, with current for one ampere of fault drawn at it. */
  readonly flows: readonly EdgeFlow[];
}

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
  /** Their ends, by place in the core. */
  readonly coreA: Int32Array;
  readonly coreB: Int32Array;
  /** Ways that were asked for, by node, and by edge of a tree for what lies within it. */
  readonly ways: (Way | undefined)[];
  readonly waysWithin: (Way | undefined)[];
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
  const coreA = coreEdges.map((e) => coreOf[metal.edges[e]?.a ?? 0] ?? 0);
  const coreB = coreEdges.map((e) => coreOf[metal.edges[e]?.b ?? 0] ?? 0);
  return { metal, ports, trees, coreOf, coreCount, coreEdges, coreA, coreB, ways: [], waysWithin: [] };
}

/** The way of a node, which is the same in every case. */
export function wayOf({ ways, trees, metal, coreOf }: FaultShape, node: number): Way {
  let way = ways[node];
  if (way === undefined) {
    const flows: EdgeFlow[] = [];
    let at = node;
    for (let e = trees.up[at] ?? -1; e >= 0; e = trees.up[at] ?? -1) {
      const flow = metal.edges[e]?.b === at ? 1 : -1;
      flows.push({ edge: e, atA: flow, atB: flow });
      at = trees.above[at] ?? 0;
    }
    ways[node] = way = { foot: coreOf[at] ?? 0, flows };
  }
  return way;
}

/** The way of a point within an edge of a tree: what feeds it comes from the side of the core. */
export function wayWithin(shape: FaultShape, edge: number): Way {
  let way = shape.waysWithin[edge];
  if (way === undefined) {
    const ends = shape.metal.edges[edge];
    const fromA = isFromA(shape, edge);
    const { foot, flows } = wayOf(shape, (fromA ? ends?.a : ends?.b) ?? 0);
    way = { foot, flows: [{ edge, atA: fromA ? 1 : 0, atB: fromA ? 0 : -1 }, ...flows] };
    shape.waysWithin[edge] = way;
  }
  return way;
}

/** Whether the end `a` of an edge of a tree lies towards the core. */
export const isFromA = ({ trees, metal }: FaultShape, edge: number): boolean =>
  trees.up[metal.edges[edge]?.b ?? -1] === edge;
