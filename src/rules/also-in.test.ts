import { test } from "vitest";
import assert from "node:assert/strict";
import { alsoInSays } from "./also-in.ts";

test("positions of one state never run together with the next state", () => {
  const states = ["GEN running, INV inverting", "INL in, INV inverting", "INL in"];
  assert.equal(alsoInSays(states), "GEN running, INV inverting; INL in, INV inverting; and INL in");
});

test("of more than four states three are named, the others counted", () => {
  assert.equal(alsoInSays(["a", "b", "c", "d"]), "a, b, c and d");
  assert.equal(alsoInSays(["a", "b", "c", "d", "e"], "`states`"), "a, b, c and 2 more states (see `states`)");
  assert.equal(alsoInSays(["a, b", "c", "d", "e", "f"]), "a, b; c; d; and 2 more states");
  assert.equal(alsoInSays(["a"]), "a");
});
