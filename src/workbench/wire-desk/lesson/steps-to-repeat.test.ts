import { test } from "vitest";
import assert from "node:assert/strict";
import { stepsToRepeat, type Said } from "./steps-to-repeat.ts";

const said = (known: boolean): Said => ({ given: 1, judged: { outcome: "known", says: "" }, known });

test("steps to repeat are those not known at first, though they were put right, and those left out", () => {
  assert.deepEqual(stepsToRepeat(["a", "b", "c"], { a: said(true), b: said(false) }), [1, 2]);
  assert.deepEqual(stepsToRepeat(["a"], { a: said(true) }), []);
});
