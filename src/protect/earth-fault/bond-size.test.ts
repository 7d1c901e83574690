import fc from "fast-check";
import assert from "node:assert/strict";
import { test } from "vitest";
import { awgSize, kcmilSize, stockedSizes } from "../../wire/index.ts";
import { mainBonding, oneSizeBelow, toElectrode } from "./bond-size.ts";
import { electrodeConductorAC, electrodeConductorDC } from "./earth-electrode-size.ts";

const awg = (name: string): number => (/^\d{3,}$/.test(name) ? kcmilSize(Number(name)) : awgSize(name))?.areaMm2 ?? NaN;
const near = (a: number, b: number): void => {
  assert.ok(Math.abs(a - b) < 2e-3 * b, `${a}, ${b}`);
};

test("NEC Table 250.66: the largest supply conductor of each row, copper, and the conductor to the electrode", () => {
  // The rows of the printed table: to 2 AWG; 1 or 1/0; 2/0 or 3/0; to 350 kcmil; to 600; to 1100; above.
  for (const [supply, conductor] of [
    ["14", "8 AWG"],
    ["2", "8 AWG"],
    ["1", "6 AWG"],
    ["1/0", "6 AWG"],
    ["2/0", "4 AWG"],
    ["3/0", "4 AWG"],
    ["4/0", "2 AWG"],
    ["350", "2 AWG"],
    ["400", "1/0 AWG"],
    ["600", "1/0 AWG"],
    ["700", "2/0 AWG"],
    ["1000", "2/0 AWG"],
  ] as const)
    assert.equal(electrodeConductorAC(awg(supply), "copper").size.label, conductor, supply);
  assert.equal(electrodeConductorAC(600, "copper").size.label, "3/0 AWG");
  // 250.66(A) and (B): a rod asks for no more than 6 AWG copper, concrete-encased metal for no more than 4 AWG.
  assert.equal(electrodeConductorAC(awg("350"), "copper", "rod pipe or plate").size.label, "6 AWG");
  assert.equal(electrodeConductorAC(awg("350"), "copper", "concrete-encased").size.label, "4 AWG");
  assert.equal(electrodeConductorAC(awg("2"), "copper", "rod pipe or plate").size.label, "8 AWG");
});

test("NEC 250.166: 8 AWG at least, the largest conductor that is supplied, 3/0 is enough; 6 AWG to a rod, 4 AWG to a foundation", () => {
  near(electrodeConductorDC(awg("12"), "other").areaMm2, awg("8"));
  near(electrodeConductorDC(awg("2"), "other").areaMm2, awg("2"));
  near(electrodeConductorDC(awg("4/0"), "other").areaMm2, awg("3/0"));
  near(electrodeConductorDC(awg("4/0"), "rod pipe or plate").areaMm2, awg("6"));
  near(electrodeConductorDC(awg("4/0"), "concrete-encased").areaMm2, awg("4"));
});

test("IEC 60364-5-54 544.1.1: half of the largest protective conductor, 6 mm² at least, 25 mm² is enough", () => {
  // Live conductor, protective conductor by Table 54.2, and half of it.
  for (const [live, bonding] of [
    [2.5, 6],
    [10, 6],
    [16, 8],
    [25, 8],
    [35, 8],
    [50, 12.5],
    [95, 23.75],
    [120, 25],
  ] as const)
    near(mainBonding(live).areaMm2, bonding);
  // 542.3.1: as a protective conductor, 6 mm² of copper at least.
  near(toElectrode(1.5).areaMm2, 6);
  near(toElectrode(10).areaMm2, 10);
  near(toElectrode(50).areaMm2, 25);
});

test("a thicker wire never asks for a thinner bond", () => {
  const shelf = stockedSizes("mm²").map((s) => s.areaMm2);
  const area = fc.double({ min: 0.5, max: 400, noNaN: true });
  fc.assert(
    fc.property(area, area, (a, b) => {
      const [thin, thick] = [Math.min(a, b), Math.max(a, b)];
      for (const of of [
        (x: number) => oneSizeBelow(x, shelf),
        (x: number) => mainBonding(x).areaMm2,
        (x: number) => toElectrode(x).areaMm2,
        (x: number) => electrodeConductorAC(x, "copper").size.areaMm2,
        (x: number) => electrodeConductorAC(x, "aluminium").size.areaMm2,
        (x: number) => electrodeConductorDC(x, "other").areaMm2,
      ])
        assert.ok(of(thin) <= of(thick) + 1e-9, `${thin} ${thick}`);
    }),
  );
});
