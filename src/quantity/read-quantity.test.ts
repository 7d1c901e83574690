import { test } from "vitest";
import assert from "node:assert/strict";
import type { Amount, Problem } from "./amount.ts";
import type { Dimension } from "./dimension.ts";
import { printAmount } from "./print-amount.ts";
import { readQuantity, type ReadOptions } from "./read-quantity.ts";

type Asked = Dimension | readonly Dimension[];

function amountOf(text: string, dimension: Asked, options?: ReadOptions): Amount {
  const reading = readQuantity(text, dimension, options);
  assert.ok(reading.ok, `${text}: ${reading.problems[0]?.message ?? ""}`);
  return reading.amount;
}

function ends(text: string, dimension: Asked, options?: ReadOptions): readonly [number, number] {
  const amount = amountOf(text, dimension, options);
  assert.ok(amount.form !== "unknown");
  return [amount.low, amount.high];
}

function problemOf(text: string, dimension: Asked, options?: ReadOptions): Problem {
  const reading = readQuantity(text, dimension, options);
  assert.ok(!reading.ok, `${text} was read`);
  assert.equal(reading.problems.length, 1);
  const [problem] = reading.problems;
  assert.ok(problem);
  return problem;
}

/** Sums of inches and differences of doubles may be off in the last of their bits. */
function near(actual: number, expected: number, text: string): void {
  assert.ok(Math.abs(actual - expected) <= 4 * Number.EPSILON * Math.max(1, Math.abs(expected)), `${text}: ${actual}`);
}

test("one number in its unit", () => {
  const cases: readonly (readonly [string, Dimension, number, string])[] = [
    ["3.4 m", "length", 3.4, "3.4 m"],
    ["3.4m", "length", 3.4, "3.4 m"],
    ["3,4 m", "length", 3.4, "3.4 m"],
    ["  3.40   m ", "length", 3.4, "3.40 m"],
    [".5 m", "length", 0.5, "0.5 m"],
    ["007 m", "length", 7, "7 m"],
    ["+5 m", "length", 5, "5 m"],
    ["3.200 m", "length", 3.2, "3.200 m"],
    ["11 ft", "length", 3.3528, "11 ft"],
    ["16 ft 4 in", "length", 4.9784, "16 ft 4 in"],
    ["16ft4in", "length", 4.9784, "16 ft 4 in"],
    ["16' 4\"", "length", 4.9784, "16 ft 4 in"],
    ["16′4″", "length", 4.9784, "16 ft 4 in"],
    ["16'-4\"", "length", 4.9784, "16 ft 4 in"],
    ["16' 4 1/2\"", "length", 4.9911, "16 ft 4 1/2 in"],
    ["16' ½\"", "length", 4.8895, "16 ft 1/2 in"],
    ["-16 ft 4 in", "length", -4.9784, "-16 ft 4 in"],
    ["-0 ft 4 in", "length", -0.1016, "-4 in"],
    ["5 1/2 in", "length", 0.1397, "5 1/2 in"],
    ["5-1/2 in", "length", 0.1397, "5 1/2 in"],
    ["5½ in", "length", 0.1397, "5 1/2 in"],
    ["1/2 in", "length", 0.0127, "1/2 in"],
    ["7 1/2 A", "current", 7.5, "7 1/2 A"],
    ["−10 °C", "temperature", -10, "-10 °C"],
    ["-10 C", "temperature", -10, "-10 °C"],
    ["–10 °C", "temperature", -10, "-10 °C"],
    ["-0 °C", "temperature", 0, "0 °C"],
    ["122 F", "temperature", 50, "122 °F"],
    ["300 K", "temperature", 26.85, "300 K"],
    ["18 °F", "temperature difference", 10, "18 °F"],
    ["1 200 VA", "apparent power", 1200, "1200 VA"],
    ["1\u2009200 VA", "apparent power", 1200, "1200 VA"],
    ["1\u202f200,5 VA", "apparent power", 1200.5, "1200.5 VA"],
    ["1,200.5 VA", "apparent power", 1200.5, "1200.5 VA"],
    ["1.200,5 VA", "apparent power", 1200.5, "1200.5 VA"],
    ["1,200,000 W", "power", 1_200_000, "1200000 W"],
    ["0,200 m", "length", 0.2, "0.200 m"],
    ["1234,500 m", "length", 1234.5, "1234.500 m"],
    ["35 mm²", "area", 35, "35 mm²"],
    ["35mm2", "area", 35, "35 mm²"],
    ["35 sq mm", "area", 35, "35 mm²"],
    ["150 Ah", "charge", 540_000, "150 Ah"],
    ["3.0 kA", "current", 3000, "3.0 kA"],
    ["30 mA", "current", 0.03, "30 mA"],
    ["1 kW", "power", 1000, "1 kW"],
    ["1/2 hp", "power", 372.8499357911351, "1/2 hp"],
    ["52 mΩ", "resistance", 0.052, "52 mΩ"],
    ["40 %", "ratio", 0.4, "40 %"],
    ["40%", "ratio", 0.4, "40 %"],
    ["-0.25 %", "per kelvin", -0.0025, "-0.25 %/K"],
    ["0.003 1/K", "per kelvin", 0.003, "0.003 1/K"],
    ["-68 mV/K", "voltage per kelvin", -0.068, "-68 mV/K"],
    ["10 h/day", "daily time", 36_000, "10 h/day"],
    ["0.1 h", "daily time", 360, "0.1 h"],
    ["10 hours a day", "daily time", 36_000, "10 h/day"],
    ["250 Wh", "daily energy", 900_000, "250 Wh"],
    ["250 Wh/day", "daily energy", 900_000, "250 Wh/day"],
    ["1 h 30 min 10 s", "time", 5410, "1 h 30 min 10 s"],
    ["5 m", "time", 300, "5 min"],
    ["5.0 sun-hours", "sun-hours", 18_000, "5.0 sun-hours"],
    ["5 kWh/m2/day", "sun-hours", 18_000, "5 kWh/m²"],
    ["3", "count", 3, "3"],
    ["1 200", "count", 1200, "1200"],
  ];
  for (const [text, dimension, si, canonical] of cases) {
    const amount = amountOf(text, dimension);
    assert.equal(amount.form, "exact", text);
    near(amount.low, si, text);
    assert.equal(amount.low, amount.high, text);
    assert.equal(printAmount(amount), canonical, text);
  }
});

test("keeps what was written", () => {
  assert.deepEqual(amountOf("3,40 metres", "length"), {
    form: "exact",
    dimension: "length",
    low: 3.4,
    high: 3.4,
    terms: [{ figures: "3.40", unit: "m" }],
  });
  assert.deepEqual(amountOf("3 +/- 0,2 m", "length"), {
    form: "tolerance",
    dimension: "length",
    low: 2.8,
    high: 3.2,
    terms: [{ figures: "3", unit: "m" }],
    spread: [{ figures: "0.2", unit: "m" }],
  });
});

test("numbers with two ends", () => {
  const cases: readonly (readonly [string, Dimension, number, number, string])[] = [
    ["about 3 m", "length", 2.7, 3.3, "about 3 m"],
    ["~3 m", "length", 2.7, 3.3, "about 3 m"],
    ["approx. 3 m", "length", 2.7, 3.3, "about 3 m"],
    ["Circa 16 ft 4 in", "length", 4.48056, 5.47624, "about 16 ft 4 in"],
    ["about -10 A", "current", -11, -9, "about -10 A"],
    ["about 20 °C", "temperature", 15, 25, "about 20 °C"],
    ["about 68 °F", "temperature", 15, 25, "about 68 °F"],
    ["about 24 h", "daily time", 77_760, 86_400, "about 24 h"], // a day has no more
    ["about 12", "count", 11, 13, "about 12"],
    ["2.4…3.1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["2.4..3.1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["2.4 ... 3.1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["2.4-3.1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["2.4 – 3.1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["2,4 to 3,1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["2.4 m TO 3.1 m", "length", 2.4, 3.1, "2.4…3.1 m"],
    ["80 cm - 1.2 m", "length", 0.8, 1.2, "80 cm…1.2 m"],
    ["1-500 mA", "current", 0.001, 0.5, "1…500 mA"],
    ["6 ft 2 in to 7 ft", "length", 1.8796, 2.1336, "6 ft 2 in…7 ft"],
    ["5 1/2-6 in", "length", 0.1397, 0.1524, "5 1/2…6 in"],
    ["-10…50 °C", "temperature", -10, 50, "-10…50 °C"],
    ["-10--5 °C", "temperature", -10, -5, "-10…-5 °C"],
    ["12-24 V", "voltage", 12, 24, "12…24 V"],
    ["2…3", "count", 2, 3, "2…3"],
    ["3 m ± 0.2 m", "length", 2.8, 3.2, "3 m ± 0.2 m"],
    ["3 ± 0.2 m", "length", 2.8, 3.2, "3 m ± 0.2 m"],
    ["3 m ± 20 cm", "length", 2.8, 3.2, "3 m ± 20 cm"],
    ["3 ± 40 m", "length", -37, 43, "3 m ± 40 m"],
    ["3 m +/- 5 %", "length", 2.85, 3.15, "3 m ± 5 %"],
    ["3 m +- 5%", "length", 2.85, 3.15, "3 m ± 5 %"],
    ["20 ± 5 °C", "temperature", 15, 25, "20 °C ± 5 °C"],
    ["68 °F ± 9 °F", "temperature", 15, 25, "68 °F ± 9 °F"],
    ["40 % ± 5 %", "ratio", 0.35, 0.45, "40 % ± 5 %"], // points, not 38…42
    ["-0.3 % ± 10 %", "per kelvin", -0.0033, -0.0027, "-0.3 %/K ± 10 %"],
  ];
  for (const [text, dimension, low, high, canonical] of cases) {
    const [l, h] = ends(text, dimension);
    near(l, low, text);
    near(h, high, text);
    assert.equal(printAmount(amountOf(text, dimension)), canonical, text);
  }
});

test("unknown is a value", () => {
  for (const text of ["unknown", " Unknown ", "?", " ? "]) {
    assert.deepEqual(amountOf(text, "length"), { form: "unknown", dimension: "length" });
  }
});

test("asks back where two readings are lawful", () => {
  const cases: readonly (readonly [string, Dimension, Problem["id"], readonly [number, number]])[] = [
    ["1,200 VA", "apparent power", "separator-ambiguous", [0, 5]],
    ["-12,345 m", "length", "separator-ambiguous", [0, 7]],
    ["2…1,200 m", "length", "separator-ambiguous", [2, 7]],
    ["6 mm", "area", "area-or-diameter", [2, 4]],
    ["1/2 in", "area", "area-or-diameter", [4, 6]],
    ["12/3", "count", "fraction-ambiguous", [0, 4]],
    ["2/0", "area", "fraction-ambiguous", [0, 3]],
    ["12/24 V", "voltage", "fraction-ambiguous", [0, 5]],
    ["50/60 Hz", "frequency", "fraction-ambiguous", [0, 5]],
    ["16' 4", "length", "unit-missing", [4, 5]],
    ["500-1 kW", "power", "unit-missing", [0, 3]], // hardly down from 500 kW
    ["2…6 ft 2 in", "length", "unit-missing", [0, 1]],
    ["5 -3 A", "current", "two-numbers", [2, 6]],
    ["20 °C ± 5 %", "temperature", "relative-temperature", [8, 11]],
    ["about 3…4 m", "length", "mixed-forms", [0, 5]],
    ["50 MA", "current", "unit-unknown", [3, 5]],
  ];
  for (const [text, dimension, id, at] of cases) {
    const problem = problemOf(text, dimension);
    assert.equal(problem.id, id, text);
    assert.deepEqual(problem.at, at, text);
  }
  const { message, hint, data } = problemOf("1,200 VA", "apparent power");
  assert.equal(message, "`1,200` can mean 1.200 or 1200");
  assert.equal(hint, "write `1.200` or `1200`");
  assert.deepEqual(data, { decimal: "1.200", grouped: "1200" });
  // π/4 · 6² mm² = 28.27 mm²
  assert.equal(problemOf("6 mm", "area").data["round"], "28.3 mm²");
});

test("says what is wrong, where, and what to do", () => {
  const cases: readonly (readonly [string, Dimension, Problem["id"], readonly [number, number]])[] = [
    ["", "length", "empty", [0, 0]],
    ["   ", "length", "empty", [0, 3]],
    ["3.2", "length", "unit-missing", [0, 3]],
    ["0.4", "ratio", "unit-missing", [0, 3]],
    ["2.4 m…3.1", "length", "unit-missing", [6, 9]],
    ["3 ± 5 %", "length", "unit-missing", [0, 1]],
    ["3.2 A", "length", "unit-wrong", [4, 5]],
    ["3 m2", "length", "unit-wrong", [2, 4]],
    ["5 min", "length", "unit-wrong", [2, 5]],
    ["5 lb ft", "mass", "unit-wrong", [2, 7]],
    ["5 Ah", "current", "unit-wrong", [2, 4]],
    ["6 m", "area", "unit-wrong", [2, 3]],
    ["3 A", "count", "unit-wrong", [2, 3]],
    ["3.2 mtre", "length", "unit-unknown", [4, 8]],
    ["5. m", "length", "unit-unknown", [1, 2]],
    ["5 h/week", "time", "unit-unknown", [2, 8]],
    ["abc", "length", "not-a-number", [0, 3]],
    ["∞ A", "current", "not-a-number", [0, 1]],
    ["NaN m", "length", "not-a-number", [0, 3]],
    ["? m", "length", "not-a-number", [0, 1]],
    [",5 m", "length", "not-a-number", [0, 2]],
    ["1,2,3 m", "length", "not-a-number", [0, 5]],
    ["1.2.3 m", "length", "not-a-number", [0, 5]],
    ["1,20.5 m", "length", "not-a-number", [0, 6]],
    ["1.200,50,1 m", "length", "not-a-number", [0, 10]],
    ["2.4 …  m", "length", "not-a-number", [4, 5]],
    ["1.2e3 m", "length", "exponent", [0, 5]],
    ["5 m 6 m", "length", "two-numbers", [4, 7]],
    ["5 m, 6 m", "length", "two-numbers", [5, 8]],
    ["1 2000 m", "length", "two-numbers", [2, 8]],
    ["0 200 m", "length", "two-numbers", [2, 7]],
    ["16 ft 14 in", "length", "two-numbers", [0, 11]],
    ["16.5 ft 4 in", "length", "two-numbers", [0, 12]],
    ["5 A at BP", "current", "trailing-text", [4, 9]],
    ["2…3…4 m", "length", "trailing-text", [3, 7]],
    ["2 m…3 m…4 m", "length", "trailing-text", [7, 11]],
    ["2.5", "count", "not-whole", [0, 3]],
    ["9".repeat(16) + " A", "current", "out-of-range", [0, 18]],
    ["0." + "0".repeat(20) + "1 A", "current", "out-of-range", [0, 25]],
    ["9".repeat(500) + " A", "current", "too-many-digits", [0, 500]],
    ["-300 °C", "temperature", "out-of-range", [0, 7]],
    ["25 h", "daily time", "out-of-range", [0, 4]],
    ["3 m ± -0.2 m", "length", "out-of-range", [6, 12]],
    ["3\u200b4 m", "length", "hidden-character", [1, 2]],
    ["3 m\u0007", "length", "hidden-character", [3, 4]],
    ["\u202e3 m", "length", "hidden-character", [0, 1]],
  ];
  for (const [text, dimension, id, at] of cases) {
    const problem = problemOf(text, dimension);
    assert.equal(problem.id, id, JSON.stringify(text));
    assert.deepEqual(problem.at, at, JSON.stringify(text));
    assert.equal(problem.level, "error");
    assert.ok(problem.hint !== undefined);
    assert.match(problem.message, /^[^A-Z].*[^.]$/);
  }
});

test("words of the problems that people meet most", () => {
  const said = (text: string, dimension: Asked, options?: ReadOptions): string => {
    const { message, hint } = problemOf(text, dimension, options);
    return `${message} → ${hint ?? ""}`;
  };
  assert.equal(said("3.2", "length"), "a length needs a unit → write `3.2 m` or `3.2 ft`");
  assert.equal(
    said("3.2 A", "length"),
    "`A` is the unit of a current; a length was expected → write `3.2 m` or `3.2 ft`",
  );
  assert.equal(
    said("3.2 mtre", "length"),
    "no unit is written `mtre`; a length was expected → did you mean `3.2 metre`?",
  );
  assert.equal(said("16 ft 4", "length"), "a length needs a unit behind each number → write `16 ft 4 in`");
  assert.equal(said("1.2e3 m", "length"), "powers of ten such as `1.2e3` are not read → write `1200`");
  assert.equal(
    said("-3 m", "length", { min: 0 }),
    "`-3 m` is below zero; a length of at least 0 was expected → write `3 m`, without its sign",
  );
  // Of two dimensions the one whose unit stands there, also when it stands first.
  for (const [text, called] of [
    ["-9 A", "a current"],
    ["-9 W", "a power"],
  ] as const)
    assert.equal(
      said(text, ["current", "power"], { min: 0 }),
      `\`${text}\` is below zero; ${called} of at least 0 was expected → write \`${text.slice(1)}\`, without its sign`,
    );
  assert.equal(
    said("5 A", ["daily time", "daily energy"]),
    "`A` is the unit of a current; a time a day or an energy a day was expected → write `5 h/day` or `5 Wh/day`",
  );
});

test("hints do not hinder", () => {
  const comma = readQuantity("2,5…3,5 m", "length");
  assert.ok(comma.ok);
  assert.deepEqual(comma.problems, [
    {
      id: "decimal-comma",
      level: "hint",
      at: [0, 3],
      message: "`2,5` is read as 2.5",
      hint: "write `2.5`",
      data: { written: "2,5", point: "2.5" },
    },
  ]);
  const reversed = readQuantity("3.1…2.4 m", "length");
  assert.ok(reversed.ok && reversed.amount.form === "range");
  assert.deepEqual([reversed.amount.low, reversed.amount.high], [2.4, 3.1]);
  assert.deepEqual(
    reversed.problems.map((p) => [p.id, p.level, p.at]),
    [["range-reversed", "hint", [0, 9]]],
  );
  const plain = readQuantity("2.5 m", "length");
  assert.deepEqual(plain.problems, []);
});

test("keeps to the limits that the caller sets", () => {
  assert.equal(problemOf("-3 m", "length", { min: 0 }).id, "out-of-range");
  assert.equal(problemOf("-3…4 m", "length", { min: 0 }).id, "out-of-range");
  assert.equal(problemOf("130 ft", "length", { max: 30 }).data["most"], "98.4252 ft");
  assert.deepEqual(ends("0 m", "length", { min: 0 }), [0, 0]);
  // A tolerance says how far off a number may be; it does not make a length negative.
  assert.deepEqual(ends("0.1 m ± 0.2 m", "length", { min: 0 })[0], 0);
});

test("a bare number is read only where that is allowed", () => {
  assert.deepEqual(ends("0.88", "ratio", { bare: true }), [0.88, 0.88]);
  assert.equal(printAmount(amountOf("0.88", "ratio", { bare: true })), "0.88");
  assert.deepEqual(ends("88 %", "ratio", { bare: true }), [0.88, 0.88]);
  assert.deepEqual(ends("12", "voltage", { bare: true }), [12, 12]);
  assert.deepEqual(ends("12…14", "voltage", { bare: true }), [12, 14]);
  assert.equal(problemOf("12", "voltage").id, "unit-missing");
});

test("reads the head of a text where other words may follow", () => {
  const cases: readonly (readonly [string, Asked, string, number])[] = [
    ["10 A at BP", "current", "10 A", 4],
    ["10 A 0.12 m from BP", "current", "10 A", 4],
    ["10 A - spare", "current", "10 A", 4],
    ["10…12 A, spare", "current", "10…12 A", 7],
    ["16 ft 4 in from BP", "length", "16 ft 4 in", 10],
    ["4 h idle", ["daily time", "daily energy"], "4 h", 3],
    ["unknown at BP", "current", "unknown", 7],
    ["2 spare", "count", "2", 1],
  ];
  for (const [text, dimension, canonical, end] of cases) {
    const reading = readQuantity(text, dimension, { rest: true });
    assert.ok(reading.ok, text);
    assert.equal(printAmount(reading.amount), canonical);
    assert.equal(reading.end, end, text);
  }
  assert.equal(problemOf("10 Amsterdam", "current", { rest: true }).id, "unit-unknown");
  assert.equal(problemOf("5 m² of sail", "length", { rest: true }).id, "unit-wrong");
});

test("of several dimensions the first that fits is read", () => {
  assert.equal(amountOf("1 kW", ["current", "power"]).dimension, "power");
  assert.equal(amountOf("3 A", ["current", "power"]).dimension, "current");
  assert.equal(amountOf("120 Wh", ["daily time", "daily energy"]).dimension, "daily energy");
  // The problem is the one of the reading that came furthest.
  assert.equal(problemOf("1 kW at BP", ["current", "power"]).id, "trailing-text");
});

test("prints a decimal comma where it is asked for", () => {
  assert.equal(printAmount(amountOf("2.4…3.1 m", "length"), { decimal: "," }), "2,4…3,1 m");
});

test("survives what only a hostile text would hold", () => {
  for (const text of [
    "9".repeat(10_000),
    "1,".repeat(5000),
    " ".repeat(10_000) + "3 m",
    "3 m" + "x".repeat(10_000),
    "é".repeat(10_000),
  ]) {
    for (const { message, hint } of readQuantity(text, "length").problems) {
      assert.ok(message.length < 200 && (hint?.length ?? 0) < 200);
    }
  }
});

test("a whole number around nought is nought, not −0", () => {
  const read = readQuantity("0 +/- ½", "count", { min: -100 });
  assert.ok(read.ok && "low" in read.amount && Object.is(read.amount.low, 0));
});
