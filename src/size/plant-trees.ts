import { stripTrees, type Grid, type Trees } from "../system/index.ts";
import type { CircuitModel } from "./model.ts";

/**
 * Finds which circuits are radial and what hangs on what. A circuit with one conductor in a tree and another in the core belongs to the
 * core as a whole, and so does one whose plus and minus hang on two different circuits. A return that shares its size with the circuit that it belongs to is
 * planted with that one, as a pair is; one that brings back what another brings out, and has a size to itself, belongs to the core.
 *
 * @param kept by node: 1 where a source stands; those that have to belong to the core are added
 * @returns `owner`: by node the circuit that it hangs on, −1 for the core
 */
export function plantTrees(
  grid: Grid,
  circuits: readonly CircuitModel[],
  at: Int32Array,
  kept: Uint8Array,
): { trees: Trees; coreContacts: number[]; roots: number[]; owner: Int32Array } {
  /** Edges that are planted together. */
  const planted = circuits.map(({ edges, follower }) => [...edges, ...(circuits[follower]?.edges ?? [])]);
  const edgesOf = (c: CircuitModel): readonly number[] => planted[c.leader >= 0 ? c.leader : c.position] ?? [];
  for (let round = 0; ; round++) {
    const trees = stripTrees(grid, kept);
    const owner = ownersOf(grid, trees, circuits, at);
    let changed = false;
    const keep = (c: CircuitModel): void => {
      for (const e of edgesOf(c)) {
        const edge = grid.edges[e];
        if (edge === undefined) continue;
        for (const n of [edge.a, edge.b]) {
          if (kept[n] === 0) {
            kept[n] = 1;
            changed = true;
          }
        }
      }
    };
    const above = (c: CircuitModel): Set<number> => {
      const set = new Set<number>();
      for (const e of edgesOf(c)) {
        const edge = grid.edges[e];
        if (edge === undefined || trees.isTree[e] === 0) continue;
        const near = trees.up[edge.a] === e ? edge.b : edge.a;
        const o = owner[near] ?? -1;
        if (circuits[o] !== c) set.add(o);
      }
      return set;
    };
    for (const { plus, minus } of grid.draws) {
      const back = circuits[owner[minus] ?? -1];
      if (back !== undefined && owner[plus] !== back.position) keep(back);
    }
    for (const c of circuits) {
      if (c.leader >= 0) continue;
      const edges = edgesOf(c);
      const inTree = edges.filter((e) => trees.isTree[e] === 1).length;
      if (inTree !== 0 && inTree !== edges.length) keep(c);
      else if (inTree > 0) {
        const parents = [...above(c)].filter((o) => o >= 0);
        // Two circuits carry it: the chooser works on a tree, so all but the first become part of the core.
        for (const o of parents.slice(1)) {
          const other = circuits[o];
          if (other !== undefined) keep(other);
        }
      }
    }
    if (changed && round < 50) continue;

    const roots: number[] = [];
    const coreContacts: number[] = [];
    // All of them first: a branch may stand before its feeder in the plan.
    for (const c of circuits) {
      const edges = edgesOf(c);
      c.radial = edges.length > 0 && edges.every((e) => trees.isTree[e] === 1);
    }
    circuits.forEach((c, i) => {
      if (!c.radial || c.leader >= 0) return;
      const parents = [...above(c)].filter((o) => o >= 0 && circuits[o]?.radial !== false);
      c.parent = parents[0] ?? -1;
      if (c.parent < 0) roots.push(i);
      else circuits[c.parent]?.children.push(i);
    });
    cutTooDeep(circuits, roots);
    for (const n of trees.order) {
      const e = trees.up[n] ?? -1;
      const edge = grid.edges[e];
      if (edge === undefined) continue;
      const o = owner[n] ?? -1;
      const c = circuits[o];
      if (c?.radial === true) c.treeEdges.push(e);
      else coreContacts.push(e);
    }
    return { trees, coreContacts, roots, owner };
  }
}

/** More feeders in series than any build has; what hangs deeper is not worked out. */
const MOST_IN_SERIES = 50;

function cutTooDeep(circuits: readonly CircuitModel[], roots: readonly number[]): void {
  let level = [...roots];
  for (let depth = 1; level.length > 0; depth++) {
    const next = level.flatMap((i) => circuits[i]?.children ?? []);
    if (depth >= MOST_IN_SERIES) {
      for (const i of level) circuits[i]?.children.splice(0);
      for (const i of next) {
        const c = circuits[i];
        if (c === undefined) continue;
        c.rungs = null;
        c.cannotTell = [...c.cannotTell, `more than ${MOST_IN_SERIES} circuits in series stand before it`];
      }
    }
    level = next;
  }
}

/** The circuit that each node hangs on: that of the nearest conductor towards the core; −1 where there is none. */
function ownersOf(grid: Grid, trees: Trees, circuits: readonly CircuitModel[], at: Int32Array): Int32Array {
  const owner = new Int32Array(grid.nodeCount).fill(-1);
  for (const n of trees.order) {
    const edge = grid.edges[trees.up[n] ?? -1];
    const own = edge === undefined || edge.circuit < 0 ? -1 : (at[edge.circuit] ?? -1);
    const leader = circuits[own]?.leader ?? -1;
    const circuit = leader >= 0 ? leader : own;
    owner[n] = circuit >= 0 ? circuit : (owner[trees.above[n] ?? 0] ?? -1);
  }
  return owner;
}
