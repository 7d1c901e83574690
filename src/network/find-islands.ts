import { LAW, type Circuit } from "./circuit.ts";

/**
 * Which nodes hang together, so that volts between them mean something.
 *
 * Resistors, stores, feeds and draws in ohms hold nodes together. A draw in amperes or watts does not: it says nothing
 * about volts. So a panel behind an open switch is an island of its own, though its loads still hang on the common
 * minus.
 */

export interface Islands {
  readonly count: number;
  /** By (joined) node. */
  readonly of: Int32Array;
}

/** True for a branch that holds its two nodes together. */
export function isTie(c: Circuit, b: number): boolean {
  return c.on[b] === 1 && (c.law[b] === LAW.linear || c.law[b] === LAW.feed);
}

/** Islands of a circuit, numbered in the order of their first node. */
export function findIslands(c: Circuit): Islands {
  const n = c.nodeCount;
  const leader = new Int32Array(n);
  for (let i = 0; i < n; i++) leader[i] = i;
  const find = (node: number): number => {
    let i = node;
    for (let up = leader[i] ?? i; up !== i; up = leader[i] ?? i) {
      leader[i] = leader[up] ?? up;
      i = leader[i] ?? i;
    }
    return i;
  };
  for (let b = 0; b < c.branchCount; b++) {
    if (!isTie(c, b)) continue;
    const p = find(c.plus[b] ?? 0);
    const m = find(c.minus[b] ?? 0);
    // The lower number leads: a node is then met after its leader, and numbering needs one pass.
    if (p < m) leader[m] = p;
    else leader[p] = m;
  }
  const of = new Int32Array(n);
  let count = 0;
  for (let i = 0; i < n; i++) {
    const top = find(i);
    of[i] = top === i ? count++ : (of[top] ?? 0);
  }
  return { count, of };
}

/** How fit a node is to be the reference of its island: the minus of a store first, at the bottom of its string. */
const FITNESS = { other: 0, converterMinus: 1, feedMinus: 2, midPoint: 3, storeMinus: 4, ground: 5 } as const;

export interface ReferenceWish {
  /** By (joined) node: what the node is for choosing, see `rankReferences`. */
  readonly fitness: Uint8Array;
  /** By (joined) node: what decides between equals, least first; does not depend on the order of elements. */
  readonly name: readonly string[];
}

/** Ranks the nodes as references, from the minus nodes of the sources. */
export function rankReferences(
  name: readonly string[],
  storePlus: readonly number[],
  storeMinus: readonly number[],
  feedMinus: readonly number[],
  converterMinus: readonly number[],
  ground: number,
): ReferenceWish {
  const fitness = new Uint8Array(name.length);
  for (const i of converterMinus) fitness[i] = FITNESS.converterMinus;
  for (const i of feedMinus) fitness[i] = FITNESS.feedMinus;
  for (const i of storeMinus) fitness[i] = FITNESS.storeMinus;
  for (const i of storePlus) if (fitness[i] === FITNESS.storeMinus) fitness[i] = FITNESS.midPoint;
  if (ground >= 0) fitness[ground] = FITNESS.ground;
  return { fitness, name };
}

/** Chooses one reference an island: the node that counts as 0 V in it. By island. */
export function chooseReferences(islands: Islands, wish: ReferenceWish): Int32Array {
  const chosen = new Int32Array(islands.count).fill(-1);
  for (let i = 0; i < islands.of.length; i++) {
    const island = islands.of[i] ?? 0;
    const best = chosen[island] ?? -1;
    const gain = (wish.fitness[i] ?? 0) - (best < 0 ? -1 : (wish.fitness[best] ?? 0));
    if (gain > 0 || (gain === 0 && (wish.name[i] ?? "") < (wish.name[best] ?? ""))) chosen[island] = i;
  }
  return chosen;
}
