import { prepareLdlt } from "../network/index.ts";
import type { Case } from "./cases.ts";
import type { Model } from "./model.ts";
import type { Held, Pair, Standing } from "./standing.ts";

/** The core of the build as a linear network: what is left when trees are currents and sources keep their condition. */
export interface Core {
  /** Edges of the grid that belong to it. */
  readonly edges: readonly number[];
  /** By case and node of the grid; nodes of trees are not written. */
  readonly volts: readonly Float64Array[];
  /** By pair that is asked for, and node: change of volts in the base case for one ampere drawn between the pair's nodes. */
  readonly voltsPerAmp: readonly Float64Array[];
  /**
   * By case: the same for a load that starts in it. What charges keeps pushing what it pushed; only what feeds a piece of metal without a battery holds its volts.
   */
  readonly starting: readonly (readonly Float64Array[])[];
  /** By case: sources that alone feed a piece of metal and hold its volts: what asks for more than they give collapses. */
  readonly alone: readonly (readonly Held[])[];
  /** How sources stand and what loads take from now on. */
  update(standing: readonly Standing[], demand: readonly Float64Array[]): void;
  /** Solves all cases. @param ohms by edge of the grid */
  solve(ohms: Float64Array): void;
}

/** One condition of the core: cases that stand alike share its matrix; each has its own currents. */
interface Matrix {
  readonly list: number[];
  readonly held: readonly Held[];
  readonly edgeOn: Uint8Array;
  readonly ties: readonly number[];
  readonly perAmp: readonly Float64Array[] | null;
}

/** Ties each separate piece of metal to zero; no current flows in it, since what enters a piece leaves it. */
const TIE_SIEMENS = 1;
/** As good as none beside any wire; with less, rounding in the volts of 230 V would show in the sixth digit of a current. */
const LEAST_OHMS = 1e-6;

/**
 * @param pairs nodes that loads draw between
 * @param asked pairs whose response is wanted
 * @param starts pairs that loads start between
 */
export function prepareCore(
  model: Model,
  cases: readonly Case[],
  pairs: readonly Pair[],
  asked: Uint8Array,
  starts: Uint8Array,
  base: number,
): Core {
  const { grid, trees } = model;
  const edges = grid.edges.flatMap((_, e) => (trees.isTree[e] === 1 ? [] : [e]));
  // Any port may come to be held by its source, so all of them are in the pattern from the start.
  const ports: Pair[] = [
    ...grid.stores,
    ...grid.feeds,
    ...grid.converters.flatMap(({ in: input, out }) => (input === null ? [out] : [out, input])),
  ];
  const { nodes, at } = numberNodes(model, edges, [...ports, ...pairs]);
  const from: number[] = [];
  const to: number[] = [];
  const slotOf = new Map<number, number>();
  for (const e of edges) {
    const edge = grid.edges[e];
    from.push(at[edge?.a ?? 0] ?? 0);
    to.push(at[edge?.b ?? 0] ?? 0);
  }
  for (const { plus, minus } of ports) {
    const key = plus * grid.nodeCount + minus;
    if (slotOf.has(key)) continue;
    slotOf.set(key, from.length);
    from.push(at[plus] ?? 0);
    to.push(at[minus] ?? 0);
  }
  const slotAt = ({ plus, minus }: Pair): number => slotOf.get(plus * grid.nodeCount + minus) ?? 0;
  const ldlt = prepareLdlt(nodes.length, Int32Array.from(from), Int32Array.from(to));
  const stores = grid.stores.map((s) => ({ slot: slotAt(s), siemens: 1 / Math.max(s.element.ohms.high, 1e-6) }));
  const volts = cases.map(() => new Float64Array(grid.nodeCount));
  const voltsPerAmp = pairs.map((_, p) => new Float64Array(asked[p] === 1 ? grid.nodeCount : 0));
  const siemens = new Float64Array(edges.length);
  const b = new Float64Array(nodes.length);
  /** By case: what flows into each node whatever the sizes. */
  const fixed = cases.map(() => new Float64Array(nodes.length));
  let groups: Matrix[] = [];
  /** Conditions other than the base in which loads start. */
  let others: Matrix[] = [];
  const starting: (readonly Float64Array[])[] = cases.map(() => voltsPerAmp);
  const alone: (readonly Held[])[] = cases.map(() => []);
  const kept = new Map<string, readonly Float64Array[]>();
  const keyOf = (one: Case, held: readonly Held[]): string =>
    `${edges.map((e) => one.edgeOn[e]).join("")}|${held.map((h) => `${h.plus} ${h.minus} ${h.siemens}`).join()}`;
  const matrixOf = (one: Case, held: readonly Held[]): Matrix => ({
    list: [],
    held,
    edgeOn: one.edgeOn,
    ties: tiesOf(model, one, held, at, nodes.length),
    perAmp: null,
  });

  const update: Core["update"] = (standing, demand) => {
    const byKey = new Map<string, (typeof groups)[number]>();
    cases.forEach((one, j) => {
      const { held, pushed } = standing[j] ?? { held: [], pushed: [] };
      const key = keyOf(one, held);
      let group = byKey.get(key);
      if (group === undefined) byKey.set(key, (group = matrixOf(one, held)));
      // Cases that stand alike share one matrix; each has its own currents.
      group.list.push(j);
      const into = fixed[j] ?? b;
      into.fill(0);
      const add = ({ plus, minus }: Pair, amps: number): void => {
        const p = at[plus] ?? 0;
        const m = at[minus] ?? 0;
        into[p] = (into[p] ?? 0) + amps;
        into[m] = (into[m] ?? 0) - amps;
      };
      grid.stores.forEach((s, i) => {
        add(s, (one.storeVolts[i] ?? 0) * (stores[i]?.siemens ?? 0));
      });
      for (const h of held) add(h, h.volts * h.siemens);
      for (const p of pushed) add(p, p.amps);
      pairs.forEach((pair, p) => {
        const amps = demand[j]?.[p] ?? 0;
        if (amps !== 0) add(pair, -amps);
      });
    });
    groups = [...byKey.values()];
    cases.forEach((one, j) => (alone[j] = withoutStore(model, one, standing[j]?.held ?? [])));
    const own = standing[base]?.held ?? [];
    const baseKey = cases[base] === undefined ? "" : keyOf(cases[base], own);
    const found = new Map<string, Matrix>();
    cases.forEach((one, j) => {
      if (one.kind !== "given" || !starts.includes(1)) return;
      const stiff = alone[j] ?? [];
      const key = keyOf(one, stiff);
      if (key === baseKey) {
        starting[j] = voltsPerAmp;
        return;
      }
      let perAmp = kept.get(key);
      if (perAmp === undefined) {
        if (kept.size > 20) kept.clear(); // conditions come and go while a build settles
        perAmp = pairs.map((_, p) => new Float64Array(starts[p] === 1 ? grid.nodeCount : 0));
        kept.set(key, perAmp);
      }
      starting[j] = perAmp;
      if (!found.has(key)) found.set(key, { ...matrixOf(one, stiff), perAmp });
    });
    others = [...found.values()];
  };

  const join = (slot: number, g: number): void => {
    const p = from[slot] ?? 0;
    const q = to[slot] ?? 0;
    if (p === q) return;
    const s = ldlt.slots[slot] ?? 0;
    ldlt.diagonal[p] = (ldlt.diagonal[p] ?? 0) + g;
    ldlt.diagonal[q] = (ldlt.diagonal[q] ?? 0) + g;
    ldlt.beside[s] = (ldlt.beside[s] ?? 0) - g;
  };
  const spread = (into: Float64Array | undefined): void => {
    if (into !== undefined) for (let k = 0; k < nodes.length; k++) into[nodes[k] ?? 0] = b[k] ?? 0;
  };

  const factor = ({ held, edgeOn, ties }: Matrix): void => {
    ldlt.diagonal.fill(0);
    ldlt.beside.fill(0);
    for (let k = 0; k < edges.length; k++) if (edgeOn[edges[k] ?? 0] === 1) join(k, siemens[k] ?? 0);
    for (const s of stores) join(s.slot, s.siemens);
    for (const h of held) join(slotAt(h), h.siemens);
    for (const t of ties) ldlt.diagonal[t] = (ldlt.diagonal[t] ?? 0) + TIE_SIEMENS;
    ldlt.factor();
  };
  const respond = (which: Uint8Array, into: readonly Float64Array[]): void => {
    for (let p = 0; p < pairs.length; p++) {
      const pair = pairs[p];
      if (which[p] === 0 || pair === undefined) continue;
      b.fill(0);
      const up = at[pair.plus] ?? 0;
      const down = at[pair.minus] ?? 0;
      b[up] = (b[up] ?? 0) - 1;
      b[down] = (b[down] ?? 0) + 1;
      ldlt.solve(b);
      spread(into[p]);
    }
  };

  const solve: Core["solve"] = (ohms) => {
    for (let k = 0; k < edges.length; k++) siemens[k] = 1 / Math.max(ohms[edges[k] ?? 0] ?? 0, LEAST_OHMS);
    for (const group of groups) {
      factor(group);
      for (const j of group.list) {
        b.set(fixed[j] ?? b);
        ldlt.solve(b);
        spread(volts[j]);
        if (j === base) respond(asked, voltsPerAmp);
      }
    }
    for (const other of others) {
      factor(other);
      if (other.perAmp !== null) respond(starts, other.perAmp);
    }
  };
  return { edges, volts, voltsPerAmp, starting, alone, update, solve };
}

function numberNodes(
  model: Model,
  edges: readonly number[],
  ports: readonly Pair[],
): { nodes: number[]; at: Int32Array } {
  const { grid } = model;
  const nodes: number[] = [];
  const at = new Int32Array(grid.nodeCount).fill(-1);
  const take = (n: number): void => {
    if ((at[n] ?? 0) >= 0) return;
    at[n] = nodes.length;
    nodes.push(n);
  };
  for (const e of edges) {
    const edge = grid.edges[e];
    if (edge === undefined) continue;
    take(edge.a);
    take(edge.b);
  }
  for (const { plus, minus } of ports) {
    take(plus);
    take(minus);
  }
  return { nodes, at };
}

/** One node of each piece that hangs together through wires and sources. */
function tiesOf(model: Model, one: Case, held: readonly Held[], at: Int32Array, size: number): number[] {
  const parent = Int32Array.from({ length: size }, (_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while ((parent[r] ?? r) !== r) r = parent[r] ?? r;
    parent[i] = r;
    return r;
  };
  const unite = (p: number, q: number): void => {
    parent[root(at[p] ?? 0)] = root(at[q] ?? 0);
  };
  model.grid.edges.forEach(({ a, b }, e) => {
    if (model.trees.isTree[e] === 0 && one.edgeOn[e] === 1) unite(a, b);
  });
  for (const { plus, minus } of [...model.grid.stores, ...held]) unite(plus, minus);
  const ties: number[] = [];
  for (let i = 0; i < size; i++) if (root(i) === i) ties.push(i);
  return ties;
}

/** Those that feed a piece of metal on which no battery stands. */
function withoutStore(model: Model, one: Case, held: readonly Held[]): readonly Held[] {
  if (held.length === 0) return held;
  const { grid } = model;
  const reached = new Uint8Array(grid.nodeCount);
  const queue = grid.stores.map((s) => s.plus);
  for (let i = 0; i < queue.length; i++) {
    const n = queue[i] ?? 0;
    if (reached[n] === 1) continue;
    reached[n] = 1;
    for (const e of grid.at[n] ?? []) {
      const edge = grid.edges[e];
      if (edge !== undefined && one.edgeOn[e] === 1) queue.push(edge.a === n ? edge.b : edge.a);
    }
  }
  return held.filter((h) => reached[h.plus] === 0);
}
