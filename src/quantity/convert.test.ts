import { test } from "vitest";
import assert from "node:assert/strict";
import { ampHours, circularMils, fahrenheit, feet, fromSi, inches, toSi, wattHours } from "./convert.ts";
import { metres } from "./quantity.ts";
import type { Dimension } from "./dimension.ts";
import { units, type UnitOf } from "./units.ts";

/**
 * One unit inside, as published; the figures are those printed, so the last of them may be rounded. They are recalled, not
 * looked up again (`memory`); each also follows from the exact definitions named in units.ts.
 */
const published: readonly (readonly [Dimension, string, number, string])[] = [
  ["length", "ft", 0.3048, "NIST SP 811:2008 B.8, foot (ft), exact"],
  ["length", "in", 0.0254, "NIST SP 811:2008 B.8, inch (in), exact"],
  ["length", "yd", 0.9144, "NIST SP 811:2008 B.8, yard (yd), exact"],
  ["length", "mi", 1609.344, "NIST SP 811:2008 B.8, mile (mi), exact"],
  ["length", "mil", 2.54e-5, "NIST SP 811:2008 B.8, mil (0.001 in), exact"],
  ["area", "in²", 645.16, "NIST SP 811:2008 B.8, square inch 6.4516 cm², exact"],
  ["area", "ft²", 92903.04, "NIST SP 811:2008 B.8, square foot 9.290304e-2 m², exact"],
  ["area", "cmil", 5.067075e-4, "NIST SP 811:2008 B.8, circular mil 5.067 075 E-04 mm²"],
  ["area", "kcmil", 0.5067075, "a thousand circular mils; NIST SP 811:2008 B.8"],
  ["torque", "lbf·in", 0.1129848, "NIST SP 811:2008 B.8, pound-force inch 1.129 848 E-01 N·m"],
  ["torque", "lbf·ft", 1.355818, "NIST SP 811:2008 B.8, pound-force foot 1.355 818 E+00 N·m"],
  ["torque", "lbf·ft", 1.3558179483, "product of the exact pound 0.45359237, 9.80665 and 0.3048"],
  ["force", "lbf", 4.448222, "NIST SP 811:2008 B.8, pound-force 4.448 222 E+00 N"],
  ["mass", "lb", 0.45359237, "NIST SP 811:2008 B.8, pound (avoirdupois), exact"],
  ["mass", "oz", 0.02834952, "NIST SP 811:2008 B.8, ounce (avoirdupois) 2.834 952 E-02 kg"],
  ["mass", "t", 1000, "NIST SP 811:2008 B.8, metric ton, exact"],
  ["power", "hp", 745.6999, "NIST SP 811:2008 B.8, horsepower (550 ft·lbf/s) 7.456 999 E+02 W"],
  ["energy", "Wh", 3600, "NIST SP 811:2008 B.8, watt hour, exact"],
  ["energy", "kWh", 3.6e6, "NIST SP 811:2008 B.8, kilowatt hour, exact"],
  ["charge", "Ah", 3600, "NIST SP 811:2008 B.8, ampere hour, exact"],
  ["resistivity", "Ω·cmil/ft", 1.662426e-3, "NIST SP 811:2008 B.8, ohm circular-mil per foot 1.662 426 E-03 Ω·mm²/m"],
  ["resistance per length", "Ω/kft", 3.280839895e-3, "1/0.3048 Ω/km, NIST SP 811:2008 foot"],
  ["time", "d", 86400, "SI Brochure 9 table 8, day"],
  ["temperature difference", "°F", 0.5555556, "NIST SP 811:2008 B.8, degree Fahrenheit 5.555 556 E-01 K"],
];

for (const [dimension, unit, value, source] of published) {
  test(`${unit} (${dimension}) is ${value}: ${source}`, () => {
    const digits = value.toExponential().split("e")[0]?.replace(/\D/g, "").length ?? 0;
    const computed = toSi(1, dimension, unit as UnitOf<Dimension>);
    // Half a step of the last printed digit; where the publication says exact, all digits of a double hold.
    const step = source.endsWith("exact") ? 1e-15 : 0.5 * 10 ** (1 - digits);
    assert.ok(Math.abs(computed / value - 1) <= step, `${computed}`);
  });
}

test("temperatures agree with the fixed points of the scales", () => {
  // NIST SP 811:2008 B.8: t/°C = (t/°F − 32)/1.8; SI Brochure 9 section 2.3.1: 273.15 K is 0 °C
  assert.equal(toSi(32, "temperature", "°F"), 0);
  assert.equal(toSi(212, "temperature", "°F"), 100);
  assert.equal(toSi(-40, "temperature", "°F"), -40);
  assert.equal(toSi(273.15, "temperature", "K"), 0);
});

test("the edge helpers say the same as the list", () => {
  assert.equal(feet(11), 3.3528);
  assert.equal(inches(7), 0.1778);
  assert.equal(ampHours(150), 540_000);
  assert.equal(wattHours(250), 900_000);
  assert.equal(fahrenheit(122), 50);
  // 4/0 AWG is 211 600 cmil, printed as 107.2 mm² (NEC chapter 9 table 8 prints 107.22)
  assert.equal(circularMils(211_600).toFixed(2), "107.22");
});

test("metric units carry no binary dust", () => {
  assert.equal(toSi(25, "length", "mm"), 0.025);
  assert.equal(toSi(1.1, "length", "mm"), 0.0011);
  assert.equal(toSi(0.554, "resistance per length", "Ω/km"), 0.000554);
});

test("the way out is the way in, backwards, for every unit", () => {
  for (const [dimension, list] of Object.entries(units) as [Dimension, object][]) {
    for (const unit of Object.keys(list) as UnitOf<Dimension>[]) {
      for (const value of [0, 1, -3.4, 1234.5]) {
        const back = fromSi(toSi(value, dimension, unit), dimension, unit);
        // Four roundings at most, of numbers up to the zero of the Kelvin scale in size.
        assert.ok(Math.abs(back - value) <= 4 * Number.EPSILON * (Math.abs(value) + 300), `${value} ${unit}: ${back}`);
      }
    }
  }
});

test("a unit that is not of the dimension is a defect", () => {
  assert.throws(() => toSi(1, "length", "A" as UnitOf<"length">), RangeError);
  assert.equal(fromSi(metres(0.3048), "length", "ft"), 1);
});
