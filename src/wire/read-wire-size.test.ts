import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import {
  awgSize,
  kcmilSize,
  metricSize,
  readWireSize,
  saeSize,
  sizeSystems,
  stockedSizes,
  type WireSize,
} from "./index.ts";

const read = (text: string): WireSize | null => {
  const reading = readWireSize(text);
  return reading.ok ? reading.size : null;
};
const ids = (text: string): string[] => {
  const reading = readWireSize(text);
  return (reading.ok ? reading.hints : reading.problems).map(({ id }) => id);
};

describe("sizes are read as people write them", () => {
  const spellings: [WireSize | null, string[]][] = [
    [
      awgSize("12"),
      [
        "12 AWG",
        "12AWG",
        "AWG 12",
        "awg12",
        "12 ga",
        "12 ga.",
        "12 gauge",
        "#12",
        "# 12",
        "No. 12",
        "no 12 AWG",
        "12-AWG",
        "012 AWG",
      ],
    ],
    [awgSize("8"), ["8 B&S", "B&S 8", "8 b & s"]],
    [awgSize("1/0"), ["1/0", "1/0 AWG", "0 AWG", "#0", "AWG 0", "1 / 0"]],
    [awgSize("2/0"), ["2/0", "00", "00 AWG", "2/0 gauge", "2⁄0"]],
    [awgSize("4/0"), ["4/0", "0000", "AWG 4/0", "#4/0", "4/0-AWG"]],
    [awgSize("2"), ["2 AWG", "#2"]],
    [
      kcmilSize(250),
      ["250 kcmil", "250 MCM", "250mcm", "250,000 CM", "250 000 cmil", "250000 circular mils", "250000 circ. mils"],
    ],
    [kcmilSize(313.1), ["313.1 kcmil", "313,1 MCM"]],
    [
      metricSize(10),
      [
        "10 mm²",
        "10mm2",
        "10 mm^2",
        "10 sq mm",
        "10 sq. mm",
        "10 sqmm",
        "10 SQ",
        "10 mmq",
        "10 qmm",
        "10 кв.мм",
        "10 mm sq",
        "10 square millimetres",
      ],
    ],
    [metricSize(2.5), ["2.5 mm²", "2,5 mm²", "2,50mm2", "2.5\u00a0mm²"]],
    [metricSize(0.75), [".75 mm²", "0,75 mm2"]],
    [saeSize("12"), ["12 SAE", "SAE 12", "12 ga SAE", "12 SAE gauge", "12 sae j1128"]],
    [saeSize("4/0"), ["4/0 SAE", "0000 SAE"]],
  ];
  for (const [expected, texts] of spellings) {
    test(`${expected?.label ?? "none"}: ${texts.join(" · ")}`, () => {
      assert.ok(expected !== null);
      for (const text of texts) assert.deepEqual(read(text), expected, text);
    });
  }

  test("a label read back is the same size", () => {
    for (const system of sizeSystems) for (const size of stockedSizes(system)) assert.deepEqual(read(size.label), size);
  });

  test("a bare gauge means the system that the build is bought in", () => {
    const reading = readWireSize("12 ga", { system: "SAE" });
    assert.ok(reading.ok);
    assert.equal(reading.size.label, "12 SAE");
    assert.deepEqual(reading.hints, []);
    assert.deepEqual(ids("12 ga"), ["gauge-of-which-kind"]);
  });
});

describe("what has two meanings is asked back", () => {
  const questions: [string, string[]][] = [
    ["area-or-diameter", ["6 mm", "6mm", "2,5 mm", "6 millimetres"]],
    ["separator-ambiguous", ["1,000 mm²"]],
    [
      "cable-label",
      ["12/2", "12-2", "14/3 w/G", "12/3 AWG", "10-3 with ground", "3G2.5", "3x2,5 mm²", "2×10", "3G1,5"],
    ],
    ["strand-count", ["7/0.32", "65/.30", "14/0,30 mm", "19/27", "105/30"]],
    ["other-gauge", ["14 SWG", "14 S.W.G.", "2/0 swg", "99 swg"]],
    ["letter-for-digit", ["2/O", "1/o AWG"]],
    ["size-unit-missing", ["12", "35", "1.5", "0"]],
    ["not-a-size", ["50 AWG", "41 AWG", "22 SAE", "0 mm²", "1001 mm²", "3000 kcmil"]],
    [
      "size-expected",
      ["", "  ", "abc", "#10 ring", "12.5 AWG", "5/0", "105500 cm", "-6 mm²", "6 mm² red", "1e3 mm²", "12 AWG; rm"],
    ],
  ];
  for (const [id, texts] of questions) {
    test(`${id}: ${texts.join(" · ")}`, () => {
      for (const text of texts) {
        const reading = readWireSize(text);
        assert.ok(!reading.ok, text);
        assert.deepEqual(ids(text), [id], text);
        for (const problem of reading.problems) assert.ok(problem.hint !== undefined && problem.hint !== "", text);
      }
    });
  }

  test("the place of a problem is the text without the blanks around it", () => {
    const reading = readWireSize("  6 mm ");
    assert.ok(!reading.ok);
    assert.deepEqual(reading.problems[0]?.at, [2, 6]);
  });

  test("a number alone is offered as a gauge only where power conductors have that gauge", () => {
    const hint = (text: string) => {
      const reading = readWireSize(text);
      return reading.ok ? "" : (reading.problems[0]?.hint ?? "");
    };
    assert.equal(hint("12"), "write `12 AWG` or `12 mm²`");
    assert.equal(hint("35"), "write `35 mm²`");
    assert.equal(hint("1,5"), "write `1.5 mm²`");
  });

  test("strands make the areas of the size tables: 7/0.32, 14/0.30, 65/0.30, 19/27", () => {
    // Areas as the wire trade prints them beside these make-ups.
    for (const [text, printed] of [
      ["7/0.32", 0.563],
      ["14/0.30", 0.99],
      ["28/0.30", 1.98],
      ["65/.30", 4.59],
      ["120/0.30", 8.48],
      ["19/27", 1.94],
    ] as const) {
      const reading = readWireSize(text);
      assert.ok(!reading.ok);
      // Two or three digits printed.
      assert.ok(Math.abs(Number(reading.problems[0]?.data["areaMm2"]) - printed) < 0.006, text);
    }
  });
});

describe("hints", () => {
  test("a size that IEC 60228 does not have is taken and told", () => {
    assert.deepEqual(ids("4.59 mm²"), ["no-standard-size"]);
    assert.deepEqual(ids("13 mm²"), ["no-standard-size"]);
    assert.deepEqual(ids("16 mm²"), []);
  });

  test("a decimal comma is read and told", () => {
    assert.deepEqual(ids("2,5 mm²"), ["decimal-comma"]);
  });
});

describe("hostile text", () => {
  test("whatever is written, the reader answers and never throws", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: "binary" }), fc.stringMatching(/^[0-9/.,# awgmcGASE²-]{0,30}$/)),
        (text) => {
          const reading = readWireSize(text);
          if (reading.ok) assert.ok(reading.size.areaMm2 > 0 && reading.size.areaMm2 < 1014);
          else assert.equal(reading.problems.length, 1);
          assert.deepEqual(JSON.parse(JSON.stringify(reading)), reading);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("long texts take no longer than their length, and are cut in the message", () => {
    const reading = readWireSize("1".repeat(100_000));
    assert.ok(!reading.ok);
    assert.ok((reading.problems[0]?.message.length ?? 0) < 120);
  });

  test("what does not show is not passed over", () => {
    assert.deepEqual(ids("1\u200b2 AWG"), ["size-expected"]);
    const reading = readWireSize("1\u202e2 AWG");
    assert.ok(!reading.ok && reading.problems[0]?.message.includes("�") === true);
  });
});
