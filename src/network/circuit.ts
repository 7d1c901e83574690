import type { SparseLdlt } from "./sparse-ldlt.ts";

/**
 * The network as the solver works on it: nodes and branches by number, all figures in typed arrays that are written
 * over from one solution to the next. A *branch* is what stands between two nodes; a converter has two, its input and
 * its output.
 */

/** How the current of a branch follows from the volts across it. */
export const LAW = {
  /** i = g·(v − E): resistor (E = 0), store, a draw in ohms. */
  linear: 0,
  /** Pushes (set − v)·g, at least 0, at most its amps and its watts. */
  feed: 1,
  /** Takes its amps, less only where the volts are all but gone. */
  amps: 2,
  /** Takes watts ÷ v, and never more than its amps. */
  watts: 3,
  /** Takes (v − held)·g, at least 0, at most its amps: holds the volts across it from above. */
  clamp: 4,
} as const;

export interface Circuit {
  /** Nodes after joining. */
  readonly nodeCount: number;
  readonly branchCount: number;
  /** Node at either end, by branch; positive current flows through the branch from plus to minus. */
  readonly plus: Int32Array;
  readonly minus: Int32Array;
  /** One of `LAW`, by branch. */
  readonly law: Uint8Array;
  /** 1 = takes part. */
  readonly on: Uint8Array;
  /** Conductance of the sloping part of the law, S. */
  readonly siemens: Float64Array;
  /** E of a linear branch, set point of a feed, held volts of a clamp. */
  readonly volts: Float64Array;
  /** Limit or demand, A; Infinity = none. */
  readonly amps: Float64Array;
  /** Limit or demand, W; Infinity = none. */
  readonly watts: Float64Array;
  /** A draw fades out below these volts, V. */
  readonly fade: Float64Array;
  /**
   * Conductance added in the matrix, and in a current only while `leaks`: keeps it regular where a branch at its limit
   * is all that joins two nodes, S.
   */
  readonly stay: Float64Array;
  /** The stay in the matrix is this many times itself, at least 1. */
  stayTimes: number;
  /** Whether loads of constant power are in the matrix without their negative slope. */
  isSoft: boolean;
  /** Whether feeds also pass stay · (v − set), so that the volts are determined where nothing else determines them. */
  leaks: boolean;

  readonly matrix: SparseLdlt;
  /** Where the branch stands in the matrix beside the diagonal; the cell that is ignored if an end is a reference. */
  readonly place: Int32Array;
  /** By node: 1 = its volts are 0 and stay so. */
  readonly isReference: Uint8Array;
  /** By node: the island that it belongs to. */
  readonly island: Int32Array;
  /** Branches that take part: first those with a linear law, then, from `curved.count`, the others. */
  readonly linear: Int32Array;
  linearCount: number;
  readonly curved: Int32Array;
  curvedCount: number;
  /** The linear part of the matrix, so that only the rest need be added anew. */
  readonly baseDiagonal: Float64Array;
  readonly baseBeside: Float64Array;

  /** Volts by node. */
  readonly x: Float64Array;
  /** Current out of each node that is not accounted for, A. */
  readonly residual: Float64Array;
  readonly step: Float64Array;
  /** Slope di/dv of each curved branch with which the matrix was last factored, S. */
  readonly slope: Float64Array;
  /** Whether the matrix is factored with just those slopes. */
  isFactored: boolean;
  /** The greatest volts of any source: what "small" is measured by. */
  voltScale: number;
}

export function makeCircuit(nodeCount: number, plus: Int32Array, minus: Int32Array, matrix: SparseLdlt): Circuit {
  const branchCount = plus.length;
  return {
    nodeCount,
    branchCount,
    plus,
    minus,
    law: new Uint8Array(branchCount),
    on: new Uint8Array(branchCount),
    siemens: new Float64Array(branchCount),
    volts: new Float64Array(branchCount),
    amps: new Float64Array(branchCount),
    watts: new Float64Array(branchCount),
    fade: new Float64Array(branchCount),
    stay: new Float64Array(branchCount),
    stayTimes: 1,
    isSoft: false,
    leaks: false,
    matrix,
    place: new Int32Array(branchCount),
    isReference: new Uint8Array(nodeCount),
    island: new Int32Array(nodeCount),
    linear: new Int32Array(branchCount),
    linearCount: 0,
    curved: new Int32Array(branchCount),
    curvedCount: 0,
    baseDiagonal: new Float64Array(nodeCount),
    baseBeside: new Float64Array(matrix.beside.length),
    x: new Float64Array(nodeCount),
    residual: new Float64Array(nodeCount),
    step: new Float64Array(nodeCount),
    slope: new Float64Array(branchCount),
    isFactored: false,
    voltScale: 1,
  };
}

/** A feed limited in watts does not go on raising its current below this part of its set point. */
const FOLD = 1e-3;
/** So near its corner, as a part of its amps, a branch counts as on the steep side. */
const CORNER = 1e-7;

/** Current through a branch from plus to minus, A, at the volts across it. */
export function findAmps(c: Circuit, b: number, v: number): number {
  const g = c.siemens[b] ?? 0;
  const u = c.volts[b] ?? 0;
  const most = c.amps[b] ?? 0;
  switch (c.law[b]) {
    case LAW.linear:
      return g * (v - u);
    case LAW.feed: {
      const leak = c.leaks ? (c.stay[b] ?? 0) * (v - u) : 0;
      const held = (u - v) * g;
      if (held <= 0) return leak;
      const limit = Math.min(most, (c.watts[b] ?? 0) / Math.max(v, FOLD * u, 1e-12));
      return leak - Math.min(held, limit);
    }
    case LAW.amps: {
      const fade = c.fade[b] ?? 0;
      return v >= fade ? most : v > 0 ? (most * v) / fade : 0;
    }
    case LAW.watts: {
      const watts = c.watts[b] ?? 0;
      const fade = c.fade[b] ?? 0;
      const knee = Math.max(watts / most, fade);
      return v >= knee ? watts / v : v >= fade ? watts / knee : v > 0 ? ((watts / knee) * v) / fade : 0;
    }
    default: {
      const taken = (v - u) * g;
      return taken <= 0 ? 0 : taken < most ? taken : most;
    }
  }
}

/**
 * di/dv of a branch, S, at the volts across it; at a corner, of the side towards which it is measured less steep or
 * equal.
 */
export function findSlope(c: Circuit, b: number, v: number): number {
  const g = c.siemens[b] ?? 0;
  const u = c.volts[b] ?? 0;
  const most = c.amps[b] ?? 0;
  switch (c.law[b]) {
    case LAW.linear:
      return g;
    case LAW.feed: {
      const held = (u - v) * g;
      // Without load a feed stands exactly at its corner, where what comes next is that it holds.
      if (held <= -CORNER * most && v > u * (1 + 1e-12)) return 0;
      const watts = c.watts[b] ?? 0;
      if (held < Math.min(most, watts / Math.max(v, FOLD * u, 1e-12))) return g;
      return v > FOLD * u && v * most > watts ? watts / (v * v) : 0;
    }
    case LAW.amps: {
      const fade = c.fade[b] ?? 0;
      return v >= fade || v <= 0 ? 0 : most / fade;
    }
    case LAW.watts: {
      const watts = c.watts[b] ?? 0;
      const fade = c.fade[b] ?? 0;
      const knee = Math.max(watts / most, fade);
      return v >= knee ? -watts / (v * v) : v >= fade || v <= 0 ? 0 : watts / knee / fade;
    }
    default: {
      const taken = (v - u) * g;
      return v < u * (1 - 1e-12) || taken >= most ? 0 : g;
    }
  }
}

/** Volts across a branch. */
export function findVolts(c: Circuit, b: number): number {
  return (c.x[c.plus[b] ?? 0] ?? 0) - (c.x[c.minus[b] ?? 0] ?? 0);
}

/** Sorts the branches that take part by law and lays down the linear part of the matrix. */
export function setBase(c: Circuit): void {
  const { baseDiagonal, baseBeside, plus, minus } = c;
  c.isFactored = false;
  baseDiagonal.fill(0);
  baseBeside.fill(0);
  c.linearCount = 0;
  c.curvedCount = 0;
  for (let b = 0; b < c.branchCount; b++) {
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    // What is shorted takes part in no equation: its current comes back to where it left.
    if (c.on[b] === 0 || p === m) continue;
    if (c.law[b] !== LAW.linear) {
      c.curved[c.curvedCount++] = b;
      continue;
    }
    c.linear[c.linearCount++] = b;
    const g = c.siemens[b] ?? 0;
    const place = c.place[b] ?? 0;
    baseDiagonal[p] = (baseDiagonal[p] ?? 0) + g;
    baseDiagonal[m] = (baseDiagonal[m] ?? 0) + g;
    baseBeside[place] = (baseBeside[place] ?? 0) - g;
  }
}

/**
 * Sets the matrix at the present slopes and factors it.
 *
 * @param isSoft leave out what is negative: then it is positive definite wherever the network stands, but no longer its
 * slope
 * @returns as `factor` of the matrix: −1, or the node at which it is not positive
 */
export function factorCircuit(c: Circuit, isSoft = false): number {
  c.isSoft = isSoft;
  const { diagonal, beside } = c.matrix;
  const { curved, plus, minus, slope, stay, isReference } = c;
  diagonal.set(c.baseDiagonal);
  beside.set(c.baseBeside);
  for (let k = 0, count = c.curvedCount; k < count; k++) {
    const b = curved[k] ?? 0;
    const p = plus[b] ?? 0;
    const m = minus[b] ?? 0;
    const own = slope[b] ?? 0;
    const g = (c.isSoft && own < 0 ? 0 : own) + c.stayTimes * (stay[b] ?? 0);
    if (g === 0) continue;
    const place = c.place[b] ?? 0;
    diagonal[p] = (diagonal[p] ?? 0) + g;
    diagonal[m] = (diagonal[m] ?? 0) + g;
    beside[place] = (beside[place] ?? 0) - g;
  }
  for (let i = 0; i < c.nodeCount; i++) if (isReference[i] === 1) diagonal[i] = 1;
  const failed = c.matrix.factor();
  c.isFactored = failed < 0 && !isSoft;
  return failed;
}

/** Lets more branches take part whose laws are curved; until they have a slope the matrix stays what it is. */
export function addCurved(c: Circuit, b: number): void {
  c.on[b] = 1;
  if (c.plus[b] === c.minus[b]) return;
  c.slope[b] = 0;
  c.curved[c.curvedCount++] = b;
}
