import { describe, test } from "vitest";
import assert from "node:assert/strict";
import type { Units } from "../contract.ts";
import { stockedSizes } from "../../wire/index.ts";
import {
  inSentence,
  otherSize,
  printAmps,
  printFigureIn,
  printLength,
  printLengthValue,
  printShare,
  printSize,
  printTemperature,
  printVolts,
} from "./print-in-units.ts";

const metric: Units = { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." };
const comma: Units = { ...metric, decimal: "," };
const us: Units = { lengths: "ft", sizes: "AWG", temperatures: "°F", decimal: "." };

describe("amounts in the person's units", () => {
  test("lengths, temperatures, amps, volts and shares", () => {
    const rows: readonly (readonly [string, string])[] = [
      [printLength(5.2, metric), "5.2 m"],
      [printLength(5.2, comma), "5,2 m"],
      [printLength(20.5, metric), "20.5 m"],
      [printLength(12 * 0.3048, us), "12 ft"],
      [printLength(4.9784, us), "16 ft 4 in"],
      [printLength(null, us), "–"],
      [printTemperature(60, us), "140 °F"],
      [printTemperature(-10, metric), "−10 °C"],
      [printAmps(4.3, comma), "4,3 A"],
      [printAmps(-1e-9, metric), "0 A"],
      [printVolts(12.096, comma), "12,10 V"],
      [printShare(0.0556, metric), "5.6 %"],
    ];
    for (const [printed, expected] of rows) assert.equal(printed, expected);
  });

  test("a range and an unknown length", () => {
    assert.equal(printLengthValue({ low: 2.4, high: 3.1, origin: "given" }, comma), "2,4 m…3,1 m");
    assert.equal(printLengthValue({ low: 0, high: 0, origin: "unknown" }, metric), "unknown");
  });

  test("figures of rules", () => {
    assert.equal(printFigureIn({ value: 0.31, unit: "m" }, metric), "310 mm");
    assert.equal(printFigureIn({ value: 0.1778, unit: "m" }, us), "7 in");
    assert.equal(printFigureIn({ value: 0.0312, unit: "share" }, comma), "3,12 %");
    assert.equal(printFigureIn({ value: 11.04, unit: "V" }, comma), "11,04 V");
    assert.equal(printFigureIn({ value: 1 / 0, unit: "A" }, metric), "more than any limit");
    assert.equal(printFigureIn({ value: 0.005129, unit: "Ω" }, comma), "5,13 mΩ");
    assert.equal(printFigureIn({ value: 122, unit: "°C" }, us), "252 °F");
  });
});

describe("sizes are labels", () => {
  test("the label stays; the other system stands beside it for whoever reads that", () => {
    const size = { label: "35 mm²", areaMm2: 35 };
    assert.equal(printSize(size, metric), "35 mm²");
    assert.equal(printSize(size, us), "35 mm², next not smaller: 1 AWG");
    assert.equal(
      printSize({ label: "2.5 mm²", areaMm2: 2.5 }, { ...comma, sizes: "both" }),
      "2,5 mm², next not smaller: 12 AWG",
    );
  });

  // Published list "smallest metric size with at least the AWG's area".
  test("agrees with a published list from AWG to mm²", () => {
    const printed = {
      18: 1,
      16: 1.5,
      14: 2.5,
      12: 4,
      10: 6,
      8: 10,
      6: 16,
      4: 25,
      2: 35,
      1: 50,
      "1/0": 70,
      "2/0": 70,
      "3/0": 95,
      "4/0": 120,
    };
    for (const [name, mm2] of Object.entries(printed)) {
      const size = stockedSizes("AWG").find((s) => s.name === name);
      assert.ok(size !== undefined, name);
      assert.equal(otherSize(size, metric), `next not smaller: ${mm2} mm²`, name);
    }
  });

  test("what is named is never smaller", () => {
    for (const [from, to] of [
      ["AWG", "mm²"],
      ["mm²", "AWG"],
    ] as const) {
      for (const size of stockedSizes(from)) {
        const said = otherSize(size, { ...metric, sizes: to });
        if (said === null) continue;
        const other = stockedSizes(to).find((s) => said.endsWith(` ${s.label}`));
        assert.ok(other !== undefined && other.areaMm2 >= size.areaMm2 - 1e-9, `${size.label}: ${said}`);
      }
    }
  });
});

test("a comma in a sentence stands in figures with a unit alone", () => {
  assert.equal(
    inSentence("W12 loses 1.60 V, 13.3 %, at 2.5 mm²; ISO 10133:2012 4.7 and 33 CFR 183.425 Table 5", comma),
    "W12 loses 1,60 V, 13,3 %, at 2,5 mm²; ISO 10133:2012 4.7 and 33 CFR 183.425 Table 5",
  );
  assert.equal(inSentence("edition 1.2 mentions", comma), "edition 1.2 mentions");
  assert.equal(inSentence("1.60 V", metric), "1.60 V");
});
