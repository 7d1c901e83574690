import assert from "node:assert/strict";
import { expect, test } from "vitest";
import { celsius } from "../quantity/index.ts";
import { ruleSets } from "../ruleset/index.ts";
import { awgSize, metricSize, type ConductorMake, type WireSize } from "../wire/index.ts";
import { carriesBy } from "./carries.ts";

const make = (size: WireSize | null, metal: ConductorMake["metal"] = "copper"): ConductorMake => {
  assert.ok(size !== null);
  return { size, metal, plating: "plain", strands: "class 5" };
};
const figures = (made: ConductorMake, id: string) =>
  carriesBy(made, celsius(105))
    .find(({ ruleSet }) => ruleSet === id)
    ?.lying.map(({ ampacity }) => ampacity.amps);

test("every rule set answers, with figures or with why not", () => {
  const all = carriesBy(make(awgSize("10")), celsius(105));
  assert.deepEqual(
    all.map(({ ruleSet }) => ruleSet),
    ruleSets.map(({ id }) => id),
  );
  for (const { ruleSet, lying, cannotTell } of all) {
    assert.ok((lying.length === 3) !== (cannotTell !== null), ruleSet);
    if (cannotTell !== null) assert.ok(cannotTell.length > 20, ruleSet);
  }
});

test("the figures are those of the published tables", () => {
  // 33 CFR 183.425 Table 5, 10 AWG at 105 °C: 60 A; 0.70 for three (ABYC E-11, as quoted); 0.85 in engine spaces (Table 5 note 1).
  expect(figures(make(awgSize("10")), "us-small-craft")).toEqual([60, 42, 51]);
  // ISO 13297 Table A.1, 10 mm² at 105 °C in free air (memory): 90 A.
  expect(figures(make(metricSize(10)), "iso-small-craft")?.[0]).toBe(90);
});

test("another metal than the table's is not guessed", () => {
  for (const { lying, cannotTell } of carriesBy(make(awgSize("2"), "aluminium"), celsius(90))) {
    assert.ok(cannotTell !== null && lying.every(({ ampacity }) => ampacity.amps === null));
  }
});
