import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { cite, lookUp, lookUpNextDown, lookUpNextUp, type Table } from "./index.ts";

const areas: Table<{ areaMm2: number; amps: number | null }> = {
  id: "test/areas",
  cite: cite("trade-practice", "table", "practice"),
  key: ["areaMm2"],
  columns: { areaMm2: { unit: "mm²", trust: "read" }, amps: { unit: "A", trust: "read" } },
  exceptions: [[0, "amps", "memory"]],
  rows: [
    { areaMm2: 1, amps: 10 },
    { areaMm2: 1.5, amps: 15 },
    { areaMm2: 2.5, amps: null },
    { areaMm2: 4, amps: 30 },
  ],
};

test("an exact row gives its value, unit and trust", () => {
  const found = lookUp(areas, 1, "amps");
  assert.deepEqual(found, {
    value: 10,
    unit: "A",
    table: "test/areas",
    row: "1",
    column: "amps",
    trust: "memory",
    source: cite("trade-practice", "table", "memory"),
  });
  assert.equal(lookUp(areas, 1.5, "amps")?.trust, "read");
});

test("a row that is not there, and an empty cell, give nothing", () => {
  assert.equal(lookUp(areas, 2, "amps"), null);
  assert.equal(lookUp(areas, 2.5, "amps"), null);
  assert.equal(lookUpNextDown(areas, 0.9, "amps"), null);
  assert.equal(lookUpNextDown(areas, 3, "amps"), null); // the 2.5 row is empty: no slipping down to 1.5
  assert.equal(lookUpNextUp(areas, 4.1, "amps"), null);
});

test("between rows the next row down or up is taken, never a value between", () => {
  fc.assert(
    fc.property(fc.double({ min: 1, max: 4, noNaN: true }), (at) => {
      const down = lookUpNextDown(areas, at, "areaMm2")?.value ?? NaN;
      const up = lookUpNextUp(areas, at, "areaMm2")?.value ?? NaN;
      assert.ok(down <= at && at <= up);
      assert.ok(!areas.rows.some(({ areaMm2 }) => areaMm2 > down && areaMm2 < up && areaMm2 !== at));
    }),
  );
});

test("a band without an upper end takes whatever lies above", () => {
  const bands: Table<{ from: number; to: number | null; factor: number }> = {
    ...areas,
    id: "test/bands",
    key: ["from"],
    columns: {
      from: { unit: "", trust: "read" },
      to: { unit: "", trust: "read" },
      factor: { unit: "", trust: "read" },
    },
    exceptions: [],
    rows: [
      { from: 1, to: 3, factor: 1 },
      { from: 4, to: null, factor: 0.8 },
    ],
  };
  assert.equal(lookUpNextUp(bands, 3, "factor", "to")?.value, 1);
  assert.equal(lookUpNextUp(bands, 40, "factor", "to")?.value, 0.8);
  assert.equal(lookUpNextDown(bands, 3, "factor")?.value, 1);
});
