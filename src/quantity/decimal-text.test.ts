import { test } from "vitest";
import assert from "node:assert/strict";
import { decimalText } from "./decimal-text.ts";

test("rounds half away from zero, on the digits that people see", () => {
  const cases: readonly (readonly [number, number, string])[] = [
    [0.5, 0, "1"],
    [1.5, 0, "2"],
    [2.5, 0, "3"],
    [1.005, 2, "1.01"], // the double is 1.00499999999999989…
    [2.675, 2, "2.68"],
    [1.45, 1, "1.5"],
    [0.1 + 0.2, 1, "0.3"],
    [1.0049, 2, "1.00"],
    [0.449, 0, "0"], // once: not 0.449 → 0.45 → 0.5 → 1
    [-2.5, 0, "3"], // the sign is the caller's
  ];
  for (const [x, decimals, text] of cases) assert.equal(decimalText(x, { decimals }), text, String(x));
});

test("keeps at most so many figures and every digit left of the point", () => {
  const cases: readonly (readonly [number, number, string])[] = [
    [1234, 3, "1234"],
    [123.45, 3, "123"],
    [12.345, 3, "12.3"],
    [0.00512, 2, "0.0051"],
    [9.996, 3, "10"],
    [0.09996, 3, "0.1"],
    [12, 3, "12"],
    [0, 3, "0"],
    [1e21, 3, "1000000000000000000000"],
    [1e-9, 2, "0.000000001"],
  ];
  for (const [x, figures, text] of cases) assert.equal(decimalText(x, { figures }), text, String(x));
});

test("fills columns", () => {
  assert.equal(decimalText(0, { decimals: 2 }), "0.00");
  assert.equal(decimalText(0.004, { decimals: 2 }), "0.00");
  assert.equal(decimalText(99.995, { decimals: 2 }), "100.00");
  assert.equal(decimalText(1e-12, { decimals: 3 }), "0.000");
});

test("what cannot be printed is a defect", () => {
  for (const x of [NaN, Infinity, -Infinity]) assert.throws(() => decimalText(x, { figures: 3 }), RangeError);
});
