import { test } from "vitest";
import assert from "node:assert/strict";
import { findEliminationOrder } from "./minimum-degree.ts";

/** Fill of an elimination in the given order, by carrying it out on sets. */
function countFill(nodes: number, pairs: readonly (readonly [number, number])[], order: Int32Array): number {
  const around = Array.from({ length: nodes }, () => new Set<number>());
  for (const [a, b] of pairs) {
    around[a]?.add(b);
    around[b]?.add(a);
  }
  let entries = 0;
  for (const v of order) {
    const neighbours = Array.from(around[v] ?? []);
    entries += neighbours.length;
    for (const u of neighbours) {
      around[u]?.delete(v);
      for (const w of neighbours) if (w !== u) around[u]?.add(w);
    }
  }
  return entries;
}

const orderOf = (nodes: number, pairs: readonly (readonly [number, number])[]) =>
  findEliminationOrder(
    nodes,
    Int32Array.from(pairs, (p) => p[0]),
    Int32Array.from(pairs, (p) => p[1]),
  );

test("a tree is eliminated without any fill, however it is numbered", () => {
  const pairs = Array.from({ length: 499 }, (_, i) => [i + 1, (i * 7919 + 13) % (i + 1)] as const);
  const shuffled = pairs.map(([a, b]) => [(a * 211) % 500, (b * 211) % 500] as const);
  assert.equal(countFill(500, shuffled, orderOf(500, shuffled)), 499);
});

test("the order is a permutation of the nodes", () => {
  const pairs = [
    [0, 1],
    [0, 1],
    [2, 2],
    [3, 1],
    [4, 5],
  ] as const;
  assert.deepEqual(Array.from(orderOf(7, pairs)).sort(), [0, 1, 2, 3, 4, 5, 6]);
  assert.deepEqual(Array.from(orderOf(0, [])), []);
});

test("a grid fills less than half as much as in the order of its rows", () => {
  const side = 20;
  const pairs: (readonly [number, number])[] = [];
  for (let i = 0; i < side; i++) {
    for (let j = 0; j < side; j++) {
      if (j + 1 < side) pairs.push([i * side + j, i * side + j + 1]);
      if (i + 1 < side) pairs.push([i * side + j, (i + 1) * side + j]);
    }
  }
  const rows = countFill(
    side * side,
    pairs,
    Int32Array.from({ length: side * side }, (_, i) => i),
  );
  assert.ok(countFill(side * side, pairs, orderOf(side * side, pairs)) < rows / 2);
});

test("a bus bar with thousands of circuits between it and another costs no more than its circuits", () => {
  const pairs: (readonly [number, number])[] = [];
  const circuits = 20_000;
  for (let k = 0; k < circuits; k++) pairs.push([0, 2 + 2 * k], [2 + 2 * k, 3 + 2 * k], [3 + 2 * k, 1]);
  const nodes = 2 + 2 * circuits;
  // Linear work takes some tens of ms; walking the bar for each circuit would be 400 million steps.
  const began = performance.now();
  const order = orderOf(nodes, pairs);
  assert.ok(performance.now() - began < 2000);
  const last = Array.from(order.slice(-3));
  assert.ok(last.includes(0) || last.includes(1));
});
