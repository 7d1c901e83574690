import { test } from "vitest";
import assert from "node:assert/strict";
import {
  awgSize,
  compareSizes,
  isIecSize,
  kcmilSize,
  metricSize,
  nextSizeUp,
  saeSize,
  sizeSystems,
  stockedSizeAtLeast,
  stockedSizes,
} from "./index.ts";

test("areas of the American gauge are those of ASTM B258", () => {
  // n for 1/0 … 4/0 is 0 … −3
  const numbers = [
    ["36", 36],
    ["18", 18],
    ["10", 10],
    ["1", 1],
    ["1/0", 0],
    ["2/0", -1],
    ["3/0", -2],
    ["4/0", -3],
  ] as const;
  for (const [name, n] of numbers) {
    const inches = 0.005 * 92 ** ((36 - n) / 39);
    const area = (Math.PI / 4) * (inches * 25.4) ** 2;
    // Six digits in the table.
    assert.ok(Math.abs((awgSize(name)?.areaMm2 ?? NaN) / area - 1) < 1e-5, name);
  }
});

test("three numbers up is twice the area, as the trade says", () => {
  for (const [thin, thick] of [
    ["16", "13"],
    ["10", "7"],
    ["4", "1"],
    ["1", "3/0"],
  ] as const) {
    const factor = (awgSize(thick)?.areaMm2 ?? NaN) / (awgSize(thin)?.areaMm2 ?? NaN);
    assert.ok(Math.abs(factor - 2.005) < 0.001, `${thin} to ${thick}: ${factor}`);
  }
});

test("250 kcmil is the next size above 4/0 and 126.7 mm²", () => {
  assert.equal(nextSizeUp(awgSize("4/0") ?? kcmilSize(1))?.label, "250 kcmil");
  assert.ok(Math.abs(kcmilSize(250).areaMm2 - 126.68) < 0.005);
});

test("noughts are one size whichever way they are written", () => {
  assert.deepEqual(awgSize("000"), awgSize("3/0"));
  assert.deepEqual(saeSize("0"), saeSize("1/0"));
});

test("what no system has is null", () => {
  for (const name of ["5/0", "41", "250", "", "toString", "-1", "1.5"]) assert.equal(awgSize(name), null, name);
  for (const name of ["22", "3", "toString"]) assert.equal(saeSize(name), null, name);
});

test("stocked sizes ascend, and walking up from the thinnest meets each of them", () => {
  for (const system of sizeSystems) {
    const sizes = stockedSizes(system);
    assert.deepEqual([...sizes].sort(compareSizes), sizes);
    const walked = [sizes[0]];
    for (let next = sizes[0]; next !== undefined && (next = nextSizeUp(next, system) ?? undefined) !== undefined;)
      walked.push(next);
    assert.deepEqual(walked, sizes);
  }
});

test("every stocked metric size is one of IEC 60228", () => {
  for (const size of stockedSizes("mm²")) assert.ok(isIecSize(size), size.label);
  assert.ok(!isIecSize(metricSize(4.59)));
});

test("the smallest stocked size with an AWG area agrees with the published list of equivalents", () => {
  // "Smallest metric size with at least the AWG's area", an application guide derived from ASTM B258 and IEC 60228
  const published = [
    ["20", 0.75],
    ["18", 1],
    ["16", 1.5],
    ["14", 2.5],
    ["12", 4],
    ["10", 6],
    ["8", 10],
    ["6", 16],
    ["4", 25],
    ["2", 35],
    ["1", 50],
    ["1/0", 70],
    ["2/0", 70],
    ["3/0", 95],
    ["4/0", 120],
  ] as const;
  for (const [name, mm2] of published) {
    assert.equal(stockedSizeAtLeast(awgSize(name)?.areaMm2 ?? NaN, "mm²")?.areaMm2, mm2, name);
  }
  // The other way round, the stocked sizes of the same comparison
  const back = [
    [0.5, "18"],
    [1, "16"],
    [1.5, "14"],
    [2.5, "12"],
    [4, "10"],
    [6, "8"],
    [10, "6"],
    [16, "4"],
    [25, "2"],
    [35, "1"],
    [50, "1/0"],
    [95, "4/0"],
  ] as const;
  for (const [mm2, name] of back) assert.equal(stockedSizeAtLeast(mm2, "AWG")?.name, name);
  assert.equal(stockedSizeAtLeast(300, "AWG"), null);
});
