import { test } from "vitest";
import assert from "node:assert/strict";
import { dimensions, type Dimension } from "./dimension.ts";
import { findUnit, spellingsOf } from "./spellings.ts";
import { units, type UnitRow } from "./units.ts";

const all = Object.keys(dimensions) as Dimension[];

const symbolOf = (dimension: Dimension, text: string): string | null => {
  const found = findUnit(dimension, text, 0);
  return found?.end === text.length ? found.unit.symbol : null;
};

test("the list of units and the list of dimensions name the same dimensions", () => {
  assert.deepEqual(Object.keys(units).sort(), [...all].sort());
});

test("every spelling finds its own unit, so none stands for two in a dimension", () => {
  for (const dimension of all) {
    for (const [spelling, symbol] of spellingsOf(dimension))
      assert.equal(symbolOf(dimension, spelling), symbol, spelling);
  }
});

test("the units that bigger ones lead over to exist, and are so many times smaller", () => {
  const lists: Readonly<Record<string, Readonly<Record<string, UnitRow>>>> = units;
  for (const [dimension, list] of Object.entries(lists)) {
    for (const { si, then } of Object.values(list)) {
      if (then === undefined) continue;
      const small = list[then[0]];
      assert.ok(small, `${dimension}: ${then[0]}`);
      assert.equal(small.si[0] * then[1] * si[1], si[0] * small.si[1]); // crosswise, in whole numbers
    }
  }
});

test("keyboards differ", () => {
  const same: readonly (readonly [Dimension, string, readonly string[]])[] = [
    ["area", "mm²", ["mm2", "mm^2", "sq mm", "sqmm", "qmm", "sq. mm", "SQ", "MM2", "кв.мм"]],
    ["area", "kcmil", ["MCM", "KCMIL"]],
    ["area", "cmil", ["CM", "circular mils"]],
    ["length", "ft", ["'", "′", "’", "feet", "Foot", "FT"]],
    ["length", "in", ['"', "″", "”", "''", "inches", "in."]],
    ["resistance", "mΩ", ["mohm", "mOhm", "milliohm", "Milliohms", "mΩ", "m\u2126"]],
    ["resistance", "µΩ", ["uohm", "μΩ", "µohm"]],
    ["resistance per length", "Ω/km", ["ohm/km", "ohms per km", "Ohm/km", "Ω per km"]],
    ["resistance per length", "Ω/kft", ["ohm/1000 ft", "ohms/1000ft", "ohm/kft"]],
    ["torque", "N·m", ["Nm", "N.m", "N m", "N-m", "N*m", "NM", "N⋅m"]],
    ["torque", "lbf·in", ["in-lb", "in·lbs", "inlb", "lbf-in", "lb in", "inch-pounds"]],
    ["torque", "lbf·ft", ["ft-lb", "ft lbs", "lbf.ft", "foot pounds"]],
    ["temperature", "°C", ["C", "c", "º C", "deg C", "degC", "degrees C", "℃", "Celsius"]],
    ["temperature", "K", ["k", "\u212a"]],
    ["charge", "Ah", ["AH", "ah", "A·h", "amp-hours"]],
    ["daily time", "h/day", ["hours a day", "h/d", "h per day", "hours/day"]],
    ["daily energy", "Wh/day", ["Wh/d", "wh a day", "Wh per day"]],
    ["voltage", "V", ["v", "VDC", "V DC", "Vdc", "volts"]],
  ];
  for (const [dimension, symbol, spellings] of same) {
    for (const spelling of spellings) assert.equal(symbolOf(dimension, spelling), symbol, spelling);
  }
});

test("a short spelling means what is expected", () => {
  assert.equal(symbolOf("length", "m"), "m");
  assert.equal(symbolOf("time", "m"), "min");
  assert.equal(symbolOf("temperature", "C"), "°C");
  assert.equal(symbolOf("charge", "C"), "C");
  assert.equal(symbolOf("temperature", "F"), "°F");
  assert.equal(symbolOf("capacitance", "F"), "F");
});

test("a factor of a milliard is not left to the shift key", () => {
  assert.equal(symbolOf("power", "mW"), "mW");
  assert.equal(symbolOf("power", "MW"), "MW");
  assert.equal(symbolOf("current", "ma"), "mA");
  for (const [dimension, spelling] of [
    ["current", "MA"],
    ["voltage", "MV"],
    ["resistance", "MOHM"],
    ["energy", "mj"],
    ["power", "Mw"],
  ] as const) {
    assert.equal(symbolOf(dimension, spelling), null, spelling);
  }
  assert.equal(symbolOf("length", "MM"), "mm"); // no mega-metre to mistake it for
});

test("the longest spelling wins", () => {
  assert.deepEqual(findUnit("length", "mm", 0)?.end, 2);
  assert.deepEqual(findUnit("energy", "Wh a day", 0)?.end, 2);
  assert.deepEqual(findUnit("daily energy", "Wh a day", 0)?.end, 8);
});
