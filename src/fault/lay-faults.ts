import { prepareLdlt, type SparseLdlt } from "../network/sparse-ldlt.ts";
import { shapeMetal, type FaultCase, type FaultMetal, type FaultPorts, type FaultShape } from "./fault-metal.ts";
import { keyOfSet } from "./key-of-set.ts";

/** A network of metal and sources whose pattern is worked out; cases are laid over it one after the other. */
export interface PreparedFaults {
  readonly shape: FaultShape;
  lay(one: FaultCase): LaidFaults;
}

/** One case, factored once. Numbers of the core are asked for by place in the core. */
export interface LaidFaults {
  readonly shape: FaultShape;
  readonly one: FaultCase;
  /** By core node: the piece that it is joined to through closed edges and sources that are on. */
  readonly pieceOf: Int32Array;
  /** Volts by core node while nothing is shorted, each limited source taken as its volts behind volts ÷ amps. */
  readonly restVolts: Float64Array;
  /** Volts of every core node for one ampere into this one, which comes back at the node that its piece is measured from. */
  column(coreNode: number): Float64Array;
  /** The limited sources that are on in a piece. */
  limitedIn(piece: number): LimitedHere;
  /** What stands between two points of the core that were asked for, by the number that the asker gives the pair. */
  readonly pairs: Map<number, CorePair>;
  /** The same case with edges taken out; asked for again, the same answer. */
  without(edges: readonly number[]): LaidFaults;
}

/** Limited sources of a piece, in one order throughout. */
export interface LimitedHere {
  /** Their places in the list of the ports. */
  readonly on: readonly number[];
  readonly volts: readonly number[];
  readonly amps: readonly number[];
  /** Volts across each while nothing is shorted. */
  readonly restVolts: readonly number[];
  /** Volts of every core node for one ampere that each pushes. */
  readonly pushed: readonly Float64Array[];
  /** Volts across each for one ampere that another pushes. */
  readonly between: readonly (readonly number[])[];
}

/** A node of the core, the share of the fault's current that is drawn there, and what an ampere there does to all volts. */
export interface Weight {
  readonly node: number;
  readonly share: number;
  readonly column: Float64Array;
}

/** What the core shows between two points of it; beyond a tree's foot all places see the same. */
export interface CorePair {
  readonly weights: readonly Weight[];
  readonly ohms: number;
  readonly openVolts: number;
  readonly limited: LimitedHere;
  /** Volts between the points for an ampere that each limited source pushes. */
  readonly atFault: readonly number[];
}

const NO_LIMITED: LimitedHere = { on: [], volts: [], amps: [], restVolts: [], pushed: [], between: [] };

/** Conductance by which a piece is tied to nought at one node; no current flows in it, since what goes in comes back. */
const TIE = 1;

/**
 * Prepares faults in a network.
 *
 * Loads are left out: beside a fault they take nothing.
 *
 * @param ports between which sources stand
 */
export function prepareFaults(metal: FaultMetal, ports: FaultPorts): PreparedFaults {
  const shape = shapeMetal(metal, ports);
  const { coreOf, coreCount, coreEdges } = shape;
  const from: number[] = [];
  const to: number[] = [];
  const link = (a: number, b: number): void => {
    from.push(coreOf[a] ?? 0);
    to.push(coreOf[b] ?? 0);
  };
  for (const e of coreEdges) link(metal.edges[e]?.a ?? 0, metal.edges[e]?.b ?? 0);
  for (const { plus, minus } of [...ports.stores, ...ports.limited]) link(plus, minus);
  const pattern = { from: Int32Array.from(from), to: Int32Array.from(to) };
  const matrix = prepareLdlt(coreCount, pattern.from, pattern.to);
  const lay = (one: FaultCase): LaidFaults => layCase(shape, pattern, matrix.another(), one);
  return { shape, lay };
}

interface Pattern {
  readonly from: Int32Array;
  readonly to: Int32Array;
}

function layCase(shape: FaultShape, pattern: Pattern, matrix: SparseLdlt, one: FaultCase): LaidFaults {
  const { coreCount, coreEdges, ports } = shape;
  const n = coreCount;
  const edgeCount = coreEdges.length;
  const storeCount = ports.stores.length;
  const siemens = new Float64Array(pattern.from.length);
  for (let k = 0; k < edgeCount; k++) siemens[k] = 1 / (one.ohms[coreEdges[k] ?? 0] ?? Infinity);
  for (let s = 0; s < storeCount; s++) siemens[edgeCount + s] = 1 / (one.storeOhms[s] ?? Infinity);
  for (let k = 0; k < ports.limited.length; k++)
    siemens[edgeCount + storeCount + k] = (one.limitedAmps[k] ?? 0) / (one.limitedVolts[k] ?? 1);

  const pieceOf = findPieces(n, pattern, siemens);
  for (let i = 0; i < n; i++) matrix.diagonal[i] = pieceOf[i] === i ? TIE : 0;
  matrix.beside.fill(0);
  const rest = new Float64Array(n);
  for (let k = 0; k < siemens.length; k++) {
    const [p, m, g] = [pattern.from[k] ?? 0, pattern.to[k] ?? 0, siemens[k] ?? 0];
    if (g === 0 || p === m) continue;
    const slot = matrix.slots[k] ?? 0;
    matrix.diagonal[p] = (matrix.diagonal[p] ?? 0) + g;
    matrix.diagonal[m] = (matrix.diagonal[m] ?? 0) + g;
    matrix.beside[slot] = (matrix.beside[slot] ?? 0) - g;
    const s = k - edgeCount;
    if (s < 0) continue;
    const volts = s < storeCount ? (one.storeVolts[s] ?? 0) : (one.limitedVolts[s - storeCount] ?? 0);
    rest[p] = (rest[p] ?? 0) + g * volts;
    rest[m] = (rest[m] ?? 0) - g * volts;
  }
  const failed = matrix.factor();
  if (failed >= 0) throw new Error(`the matrix of a fault is not positive at node ${failed}`);
  matrix.solve(rest);

  const columns: (Float64Array | undefined)[] = [];
  const column = (node: number): Float64Array => {
    let x = columns[node];
    if (x === undefined) {
      x = new Float64Array(n);
      x[node] = 1;
      matrix.solve(x);
      columns[node] = x;
    }
    return x;
  };
  const limitedOf = new Map<number, number[]>();
  ports.limited.forEach(({ plus }, k) => {
    if ((one.limitedAmps[k] ?? 0) <= 0) return;
    const piece = pieceOf[shape.coreOf[plus] ?? 0] ?? 0;
    limitedOf.set(piece, [...(limitedOf.get(piece) ?? []), k]);
  });
  const here = new Map<number, LimitedHere>();
  const limitedIn = (piece: number): LimitedHere => {
    let found = here.get(piece);
    if (found === undefined) {
      const on = limitedOf.get(piece);
      found = on === undefined ? NO_LIMITED : gatherLimited(shape, one, on, rest, column);
      here.set(piece, found);
    }
    return found;
  };
  const known = new Map<number | string, LaidFaults>();
  const without = (edges: readonly number[]): LaidFaults => {
    const key = keyOfSet(edges, one.ohms.length);
    let laid = known.get(key);
    if (laid === undefined) {
      const ohms = one.ohms.slice();
      for (const e of edges) ohms[e] = Infinity;
      // Its own factors: those of this case are still asked.
      laid = layCase(shape, pattern, matrix.another(), { ...one, ohms });
      known.set(key, laid);
    }
    return laid;
  };
  return { shape, one, pieceOf, restVolts: rest, column, limitedIn, pairs: new Map<number, CorePair>(), without };
}

function gatherLimited(
  { ports, coreOf }: FaultShape,
  one: FaultCase,
  on: readonly number[],
  restVolts: Float64Array,
  column: (node: number) => Float64Array,
): LimitedHere {
  const nodes = on.map((k): [number, number] => {
    const port = ports.limited[k];
    return [coreOf[port?.plus ?? 0] ?? 0, coreOf[port?.minus ?? 0] ?? 0];
  });
  const pushed = nodes.map(([plus, minus]) => {
    const back = column(minus);
    return column(plus).map((v, i) => v - (back[i] ?? 0));
  });
  const across = (volts: Float64Array): number[] => nodes.map(([p, m]) => (volts[p] ?? 0) - (volts[m] ?? 0));
  const by = pushed.map(across);
  return {
    on,
    volts: on.map((k) => one.limitedVolts[k] ?? 0),
    amps: on.map((k) => one.limitedAmps[k] ?? 0),
    restVolts: across(restVolts),
    pushed,
    between: on.map((_, k) => by.map((volts) => volts[k] ?? 0)),
  };
}

/** By node the least node that it is joined to. */
function findPieces(n: number, { from, to }: Pattern, siemens: Float64Array): Int32Array {
  const parent = Int32Array.from({ length: n }, (_, i) => i);
  const root = (i: number): number => {
    let at = i;
    for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) {
      parent[at] = parent[up] ?? up;
      at = up;
    }
    return at;
  };
  for (let k = 0; k < from.length; k++) {
    if (siemens[k] === 0) continue;
    const [a, b] = [root(from[k] ?? 0), root(to[k] ?? 0)];
    if (a !== b) parent[Math.max(a, b)] = Math.min(a, b);
  }
  return parent.map((_, i) => root(i));
}
