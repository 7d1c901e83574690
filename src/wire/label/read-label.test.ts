import { test } from "vitest";
import assert from "node:assert/strict";
import { readLabel } from "./read-label.ts";

const ids = (text: string): readonly string[] => readLabel(text).problems.map(({ id }) => id);

test("what is no label is refused with the reason", () => {
  for (const [text, id] of [
    ["", "nothing-written"],
    ["   ", "nothing-written"],
    ["x".repeat(201), "too-long"],
    ["<b>12 AWG</b>", "markup"],
    ["2/O AWG", "letter-for-digit"],
    ["l2 AWG", "letter-for-digit"],
    ["12 \u0410WG", "look-alike"],
    ["1\u200b2 AWG", "look-alike"],
    ["3-Oct", "made-by-a-spreadsheet"],
    ["02-Dec", "made-by-a-spreadsheet"],
    ["12/2/2024", "made-by-a-spreadsheet"],
    ["10:2", "other-thing"],
    ["99 AWG", "not-a-size"],
  ] as const) {
    const reading = readLabel(text);
    assert.equal(reading.verdict, "rejected", text);
    assert.deepEqual(ids(text), [id], text);
  }
});

test("what a word says has its place", () => {
  const reading = readLabel("14/3 SOOW");
  assert.equal(reading.verdict, "exact");
  assert.deepEqual(reading.readings[0]?.from.type, [[5, 9]]);
  assert.deepEqual(reading.readings[0]?.from.size, [[0, 4]]);
});

test("what follows from the type points at its letters", () => {
  const [reading] = readLabel("14/3 SOOW tinned").readings;
  assert.deepEqual(reading?.from.volts, [[5, 9]]);
  assert.deepEqual(reading?.from.stranding, [[5, 9]]);
  assert.deepEqual(reading?.from.plating, [[10, 16]]);
  assert.deepEqual(readLabel("3G2.5").readings[0]?.from.cores, [[0, 5]]);
});

test("two areas with a slash are the wires and the earth, whatever the number of cores", () => {
  for (const text of ["2.5/1.5 mm² 3 core and earth", "6243Y 2.5/1.5 mm²"])
    assert.deepEqual(readLabel(text).readings[0]?.make.cores, {
      insulated: 3,
      total: 4,
      ground: "bare",
      groundSize: { system: "mm²", name: "1.5", label: "1.5 mm²", areaMm2: 1.5, basis: "label" },
      others: [],
      paired: false,
    });
});

test("the figures of telephone cable are diameters", () => {
  assert.equal(readLabel("J-Y(St)Y 2x2x0,8").readings[0]?.make.size?.areaMm2.toFixed(3), "0.503");
});

test("numbers in words are read, and none is dropped", () => {
  for (const [text, size] of [
    ["sixteen twin and earth", "16 mm²"],
    ["two and a half square PV wire", "2.5 mm²"],
    ["ten-two with ground", "10 AWG"],
    ["number ten stranded", "10 AWG"],
    ["two fifty MCM", "250 kcmil"],
    ["nought point seven five square", "0.75 mm²"],
  ] as const)
    assert.equal(readLabel(text).readings[0]?.make.size?.label, size, text);
  for (const text of [
    "two aught three service cable",
    "half 12 AWG",
    "double 10 AWG",
    "a dozen 4 mm²",
    "lamp 4 W, 2 m",
  ])
    assert.notEqual(readLabel(text).verdict, "exact", text);
});

test("a range of gauges, as terminals have it, is no number of conductors", () => {
  for (const text of ["12-10 AWG", "12-14 AWG", "22-16", "AWG 16-14", "16-14 blue ring terminal"])
    assert.equal(readLabel(text).verdict, "rejected", text);
  assert.equal(readLabel("18/10").readings[0]?.make.cores?.insulated, 10);
});

test("alternating current is no armoured cable", () => {
  assert.equal(readLabel("AC outlet wiring 12/3 triplex", { context: "boat" }).readings[0]?.make.type, null);
  assert.equal(readLabel("12/2 AC").readings[0]?.make.type, "AC");
});

test("old British stranding is by the inch, and thin wires in mm are asked about", () => {
  // Nominal square inches under which BS 7 cable was sold; the lay of the wires takes up to 4 % of what a cut through them has.
  for (const [text, squareInches] of [
    ["19/.083", 0.1],
    ["19/.064", 0.06],
    ["37/.072", 0.15],
    ["61/.093", 0.4],
    ["7/.052", 0.0145],
    ["7/0.064", 0.0225],
    ["3/.029", 0.002],
  ] as const) {
    const reading = readLabel(text);
    assert.equal(reading.verdict, "ambiguous", text);
    const share = (reading.readings[0]?.make.size?.areaMm2 ?? 0) / (squareInches * 25.4 ** 2);
    assert.ok(share > 0.98 && share < 1.04, `${text} ${share}`);
  }
  for (const text of ["19/.083 in", '7/.052"', "1/.044", "7/0.064 mm", "7/0.20", "19/0.16", "41/0.08"])
    assert.equal(readLabel(text).verdict, "exact", text);
});

test("metric British stranding comes to the area that it is sold as", () => {
  for (const [text, areaMm2] of [
    ["7/0.67", 2.5],
    ["7/1.04", 6],
    ["7/1.35", 10],
    ["7/1.70", 16],
    ["19/1.53", 35],
    ["1/1.13", 1],
  ] as const) {
    const [reading] = readLabel(text).readings;
    // Copper of class 2 may have a little less than the label.
    assert.ok(Math.abs((reading?.make.size?.areaMm2 ?? 0) / areaMm2 - 1) < 0.015, text);
  }
  assert.equal(readLabel("6mm2 7/1.04").readings[0]?.make.size?.label, "6 mm²");
});

test("of feeders listed one by one the type tells which wire is bare, and none has a ground more than is listed", () => {
  // UL 854: SEU has a bare neutral laid round its two wires, SER a bare ground beside its three.
  const told = (text: string): readonly unknown[] => {
    const { verdict, readings } = readLabel(text);
    return [
      verdict,
      ...readings.map(({ make: { cores } }) => [
        cores?.insulated,
        cores?.total,
        cores?.ground,
        cores?.others.map(({ size }) => size.name).join(),
      ]),
    ];
  };
  assert.deepEqual(told("2-2-4 AL SEU"), ["exact", [2, 3, "none", "4"]]);
  assert.deepEqual(told("4/0-4/0-2/0 SEU"), ["exact", [2, 3, "none", "2/0"]]);
  assert.deepEqual(told("2-2-2 SEU"), ["exact", [2, 3, "none", ""]]);
  assert.deepEqual(told("2-2-2-4 SER"), ["exact", [3, 4, "bare", "4"]]);
  assert.deepEqual(told("4/0-4/0-4/0-2/0 AL SER"), ["exact", [3, 4, "bare", "2/0"]]);
  assert.deepEqual(told("2-2-4 SER"), ["ambiguous", [2, 3, "bare", "4"], [3, 4, "bare", "4"]]);
  assert.deepEqual(told("2-2-2-4 SEU"), ["rejected"]);
  assert.match(readLabel("2-2-4 SEU").readings[0]?.says ?? "", /2 insulated conductors and a bare neutral of 4 AWG/);
});

test("a sign before a size, another line behind it and a bound are refused", () => {
  for (const text of [
    "0x12 AWG",
    "0x50 m 0",
    "-12 AWG",
    "+12 AWG",
    "red -12 AWG",
    "12 AWG\r\nSet-Cookie: x",
    "12 AWG\u2028red",
  ])
    assert.equal(readLabel(text).verdict, "rejected", text);
  for (const text of ["12 AWG\r\n", "12 AWG\tred", "- 12 AWG red", "+12V feed 14 AWG red", "-40°C to 105°C 12 AWG"])
    assert.equal(readLabel(text).verdict, "exact", text);
  for (const bound of ["less than", "at least", "max", "max.", "up to", "min", "not less than", "no smaller than", "≥"])
    assert.deepEqual(ids(`${bound} 6 AWG`), ["not-a-size"], bound);
  for (const text of ["6 AWG max", "6 AWG or larger", "6 AWG and up", "6 AWG min."])
    assert.deepEqual(ids(text), ["not-a-size"], text);
  // What is bounded here is the voltage or the temperature.
  for (const text of ["12 AWG max 600 V", "12 AWG, max. 90 °C", "14 AWG 600 V max 90 °C", "25 mm² min. order 50 m"])
    assert.equal(readLabel(text).verdict, "exact", text);
});

test("no cable has fourteen of 6 AWG", () => {
  for (const text of ["6/14", "AWG 6/14", "8/9", "4/19"]) assert.notEqual(readLabel(text).verdict, "exact", text);
  assert.equal(readLabel("10/12C").readings[0]?.make.cores?.total, 12);
});

test("`ga` on copper-clad aluminium and in vehicles may be a seller's reduced series, and strands settle it", () => {
  const areas = (text: string, context?: "vehicle" | "boat"): readonly (number | undefined)[] =>
    readLabel(text, context === undefined ? {} : { context }).readings.map(({ make }) =>
      Number(make.size?.areaMm2.toFixed(1)),
    );
  assert.deepEqual(areas("4 ga CCA"), [21.2, 17.2]);
  assert.deepEqual(areas("0 ga CCA"), [53.5, 44.9]);
  assert.deepEqual(areas("4 GA", "vehicle"), [21.2, 17.2, 18.9]);
  assert.deepEqual(areas("4 GA", "boat"), [21.2]);
  assert.deepEqual(areas("4 AWG CCA"), [21.2]);
  assert.deepEqual(areas("4 ga 350/0.25 CCA"), [17.2]);
  assert.deepEqual(areas("4 ga 430/0.25 CCA"), [21.2]);
});

test("a colour that is not kept is told", () => {
  const { problems, verdict } = readLabel("H05VV-F 3G0,75 white");
  assert.equal(verdict, "exact");
  assert.deepEqual(
    problems.map(({ id, at }) => [id, at]),
    [["colour-not-kept", [15, 20]]],
  );
  assert.deepEqual(ids("12 AWG red"), []);
  assert.deepEqual(ids("12/2 boat cable red black"), []);
});

test("types of the metric trade are known by their letters", () => {
  for (const [text, type, temperatureC] of [
    ["SIHF 3G1.5", "SIHF", 180],
    ["N2XH-J 3x1.5", "N2XH-J", 90],
    ["YY 3G1.5", "YY", 70],
    ["SY 4G2.5", "SY", 70],
    ["CY 3G1.5", "CY", 70],
    ["YMvK 3G2.5", "YMvK", 90],
    ["XMvK 3G2.5", "XMvK", null],
  ] as const) {
    const { verdict, readings } = readLabel(text);
    assert.deepEqual([verdict, readings[0]?.make.type, readings[0]?.make.temperatureC], ["exact", type, temperatureC]);
  }
  assert.equal(readLabel("12 AWG yy").readings[0]?.make.type ?? null, null);
  assert.deepEqual(ids("AO7RN-F 3G2.5"), ["letter-for-digit"]);
  assert.deepEqual(ids("HO7V-K 2.5 mm²"), ["letter-for-digit"]);
});
