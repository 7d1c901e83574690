import assert from "node:assert/strict";
import { test } from "vitest";
import { gatherNames, gatherStates, type ToldState } from "./index.ts";

const state = (number: number, gives: readonly string[], positions: number): ToldState => ({
  number,
  name: "",
  way: `way ${number}`,
  steps: [],
  actions: number,
  positions,
  gives,
  feeds: [],
  dead: [],
  joins: [],
  dangers: [],
});

test("states that feed the same share a row under the nearest of them, and no position is lost", () => {
  const rows = gatherStates([state(1, [], 5), state(2, ["INL"], 3), state(3, ["INV"], 2), state(4, ["INL"], 1)]);
  assert.deepEqual(
    rows.map((r) => [r.numbers, r.state.way, r.positions]),
    [
      [[1], "way 1", 5],
      [[2, 4], "way 2", 4],
      [[3], "way 3", 2],
    ],
  );
});

test("what is dangerous in one of two states keeps them apart", () => {
  const danger = { grade: "must", says: "terminals of INL are live", rule: null } as const;
  assert.equal(gatherStates([state(1, ["INV"], 1), { ...state(2, ["INV"], 1), dangers: [danger] }]).length, 2);
});

test("only numbers that follow each other are gathered", () => {
  assert.deepEqual(gatherNames(["LC 1", "LC 2", "LC 4", "LC 5", "LC 6"]), ["LC 1", "LC 2", "LC 4 to 6"]);
  assert.deepEqual(gatherNames(["W9 breaker", "W10 breaker", "W11 breaker"]), [
    "W9 breaker",
    "W10 breaker",
    "W11 breaker",
  ]);
  assert.deepEqual(gatherNames(["A 1", "B 2", "C 3"]), ["A 1", "B 2", "C 3"]);
});
