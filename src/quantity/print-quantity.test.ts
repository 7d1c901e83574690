import { test } from "vitest";
import assert from "node:assert/strict";
import { toSi } from "./convert.ts";
import { dimensions, type Dimension, type Si } from "./dimension.ts";
import { printQuantity, printRange, type PrintOptions } from "./print-quantity.ts";
import { metres, ohms, volts } from "./quantity.ts";

test("chooses a unit of fitting size", () => {
  const cases: readonly (readonly [Dimension, number, string])[] = [
    ["resistance", 0.00513, "5.13 mΩ"],
    ["resistance", 0.5, "500 mΩ"],
    ["resistance", 0.00005, "50 µΩ"],
    ["resistance", 4700, "4.7 kΩ"],
    ["current", 3000, "3 kA"],
    ["current", 999.4, "999 A"],
    ["current", 999.7, "1 kA"], // as it is rounded, not as it is
    ["current", 0.12, "0.12 A"],
    ["current", 0.03, "30 mA"],
    ["voltage", 0.36, "0.36 V"],
    ["voltage", 0.05, "50 mV"],
    ["voltage", 12.8, "12.8 V"],
    ["length", 0.31, "310 mm"],
    ["length", 5.2, "5.2 m"],
    ["length", 1234, "1234 m"],
    ["area", 107.2193, "107 mm²"],
    ["energy", 900_000, "250 Wh"],
    ["energy", 12.5, "12.5 J"],
    ["charge", 540_000, "150 Ah"],
    ["temperature", -10, "−10 °C"],
    ["temperature", 30, "30 °C"],
    ["time", 0.00004, "40 µs"],
    ["time", 0.0004, "0.4 ms"],
    ["time", 0.25, "0.25 s"],
    ["time", 90, "90 s"],
    ["time", 5400, "90 min"],
    ["time", 36_000, "10 h"],
    ["daily time", 360, "0.1 h/day"],
    ["daily energy", 900_000, "250 Wh/day"],
    ["sun-hours", 18_000, "5 sun-hours"],
    ["ratio", 0.1234, "12.3 %"],
    ["per kelvin", -0.0028, "−0.28 %/K"],
    ["count", 12_345, "12345"],
    ["resistance per length", 0.000554, "0.554 Ω/km"],
    ["let-through", 105_000, "105000 A²s"],
  ];
  for (const [dimension, si, text] of cases) assert.equal(printQuantity(si as Si<Dimension>, dimension), text);
});

test("prints the units of the US trade where they are asked for", () => {
  const cases: readonly (readonly [Dimension, number, string])[] = [
    ["length", 4.9784, "16 ft 4 in"],
    ["length", 0.3048, "1 ft"],
    ["length", 0.0254 * 23.96, "2 ft"], // 1 ft 11.96 in: the inches are rounded before the feet are taken out
    ["length", 0.0254 * 23.9, "1 ft 11.9 in"],
    ["length", 0.1778, "7 in"],
    ["length", -4.9784, "−16 ft 4 in"],
    ["temperature", 50, "122 °F"],
    ["temperature", 0, "32 °F"],
    ["temperature difference", 10, "18 °F"],
    ["torque", 0.5 * 0.1129848, "0.5 lbf·in"],
    ["torque", 20, "14.8 lbf·ft"],
    ["area", 126.6769, "250 kcmil"],
    ["area", 107.2193, "211600 cmil"],
    ["mass", 0.45359237 * 3.5, "3.5 lb"],
    ["current", 30, "30 A"],
  ];
  for (const [dimension, si, text] of cases) {
    assert.equal(printQuantity(si as Si<Dimension>, dimension, { units: "US" }), text);
  }
});

test("does as it is told", () => {
  const told: readonly (readonly [PrintOptions<"voltage">, string])[] = [
    [{ decimals: 2 }, "11.60 V"],
    [{ decimals: 0 }, "12 V"],
    [{ figures: 2 }, "12 V"],
    [{ decimals: 2, decimal: "," }, "11,60 V"],
    [{ unit: "mV" }, "11600 mV"],
    [{ unit: "kV", figures: 5 }, "0.0116 kV"],
  ];
  for (const [options, text] of told) assert.equal(printQuantity(volts(11.6), "voltage", options), text);
  assert.equal(printQuantity(metres(4.9784), "length", { units: "US", unit: "ft" }), "16.3 ft");
});

test("no zero has a sign, and nothing has an exponent", () => {
  assert.equal(printQuantity(volts(-0), "voltage"), "0 V");
  assert.equal(printQuantity(volts(-0.0004), "voltage", { unit: "V", decimals: 2 }), "0.00 V");
  assert.equal(printQuantity(ohms(1e-12), "resistance"), "0.000001 µΩ");
  assert.equal(printQuantity(toSi(0.2, "length", "in"), "length", { units: "US", decimals: 0 }), "0 in");
  assert.equal(printQuantity(volts(-1e15), "voltage"), "−1000000000000 kV");
});

test("every dimension prints zero, small and large in both systems", () => {
  for (const dimension of Object.keys(dimensions) as Dimension[]) {
    for (const units of ["metric", "US"] as const) {
      for (const si of [0, 1e-15, 1, 1e15]) {
        assert.match(printQuantity(si as Si<Dimension>, dimension, { units }), /^−?\d+(\.\d+)?( |$)/);
      }
    }
  }
});

test("ranges share a unit and say a number once", () => {
  assert.equal(printRange(metres(2.4), metres(3.1), "length"), "2.4…3.1 m");
  assert.equal(printRange(metres(0.4), metres(3.1), "length"), "0.4…3.1 m");
  assert.equal(printRange(metres(-3), metres(-0.4), "length"), "−3…−0.4 m");
  assert.equal(printRange(metres(3), metres(3.0001), "length"), "3 m");
  assert.equal(
    printRange(toSi(8, "length", "in"), toSi(40, "length", "in"), "length", { units: "US" }),
    "8 in…3 ft 4 in",
  );
  assert.equal(printRange(toSi(2, "count", ""), toSi(3, "count", ""), "count"), "2…3");
});

test("a result that is no number is a defect", () => {
  assert.throws(() => printQuantity(volts(NaN), "voltage"), RangeError);
});
