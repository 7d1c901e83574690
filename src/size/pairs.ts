import type { Case } from "./cases.ts";
import type { Model } from "./model.ts";
import type { Pair, Standing } from "./standing.ts";

/** Ports that a drop may be counted from. */
interface Port {
  readonly plus: number;
  readonly minus: number;
  readonly isStore: boolean;
}

export interface Pairs {
  readonly list: readonly Pair[];
  /** Pair of each draw of the grid. */
  readonly ofDraw: Int32Array;
  /** Pair of each thing judged, by circuit and place in its list. */
  readonly ofJudged: readonly Int32Array[];
  /** By pair: 1 where both its nodes hang together with a source, every contact closed. */
  readonly fed: Uint8Array;
  /**
   * The ports that the drop of a pair is counted from in a case: the batteries whose metal reaches it; where there is none, what pushes there. While a
   * bank charges its terminals stay the reference: what a charger adds on its own way is no loss of the load's.
   */
  sources(caseIndex: number, standing: Standing): readonly (readonly Pair[])[];
  /** Whether closed contacts lead from a draw's terminals to its pair in a case. */
  isJoined(caseIndex: number, draw: number): boolean;
}

/** Finds the pairs of a build. */
export function findPairs(model: Model, cases: readonly Case[]): Pairs {
  const { grid, trees, circuits } = model;
  const list: Pair[] = [];
  const numbers = new Map<number, number>();
  const pairFor = (plus: number, minus: number): number => {
    const p = trees.foot[plus] ?? plus;
    const m = trees.foot[minus] ?? minus;
    const key = p * grid.nodeCount + m;
    let n = numbers.get(key);
    if (n === undefined) {
      n = list.length;
      numbers.set(key, n);
      list.push({ plus: p, minus: m });
    }
    return n;
  };
  const ofDraw = Int32Array.from(grid.draws, ({ plus, minus }) => pairFor(plus, minus));
  const ofJudged = circuits.map((c) => Int32Array.from(c.judged, (j) => pairFor(j.plus, j.minus)));
  const pieces = new Map<string, Int32Array>();
  const piecesOf = cases.map((one) => {
    const key = one.edgeOn.join("");
    let found = pieces.get(key);
    if (found === undefined) pieces.set(key, (found = findPieces(model, one.edgeOn)));
    return found;
  });
  const stores: Port[] = grid.stores.map(({ plus, minus }) => ({ plus, minus, isStore: true }));

  const closed = findPieces(model, new Uint8Array(grid.edges.length).fill(1));
  const live = new Set<number>();
  for (const { plus, minus } of [...grid.stores, ...grid.feeds, ...grid.converters.map((c) => c.out)]) {
    live.add(closed[plus] ?? -1).add(closed[minus] ?? -1);
  }
  const fed = Uint8Array.from(list, ({ plus, minus }) =>
    live.has(closed[plus] ?? -1) && live.has(closed[minus] ?? -1) ? 1 : 0,
  );

  return {
    list,
    ofDraw,
    ofJudged,
    fed,
    isJoined(caseIndex, draw) {
      const piece = piecesOf[caseIndex];
      const found = grid.draws[draw];
      const pair = list[ofDraw[draw] ?? 0];
      if (piece === undefined || found === undefined || pair === undefined) return false;
      return piece[found.plus] === piece[pair.plus] && piece[found.minus] === piece[pair.minus];
    },
    sources(caseIndex, standing) {
      const piece = piecesOf[caseIndex] ?? new Int32Array(0);
      const pushing = [...standing.held, ...standing.pushed.filter((p) => p.amps > 0)];
      const all: Port[] = [...stores, ...pushing.map(({ plus, minus }) => ({ plus, minus, isStore: false }))];
      const byPieces = new Map<number, readonly Pair[]>();
      return list.map(({ plus, minus }) => {
        const top = piece[plus] ?? -1;
        const bottom = piece[minus] ?? -1;
        const key = top * grid.nodeCount + bottom;
        let found = byPieces.get(key);
        if (found === undefined) byPieces.set(key, (found = reaching(all, piece, top, bottom)));
        return found;
      });
    },
  };
}

function reaching(all: readonly Port[], piece: Int32Array, top: number, bottom: number): readonly Pair[] {
  let found = all.filter((s) => piece[s.plus] === top && piece[s.minus] === bottom);
  // A string in series: its upper end is on the one piece of metal, its lower end on the other.
  if (found.length === 0) {
    const lower = all.find((s) => piece[s.minus] === bottom);
    if (lower !== undefined) {
      found = all.filter((s) => piece[s.plus] === top).map((s) => ({ ...s, minus: lower.minus }));
    }
  }
  return found.some((s) => s.isStore) ? found.filter((s) => s.isStore) : found;
}

/** Numbers the pieces of metal that closed edges hold together, by node. */
function findPieces({ grid }: Model, edgeOn: Uint8Array): Int32Array {
  const piece = new Int32Array(grid.nodeCount).fill(-1);
  for (let n = 0; n < grid.nodeCount; n++) {
    if ((piece[n] ?? -1) >= 0) continue;
    const queue = [n];
    piece[n] = n;
    for (let i = 0; i < queue.length; i++) {
      for (const e of grid.at[queue[i] ?? 0] ?? []) {
        const edge = grid.edges[e];
        if (edge === undefined || edgeOn[e] === 0) continue;
        for (const next of [edge.a, edge.b]) {
          if ((piece[next] ?? -1) >= 0) continue;
          piece[next] = n;
          queue.push(next);
        }
      }
    }
  }
  return piece;
}
