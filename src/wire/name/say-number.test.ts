import { test } from "vitest";
import assert from "node:assert/strict";
import { sayNumber } from "./say-number.ts";

test.each([
  [0, "nought"],
  [1.5, "one and a half"],
  [0.5, "nought point five"],
  [0.75, "nought point seven five"],
  [1.25, "one point two five"],
  [12, "twelve"],
  [20, "twenty"],
  [95, "ninety-five"],
  [120, "one twenty"],
  [250, "two fifty"],
  [300, "three hundred"],
  [101, "one hundred and one"],
  [1000, "one thousand"],
  [1250, "one thousand two fifty"],
] as const)("%d is %s", (value, said) => {
  assert.equal(sayNumber(value), said);
});
