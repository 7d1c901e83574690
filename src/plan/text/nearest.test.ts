import { test } from "vitest";
import assert from "node:assert/strict";
import { nearestNames } from "./nearest.ts";

const PARTS = [
  "B1",
  "B2",
  "BP",
  "BN",
  "PNL",
  "fridge",
  "masthead light",
  "bilge pump",
  "water pump",
  "lights fore",
  "Kühlschrank",
];

test("the names that may have been meant come first", () => {
  assert.deepEqual(nearestNames("frige", PARTS), ["fridge"]);
  assert.deepEqual(nearestNames("firdge", PARTS), ["fridge"]);
  assert.deepEqual(nearestNames("Bilge  Pump", PARTS).slice(0, 1), ["bilge pump"]);
  assert.deepEqual(nearestNames("bilge-pump", PARTS).slice(0, 1), ["bilge pump"]);
  assert.deepEqual(nearestNames("kuhlschrank", PARTS), ["Kühlschrank"]);
  assert.deepEqual(nearestNames("light", PARTS), ["masthead light", "lights fore"]);
  assert.deepEqual(nearestNames("W1", PARTS), ["B1"]);
});

test("three at most, in the order of the plan where equally near, and none where none is near", () => {
  assert.deepEqual(nearestNames("B3", PARTS), ["B1", "B2", "BP"]);
  assert.deepEqual(nearestNames("B3", PARTS, 1), ["B1"]);
  assert.deepEqual(nearestNames("autopilot", PARTS), []);
  assert.deepEqual(nearestNames("", PARTS), []);
  assert.deepEqual(nearestNames("x".repeat(100_000), PARTS), []);
});

test("the number of changes is that of the textbook recursion", () => {
  // An independent, slow definition: optimal string alignment by recursion.
  const slow = (a: string, b: string): number => {
    if (a === "" || b === "") return a.length + b.length;
    const [x, y] = [a.slice(0, -1), b.slice(0, -1)];
    const swapped = a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1);
    const swap = swapped ? slow(a.slice(0, -2), b.slice(0, -2)) + 1 : Infinity;
    return Math.min(slow(x, b) + 1, slow(a, y) + 1, slow(x, y) + (a.at(-1) === b.at(-1) ? 0 : 1), swap);
  };
  const words: string[] = [];
  for (const a of "abc") for (const b of "abc") for (const c of "abc") words.push(`${a}${b}${c}a`);
  for (const word of words) {
    const expected = words.filter((other) => slow(word, other) <= 1);
    assert.deepEqual(nearestNames(word, words, 99).sort(), expected.sort(), word);
  }
});
