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

test("the loaded cores of a cable lie together, in the engine space too", () => {
  const of = (loaded: number, id: string) =>
    carriesBy(make(awgSize("10")), celsius(105), loaded).find(({ ruleSet }) => ruleSet === id)?.lying ?? [];
  const amps = (loaded: number) => of(loaded, "us-small-craft").map(({ ampacity }) => ampacity.amps ?? NaN);
  // ABYC E-11 as quoted: 0.70 for two and three, 0.60 for four to six, 0.50 for seven; 60 A and 0.85 as above.
  for (const loaded of [2, 3]) [60, 42, 60 * 0.85 * 0.7].forEach((a, i) => { expect(amps(loaded)[i]).toBeCloseTo(a, 9); }); // prettier-ignore
  [60, 36, 60 * 0.85 * 0.6].forEach((a, i) => { expect(amps(4)[i]).toBeCloseTo(a, 9); }); // prettier-ignore
  [60, 30, 60 * 0.85 * 0.5].forEach((a, i) => { expect(amps(7)[i]).toBeCloseTo(a, 9); }); // prettier-ignore
  assert.deepEqual(of(1, "us-small-craft").map(({ loaded }) => loaded), [1, 3, 1]); // prettier-ignore
  assert.deepEqual(of(2, "iso-small-craft").map(({ loaded }) => loaded), [1, 3, 3]); // prettier-ignore
  assert.deepEqual(of(6, "iso-small-craft").map(({ loaded }) => loaded), [1, 6, 6]); // prettier-ignore
});

test("an engine space that refuses 60 °C insulation says so, and not that the wire is too thin", () => {
  const us = carriesBy(make(awgSize("10")), celsius(60)).find(({ ruleSet }) => ruleSet === "us-small-craft");
  // ABYC E-11 as quoted: at least 75 °C in engine spaces, where 33 CFR 183.425 alone has 0.58 for 60 °C.
  assert.match(us?.lying[2]?.ampacity.refused ?? "", /E-11 asks for insulation of at least 75 °C/);
  assert.equal(us?.lying[0]?.ampacity.refused, null);
});

test("another metal than the table's is not guessed", () => {
  for (const { ruleSet, lying, cannotTell } of carriesBy(make(awgSize("2"), "aluminium"), celsius(90))) {
    if (ruleSet === "us-cabin") {
      // NFPA 70 tables 310.17 and 310.16 have aluminium: 150 A at 90 °C in free air, 75 A by terminals of 60 °C.
      assert.deepEqual([cannotTell, lying[0]?.ampacity.table?.value, lying[0]?.ampacity.amps], [null, 150, 75]);
    } else assert.ok(cannotTell !== null && lying.every(({ ampacity }) => ampacity.amps === null), ruleSet);
  }
});
