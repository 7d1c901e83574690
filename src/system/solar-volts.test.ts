import assert from "node:assert/strict";
import { test } from "vitest";
import { coldByCoefficient, coldByFactor, coldFactor, coldVolts, fallEachKelvin } from "./solar-volts.ts";

const tenths = (x: number): number => Math.round(10 * x) / 10;

test("strings in the cold by both methods, as worked by hand", () => {
  // volts of one module, modules in series, 1/K, °C, by the coefficient, by the factor of NEC table 690.7(A)
  const list = [
    [24.3, 2, -0.0028, -30, 56.1, 58.8],
    [37.3, 3, -0.0025, -32, 127.8, 137.6],
    [37.3, 4, -0.0025, -32, 170.5, 183.5],
    [24.4, 1, -0.0028, -10, 26.8, 27.8],
  ] as const;
  for (const [voc, series, perKelvin, lowestC, coefficient, table] of list) {
    assert.equal(tenths(coldByCoefficient({ volts: series * voc, perKelvin, lowestC })), coefficient);
    assert.equal(tenths(coldByFactor({ volts: series * voc, factor: coldFactor(lowestC) })), table);
  }
});

test("the factor is that of the band, at both of its ends, and grows with the cold without end", () => {
  for (const [lowestC, factor] of [
    [24, 1.02],
    [20, 1.02],
    [19, 1.04],
    [0, 1.1],
    [-1, 1.12],
    [-5, 1.12],
    [-6, 1.14],
    [-36, 1.25],
    [-40, 1.25],
    [25, 1],
    [40, 1],
  ] as const)
    assert.equal(coldFactor(lowestC), factor, `${lowestC} °C`);
  for (let t = 40; t > -60; t--) assert.ok(coldFactor(t - 1) >= coldFactor(t), `${t} °C`);
});

test("the table is the larger of the two for the coefficients of modules on sale", () => {
  // −0.24 to −0.31 %/K at open circuit
  for (const perKelvin of [-0.0024, -0.0028, -0.0031])
    for (let lowestC = -40; lowestC < 20; lowestC++)
      assert.ok(coldByCoefficient({ volts: 1, perKelvin, lowestC }) <= coldFactor(lowestC) + 1e-9, `${lowestC} °C`);
});

test("without a coefficient the volts lie between the label and the table, without a place up to its end", () => {
  const volts = { low: 40, high: 40, origin: "given" } as const;
  const cold = coldVolts({ volts }, { low: -10, high: -10, origin: "given" });
  assert.deepEqual([cold.low, tenths(cold.high), cold.lacks], [40, 45.6, ["volts per kelvin"]]);
  assert.deepEqual(coldVolts({ volts }, undefined), {
    low: 40,
    high: 50,
    lacks: ["volts per kelvin", "lowest temperature"],
  });
});

test("a place that is never colder than the label's 25 °C adds nothing", () => {
  const module = {
    volts: { low: 40, high: 40, origin: "given" },
    voltsPerKelvin: { low: -0.003, high: -0.003, origin: "given" },
  } as const;
  assert.equal(coldVolts(module, { low: 28, high: 28, origin: "given" }).high, 40);
});

test("a coefficient in volts, or without its sign, is the same share", () => {
  const slope = (x: number, dimension: "per kelvin" | "voltage per kelvin") =>
    ({ value: { low: x, high: x, text: "", dimension }, span: [0, 0] }) as const;
  const volts = { value: { low: 40, high: 40, text: "" }, span: [0, 0] } as const;
  assert.equal(fallEachKelvin(slope(-0.003, "per kelvin"), undefined)?.low, -0.003);
  assert.equal(fallEachKelvin(slope(0.003, "per kelvin"), undefined)?.low, -0.003);
  assert.equal(fallEachKelvin(slope(-0.12, "voltage per kelvin"), volts)?.low, -0.003);
  assert.equal(fallEachKelvin(slope(-0.12, "voltage per kelvin"), undefined), undefined);
});
