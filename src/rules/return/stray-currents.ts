import { prepareLdlt } from "../../network/index.ts";
import { stripTrees, sumTrees, type Trees } from "../../system/index.ts";
import { bankFlowsOf, type BankFlow } from "../battery/bank-flows.ts";
import type { Build } from "../build.ts";
import { bondOhms } from "./bond-ohms.ts";
import { metalOf, type Metal } from "./metal.ts";

/** Less than this is one piece of metal, Ω: a bolted joint is a hundred times as much. */
const NO_OHMS = 1e-6;
/** A bond of which nobody says the size is looked at as one of 4 m of 1 mm² and as one of 0.1 m of 70 mm², Ω. */
const BOND_OHMS = [0.075, 0.00003] as const;
/** So many returns are opened one after the other, those that carry most first: more rings than any build has. */
const MOST_OPENED = 48;

/** The most that flows in a path of the metal, and in which condition. */
export interface StrayAmps {
  readonly amps: number;
  readonly state: string;
}

/** What flows in a path when another one is open. */
export interface Diverted extends StrayAmps {
  /** Path of the metal that is open. */
  readonly opened: number;
}

/** Currents of the returns and bonds as the whole metal shares them. */
export interface StrayCurrents {
  /** By path, over all steady conditions; for the least and the most that bonds of no stated size may be. */
  readonly most: readonly [readonly StrayAmps[], readonly StrayAmps[]];
  /** By path: 1 where it lies in a ring, or between two. */
  readonly inRing: Uint8Array;
  /** By path of a ring, what flows when another of its returns is open; null: none carries more then. */
  readonly diverted: () => readonly (Diverted | null)[];
  /** Whether a bond whose size is not stated lies in a ring. */
  readonly unsized: boolean;
}

const found = new WeakMap<Build["settled"], StrayCurrents>();

/**
 * What flows in all that brings current back, bonds with it. Loads and sources take and give what they were solved with; how that divides among the paths
 * follows from their resistances alone, so each condition is a right-hand side of one matrix.
 */
export function strayCurrentsOf(build: Build): StrayCurrents {
  let currents = found.get(build.settled);
  if (currents === undefined) found.set(build.settled, (currents = findCurrents(build)));
  return currents;
}

/** Paths that direct current of small volts takes. */
const carries = (metal: Metal, e: number): boolean => metal.edges[e]?.is !== "blocker";

function findCurrents(build: Build): StrayCurrents {
  const metal = metalOf(build);
  const { edges, nodeCount } = metal;
  const at = metal.at.map((list) => list.filter((e) => carries(metal, e)));
  const trees = stripTrees({ nodeCount, edges, at }, new Uint8Array(nodeCount));
  const inRing = Uint8Array.from(edges, ({ a, b }, e) =>
    trees.isTree[e] === 0 && a !== b && carries(metal, e) ? 1 : 0,
  );
  const conditions = bankFlowsOf(build).steady;
  const flows = conditions.map((condition) => flowsInto(build, metal, condition));
  const unsized = edges.some((edge, e) => inRing[e] === 1 && edge.is === "bond" && bondOhms(edge) === null);
  const solved = BOND_OHMS.slice(0, unsized ? 2 : 1).map((bond) =>
    solveRings(build, metal, trees, inRing, bond, flows),
  );
  const most = solved.map(({ amps }) => greatest(conditions, amps, edges.length));
  const [first = [], second = first] = most;
  let diverted: readonly (Diverted | null)[] | undefined;
  return {
    most: [first, second],
    inRing,
    unsized,
    diverted: () => (diverted ??= openEach(metal, conditions, solved.at(-1), first, inRing)),
  };
}

/** What loads and sources push into each node of the metal in a condition, A. */
function flowsInto(build: Build, metal: Metal, { amps, taken, alone, sources }: BankFlow): Float64Array {
  const { grid } = build.settled.model;
  const into = new Float64Array(metal.nodeCount);
  const push = (gridNode: number, current: number): void => {
    const n = metal.standsFor(gridNode);
    into[n] = (into[n] ?? 0) + current;
  };
  grid.stores.forEach(({ minus }, i) => {
    push(minus, -(amps[i] ?? 0));
  });
  grid.feeds.forEach(({ minus }, i) => {
    push(minus, sources.feeds[i] ?? 0);
  });
  grid.converters.forEach(({ in: input, out }, i) => {
    push(out.minus, sources.outputs[i] ?? 0);
    if (input !== null) push(input.minus, sources.inputs[i] ?? 0);
  });
  grid.draws.forEach(({ minus }, d) => {
    push(minus, (taken[d] ?? 0) + (d === alone.draw ? alone.amps : 0));
  });
  return into;
}

/** The rings of the metal as a matrix, and what flows in every path of it in each condition. */
interface Rings {
  readonly amps: readonly Float64Array[];
  readonly siemens: Float64Array;
  /** Volts for one ampere from `a` to `b`, by node; null: nothing can be solved. */
  readonly respond: (a: number, b: number) => Float64Array | null;
}

function solveRings(
  build: Build,
  metal: Metal,
  trees: Trees,
  inRing: Uint8Array,
  bond: number,
  flows: readonly Float64Array[],
): Rings {
  const { edges } = metal;
  const { ohms: coreOhms } = bankFlowsOf(build);
  const { weigher, chosen } = build.settled;
  const row = new Int32Array(metal.nodeCount).fill(-1);
  const ring: number[] = [];
  let rows = 0;
  edges.forEach(({ a, b }, e) => {
    if (inRing[e] !== 1) return;
    ring.push(e);
    for (const n of [a, b]) if (row[n] === -1) row[n] = rows++;
  });
  const from = Int32Array.from(ring, (e) => row[edges[e]?.a ?? 0] ?? 0);
  const to = Int32Array.from(ring, (e) => row[edges[e]?.b ?? 0] ?? 0);
  const siemens = new Float64Array(edges.length);
  for (const e of ring) {
    const edge = edges[e];
    if (edge === undefined) continue;
    const ohms =
      edge.grid < 0 || edge.is === "bond"
        ? (bondOhms(edge) ?? bond)
        : (coreOhms[edge.grid] ?? 0) || weigher.ohmsOf(edge.grid, chosen.rungs);
    siemens[e] = 1 / Math.max(ohms, NO_OHMS);
  }
  const matrix = prepareLdlt(rows, from, to);
  ring.forEach((e, i) => {
    const g = siemens[e] ?? 0;
    for (const r of [from[i] ?? 0, to[i] ?? 0]) matrix.diagonal[r] = (matrix.diagonal[r] ?? 0) + g;
    const slot = matrix.slots[i] ?? -1;
    if (slot >= 0) matrix.beside[slot] = (matrix.beside[slot] ?? 0) - g;
  });
  // One node of each piece stands at nought.
  const seen = new Uint8Array(rows);
  const beside: number[][] = Array.from({ length: rows }, () => []);
  from.forEach((a, i) => {
    beside[a]?.push(to[i] ?? 0);
    beside[to[i] ?? 0]?.push(a);
  });
  for (let r = 0; r < rows; r++) {
    if (seen[r] === 1) continue;
    matrix.diagonal[r] = (matrix.diagonal[r] ?? 0) + (matrix.diagonal[r] ?? 0);
    const queue = [r];
    seen[r] = 1;
    for (const n of queue)
      for (const m of beside[n] ?? [])
        if (seen[m] === 0) {
          seen[m] = 1;
          queue.push(m);
        }
  }
  const isSolved = rows > 0 && matrix.factor() < 0;
  const amps = flows.map((flow) => {
    const sum = flow.slice();
    const own = new Float64Array(edges.length);
    sumTrees(trees, sum, own);
    if (!isSolved) return own;
    const x = new Float64Array(rows);
    row.forEach((r, n) => {
      if (r >= 0) x[r] = sum[n] ?? 0;
    });
    matrix.solve(x);
    ring.forEach((e, i) => {
      own[e] = (siemens[e] ?? 0) * ((x[from[i] ?? 0] ?? 0) - (x[to[i] ?? 0] ?? 0));
    });
    return own;
  });
  return {
    amps,
    siemens,
    respond(a, b) {
      if (!isSolved) return null;
      const x = new Float64Array(rows);
      const [ra, rb] = [row[a] ?? -1, row[b] ?? -1];
      x[ra] = 1;
      x[rb] = -1;
      matrix.solve(x);
      const volts = new Float64Array(metal.nodeCount);
      row.forEach((r, n) => {
        if (r >= 0) volts[n] = x[r] ?? 0;
      });
      return volts;
    },
  };
}

function greatest(
  conditions: readonly BankFlow[],
  amps: readonly Float64Array[],
  edgeCount: number,
): readonly StrayAmps[] {
  return Array.from({ length: edgeCount }, (_, e) => {
    let most: StrayAmps = { amps: 0, state: "" };
    amps.forEach((own, k) => {
      const flows = Math.abs(own[e] ?? 0);
      if (flows > most.amps) most = { amps: flows, state: conditions[k]?.state ?? "" };
    });
    return most;
  });
}

/**
 * Opens each return of the rings in turn. With z the volts for one ampere across it, g its conductance and i what it carried, the others carry
 * i·z / (1 − g·z) more: one solution for each return, none for each condition.
 */
function openEach(
  { edges }: Metal,
  conditions: readonly BankFlow[],
  rings: Rings | undefined,
  most: readonly StrayAmps[],
  inRing: Uint8Array,
): readonly (Diverted | null)[] {
  const worst: (Diverted | null)[] = edges.map(() => null);
  if (rings === undefined) return worst;
  const ring = edges.flatMap((_, e) => (inRing[e] === 1 ? [e] : []));
  const opened = ring
    .filter((e) => edges[e]?.is === "return" && (most[e]?.amps ?? 0) > 0)
    .sort((x, y) => (most[y]?.amps ?? 0) - (most[x]?.amps ?? 0))
    .slice(0, MOST_OPENED);
  for (const e of opened) {
    const edge = edges[e];
    const z = edge === undefined ? null : rings.respond(edge.a, edge.b);
    if (edge === undefined || z === null) continue;
    const across = (z[edge.a] ?? 0) - (z[edge.b] ?? 0);
    const left = 1 - (rings.siemens[e] ?? 0) * across;
    // Without another way round, nothing flows that could be carried elsewhere.
    if (left < 1e-9) continue;
    for (const f of ring) {
      const other = edges[f];
      if (f === e || other === undefined) continue;
      const share = ((rings.siemens[f] ?? 0) * ((z[other.a] ?? 0) - (z[other.b] ?? 0))) / left;
      if (share === 0) continue;
      rings.amps.forEach((own, k) => {
        const flows = Math.abs((own[f] ?? 0) + share * (own[e] ?? 0));
        if (flows > (worst[f]?.amps ?? 0)) worst[f] = { amps: flows, state: conditions[k]?.state ?? "", opened: e };
      });
    }
  }
  return worst;
}
