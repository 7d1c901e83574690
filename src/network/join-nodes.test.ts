import { test } from "vitest";
import assert from "node:assert/strict";
import { findJoinAmps, joinNodes } from "./join-nodes.ts";

test("joins along a chain, and leaves the others alone", () => {
  const joined = joinNodes(5, Int32Array.of(0, 3), Int32Array.of(3, 4));
  assert.equal(joined.count, 3);
  assert.equal(joined.of[0], joined.of[4]);
  assert.notEqual(joined.of[1], joined.of[2]);
  assert.deepEqual(Array.from(joined.ring), [0, 0]);
});

test("what flows in a joint is what the nodes behind it need", () => {
  // 0 —j0— 1 —j1— 2, and 1 —j2— 3 written the other way round; 10 A come in at 0.
  const from = Int32Array.of(0, 1, 3);
  const joined = joinNodes(4, from, Int32Array.of(1, 2, 1));
  const amps = new Float64Array(3);
  findJoinAmps(joined, from, Float64Array.of(-10, 1, 4, 5), amps);
  assert.deepEqual(Array.from(amps), [10, 4, -5]);
});

test("marks the joints of a ring, and only those", () => {
  // a ring 0–1–2, a tail 2–3, a joint of a node with itself
  const joined = joinNodes(4, Int32Array.of(0, 1, 2, 2, 3), Int32Array.of(1, 2, 0, 3, 3));
  assert.deepEqual(Array.from(joined.ring), [1, 1, 1, 0, 1]);
});
