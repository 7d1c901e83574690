import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { recordSteps } from "../explain/index.ts";
import { amps, celsius, metres, type Celsius } from "../quantity/index.ts";
import { isoSmallCraft, usSmallCraft, type RuleSet } from "../ruleset/index.ts";
import {
  awgSize,
  kcmilSize,
  metalSize,
  metricSize,
  saeSize,
  stockedSizes,
  type ConductorMake,
  type SizeSystem,
  type WireSize,
} from "../wire/index.ts";
import { ampacityAmps, tableAmps, worstFactor } from "./ampacity-amps.ts";
import { ampacity, type Ampacity } from "./ampacity.ts";
import { conductorTemperature } from "./conductor-temperature.ts";
import { findAmpacityRow } from "./find-row.ts";
import { conductorTemperatureFreeAir, freeAirAmpacity } from "./thermal/free-air.ts";
import { thermalConductor } from "./thermal/thermal-conductor.ts";
import type { Stretch } from "./stretch.ts";

const sized = (size: WireSize | null, change: Partial<ConductorMake> = {}): ConductorMake => {
  assert.ok(size !== null);
  return { size, metal: "copper", plating: "tinned", strands: "class 5", ...change };
};
const awg = (name: string) => sized(awgSize(name), { strands: "type 3" });
const mm2 = (area: number) => sized(metricSize(area));

const cabin: Stretch = { engineSpace: false, ambientC: celsius(30), ambientStated: false, bundle: 1 };
const engine: Stretch = { ...cabin, engineSpace: true };
const hotEngine = (ambient: number): Stretch => ({ ...engine, ambientC: celsius(ambient), ambientStated: true });

const rate = (ruleSet: RuleSet, make: ConductorMake, insulation: number, ...stretches: Stretch[]): Ampacity =>
  ampacity({ ruleSet, make, insulationC: celsius(insulation), stretches });

describe("row and column", () => {
  test("the column is the highest one that does not ask for better insulation", () => {
    const column = (set: RuleSet, make: ConductorMake, insulation: number) =>
      rate(set, make, insulation, cabin).table?.column;
    for (const [insulation, name] of [
      [60, "amps60C"],
      [74, "amps60C"],
      [90, "amps90C"],
      [95, "amps90C"],
      [105, "amps105C"],
      [180, "amps125C"],
      [250, "amps200C"],
    ] as const) {
      assert.equal(column(usSmallCraft, awg("10"), insulation), name);
    }
    for (const [insulation, name] of [
      [80, "amps70C"],
      [85, "amps85_90C"],
      [90, "amps85_90C"],
      [95, "amps85_90C"],
    ] as const) {
      assert.equal(column(isoSmallCraft, mm2(10), insulation), name);
    }
  });

  test("a size that the table has takes its row, another of its system the next one down", () => {
    for (const [make, row, how] of [
      [awg("10"), "10", "same size"],
      [awg("5"), "6", "next row down"],
      [awg("2/0"), "2/0", "same size"],
      [sized(kcmilSize(250)), "4/0", "next row down"],
    ] as const) {
      const rated = rate(usSmallCraft, make, 105, cabin);
      assert.deepEqual([rated.table?.row, rated.row], [row, how]);
    }
    for (const [make, row, how] of [
      [mm2(35), "35", "same size"],
      [mm2(8), "6", "next row down"],
      [mm2(185), "150", "next row down"],
    ] as const) {
      const rated = rate(isoSmallCraft, make, 105, cabin);
      assert.deepEqual([rated.table?.row, rated.row], [row, how]);
    }
  });

  test("an area of metal and a label are rated apart, though they are printed alike", () => {
    // Stranded copper of 4.3 mm² has about 4.2 Ω/km tinned, and 17 mm² 1.1; IEC 60228 Table 3 allows 4 mm² 5.09, 6 mm² 3.39, 16 mm² 1.24.
    const lean = rate(isoSmallCraft, sized(metalSize(4.3, "16 mm²")), 105, cabin);
    const thick = rate(isoSmallCraft, sized(metalSize(17, "16 mm²")), 105, cabin);
    assert.deepEqual([lean.table?.row, thick.table?.row], ["4", "16"]);
  });

  test("a size of another system takes the largest row with no less resistance, not the one of its name or area", () => {
    // By resistance at 20 °C, tinned: 2 AWG 0.542 Ω/km lies between 35 mm² (0.565) and 50 mm² (0.393); 6 AWG 1.376 above 16 mm² (1.24);
    // 2.5 mm² 8.21 between 14 AWG (8.79) and 12 AWG (5.53); 12 SAE has less copper than 12 AWG.
    for (const [set, make, row] of [
      [isoSmallCraft, awg("2"), "35"],
      [isoSmallCraft, awg("6"), "10"],
      [isoSmallCraft, awg("4/0"), "95"],
      [usSmallCraft, mm2(2.5), "14"],
      [usSmallCraft, mm2(35), "3"],
      [usSmallCraft, sized(saeSize("12")), "14"],
    ] as const) {
      const rated = rate(set, make, 105, cabin);
      assert.deepEqual([rated.table?.row, rated.row], [row, "by resistance"], make.size.label);
      assert.match(rated.notes.join(), /of another size system/);
    }
  });

  test("the memory of rows by resistance gives what a fresh search gives", () => {
    const { table } = isoSmallCraft.ampacity;
    const fresh = { ...table };
    for (let round = 0; round < 2; round++) {
      for (const size of stockedSizes("AWG")) {
        for (const plating of ["plain", "tinned"] as const) {
          for (const strands of ["class B", "type 3"] as const) {
            const make = sized(size, { plating, strands });
            assert.deepEqual(findAmpacityRow(table, make), findAmpacityRow(fresh, make));
          }
        }
      }
    }
  });
});

describe("factors", () => {
  test("an engine space is never rated better than a cabin in the same air", () => {
    for (const set of [isoSmallCraft, usSmallCraft]) {
      // Not 50 °C itself: the ISO factor there, 0.82, is the root 0.8165 rounded up.
      for (const ambient of [20, 30, 40, 49, 50.5, 55, 60, 70, 80, 89]) {
        const air = { ambientC: celsius(ambient), ambientStated: false, bundle: 2 };
        const amps = (engineSpace: boolean) => rate(set, mm2(10), 90, { ...air, engineSpace }).amps ?? NaN;
        assert.ok(amps(true) <= amps(false), `${set.id} at ${ambient} °C: ${amps(true)} A against ${amps(false)} A`);
        assert.equal(
          ampacityAmps(set.ampacity, mm2(10), 90, [{ ...air, engineSpace: true }]),
          amps(true),
          "the bare number is the same",
        );
      }
    }
    // 60 °C: √((90 − 60)/(90 − 30)) = 0.707 is less than the ISO factor for 90 °C insulation.
    const at60 = rate(isoSmallCraft, mm2(10), 90, { ...engine, ambientC: celsius(60) });
    assert.deepEqual(
      at60.perStretch[0]?.factors.map(({ which, decides }) => [which, decides]),
      [
        ["engine space", false],
        ["ambient", true],
      ],
    );
    assert.equal(at60.perStretch[0]?.ambientC, 60);
  });

  test("in an engine space without a stated temperature the set's factor counts alone, and 50 °C is what it stands for", () => {
    const rated = rate(usSmallCraft, awg("10"), 105, engine);
    assert.equal(rated.amps, 60 * 0.85);
    assert.deepEqual(
      rated.perStretch[0]?.factors.map(({ which, decides }) => [which, decides]),
      [["engine space", true]],
    );
    assert.equal(rated.perStretch[0].ambientC, 50);
  });

  test("a stated temperature is worked out beside it; the lower decides and both are kept", () => {
    const at = (ambient: number) => rate(isoSmallCraft, mm2(16), 90, hotEngine(ambient));
    const hot = at(60); // √(30/60)
    assert.ok(Math.abs((hot.amps ?? 0) - 100 * Math.SQRT1_2) < 1e-9);
    assert.deepEqual(
      hot.perStretch[0]?.factors.map(({ which, decides }) => [which, decides]),
      [
        ["engine space", false],
        ["ambient", true],
      ],
    );
    assert.equal(at(40).amps, 82); // √(50/60) = 0.91: the table's 0.82 stays
    assert.equal(at(20).amps, 82); // a cool engine space is not credited
  });

  test("elsewhere warmer air counts by the square root and cooler air is not credited", () => {
    const at = (ambient: number) => rate(usSmallCraft, awg("10"), 90, { ...cabin, ambientC: celsius(ambient) });
    assert.ok(Math.abs((at(45).amps ?? 0) - 55 * Math.sqrt(45 / 60)) < 1e-9);
    assert.equal(at(30).amps, 55);
    assert.equal(at(-10).amps, 55);
    assert.equal(at(-10).perStretch[0]?.factors.length, 0);
  });

  test("the root is taken at the temperature that the column stands for, not above it", () => {
    // 95 °C insulation uses the 90 °C column, 85 °C insulation the same column at its own limit.
    const factor = (insulation: number) =>
      rate(isoSmallCraft, mm2(16), insulation, hotEngine(60)).perStretch[0]?.factor;
    assert.equal(factor(95), factor(90));
    assert.ok(Math.abs((factor(85) ?? 0) - Math.sqrt(25 / 55)) < 1e-9);
  });

  test("bundles count by the set's own steps", () => {
    const of = (set: RuleSet, bundle: number) => worstFactor(set.ampacity, 105, [{ ...cabin, bundle }]);
    for (const [bundle, us, iso] of [
      [1, 1, 1],
      [2, 0.7, 1],
      [3, 0.7, 1],
      [4, 0.6, 0.7],
      [6, 0.6, 0.7],
      [7, 0.5, 0.6],
      [24, 0.5, 0.6],
      [25, 0.4, 0.5],
      [300, 0.4, 0.5],
    ] as const) {
      assert.deepEqual([of(usSmallCraft, bundle), of(isoSmallCraft, bundle)], [us, iso], String(bundle));
    }
  });

  test("the worst stretch decides, however short it is; of equals the first", () => {
    const rated = rate(
      usSmallCraft,
      awg("6"),
      105,
      cabin,
      { ...engine, bundle: 4 },
      { ...cabin, bundle: 3 },
      { ...engine, bundle: 4 },
    );
    assert.equal(rated.decidingStretch, 1);
    assert.equal(rated.amps, 120 * (0.85 * 0.6));
    assert.equal(rated.unbundledAmps, 120 * 0.85);
    assert.deepEqual(
      rated.perStretch.map((each) => each.amps),
      [120, 120 * (0.85 * 0.6), 120 * 0.7, 120 * (0.85 * 0.6)],
    );
  });

  test("what two published readings of a pair say is told with the number", () => {
    assert.match(rate(usSmallCraft, awg("10"), 105, { ...cabin, bundle: 2 }).notes.join(), /two readings/);
    assert.match(rate(usSmallCraft, awg("10"), 105, { ...cabin, bundle: 4 }).notes.join(), /flat 0\.70/);
    assert.deepEqual(rate(usSmallCraft, awg("10"), 105, cabin).notes, []);
  });
});

describe("what may not be used or cannot be told", () => {
  test("60 °C insulation has no ampacity in an engine space in either set, and no other stretch helps", () => {
    for (const [set, make, insulation] of [
      [usSmallCraft, awg("10"), 60],
      [usSmallCraft, awg("10"), 70],
      [isoSmallCraft, mm2(6), 65],
    ] as const) {
      const rated = rate(set, make, insulation, cabin, engine);
      assert.equal(rated.amps, 0);
      assert.equal(rated.decidingStretch, 1);
      assert.match(rated.refused ?? "", /engine spaces/);
      assert.ok((rate(set, make, insulation, cabin).amps ?? 0) > 0);
    }
  });

  test("insulation below the first column has none", () => {
    const rated = rate(isoSmallCraft, mm2(6), 55, cabin);
    assert.equal(rated.amps, 0);
    assert.match(rated.refused ?? "", /55 °C is below 60 °C/);
  });

  test("air as hot as the conductor may be leaves nothing", () => {
    for (const stretch of [hotEngine(90), { ...cabin, ambientC: celsius(95) }]) {
      const rated = rate(isoSmallCraft, mm2(6), 90, stretch);
      assert.equal(rated.amps, 0);
      assert.match(rated.refused ?? "", /the conductor may reach 90 °C/);
    }
    // An ambient that nobody stated there counts only where it is hotter than the set takes an engine space to be.
    assert.match(rate(isoSmallCraft, mm2(6), 90, { ...engine, ambientC: celsius(95) }).refused ?? "", /95 °C/);
    assert.equal(rate(isoSmallCraft, mm2(6), 90, { ...engine, ambientC: celsius(45) }).refused, null);
  });

  test("a size below the first row, another metal and a set without numbers cannot be told", () => {
    const cases: readonly [Ampacity, RegExp][] = [
      [rate(usSmallCraft, awg("20"), 105, cabin), /20 AWG is below 18 AWG/],
      [rate(usSmallCraft, mm2(0.5), 105, cabin), /0\.5 mm² is below 18 AWG/],
      [
        rate(isoSmallCraft, sized(metricSize(35), { metal: "aluminium" }), 90, cabin),
        /for copper, the conductor is aluminium/,
      ],
    ];
    for (const [rated, words] of cases) {
      assert.equal(rated.amps, null);
      assert.match(rated.cannotTell ?? "", words);
      assert.equal(rated.trust, "missing");
    }
  });

  test("what only a defect could ask for is thrown", () => {
    for (const stretches of [
      [],
      [{ ...cabin, bundle: 0 }],
      [{ ...cabin, bundle: NaN }],
      [{ ...cabin, ambientC: celsius(NaN) }],
    ]) {
      assert.throws(() => rate(usSmallCraft, awg("10"), 105, ...stretches), RangeError);
      assert.throws(() => ampacityAmps(usSmallCraft.ampacity, awg("10"), 105, stretches), RangeError);
    }
  });
});

describe("trust", () => {
  test("travels from every cell and factor to the number", () => {
    const trust = (set: RuleSet, make: ConductorMake, insulation: number, stretch: Stretch) =>
      rate(set, make, insulation, stretch).trust;
    assert.equal(trust(usSmallCraft, awg("10"), 105, cabin), "read");
    assert.equal(trust(usSmallCraft, awg("10"), 105, { ...cabin, bundle: 2 }), "read");
    assert.equal(trust(usSmallCraft, awg("10"), 105, { ...cabin, bundle: 5 }), "article");
    assert.equal(trust(usSmallCraft, awg("10"), 105, { ...cabin, ambientC: celsius(40) }), "derived");
    assert.equal(trust(usSmallCraft, awg("10"), 105, engine), "article");
    assert.equal(trust(usSmallCraft, awg("10"), 90, engine), "memory");
    for (const stretch of [cabin, engine, hotEngine(60), { ...cabin, bundle: 9 }]) {
      for (const insulation of [60, 70, 90, 105, 125, 200]) {
        assert.ok(
          ["memory", "missing"].includes(trust(isoSmallCraft, mm2(6), insulation, stretch)),
          String(insulation),
        );
      }
    }
  });

  test("a weak factor at a stretch that does not decide still weakens the whole: it might have decided", () => {
    const rated = rate(usSmallCraft, awg("10"), 90, { ...cabin, bundle: 25 }, engine);
    assert.equal(rated.decidingStretch, 0);
    assert.equal(rated.trust, "memory");
  });
});

/** Named in the cases, so that a counterexample does not print a whole rule set. */
const sets = { us: usSmallCraft, iso: isoSmallCraft } as const;
const systems: readonly SizeSystem[] = ["AWG", "mm²", "SAE"];
const anyStretch: fc.Arbitrary<Stretch> = fc.record({
  engineSpace: fc.boolean(),
  // JSON has no negative zero.
  ambientC: fc.double({ min: -30, max: 120, noNaN: true }).map((t) => celsius(t + 0)),
  ambientStated: fc.boolean(),
  bundle: fc.integer({ min: 1, max: 40 }),
});
const anyCase = fc.record({
  setId: fc.constantFrom("us", "iso"),
  size: fc.constantFrom(...systems.flatMap((system) => stockedSizes(system))),
  plating: fc.constantFrom("plain", "tinned"),
  strands: fc.constantFrom("class 2", "class 5", "type 3", "class B"),
  insulation: fc.integer({ min: 50, max: 220 }),
  stretches: fc.array(anyStretch, { minLength: 1, maxLength: 4 }),
});

describe("laws", () => {
  test("the bare number is the explained one to the last bit", () => {
    fc.assert(
      fc.property(anyCase, ({ setId, size, plating, strands, insulation, stretches }) => {
        const set = sets[setId];
        const make = sized(size, { plating, strands });
        const explained = rate(set, make, insulation, ...stretches);
        assert.equal(ampacityAmps(set.ampacity, make, insulation, stretches), explained.amps ?? 0);
        const split = tableAmps(set.ampacity, make, insulation) * worstFactor(set.ampacity, insulation, stretches);
        assert.equal(split, explained.amps ?? 0);
      }),
      { numRuns: 1000 },
    );
  });

  test("better insulation, cooler air, a smaller bundle, and leaving an engine space or a stretch never lower it", () => {
    fc.assert(
      fc.property(anyCase, fc.nat(), fc.double({ min: 0, max: 40, noNaN: true }), (given, pick, cooler) => {
        const { insulation, stretches } = given;
        const set = sets[given.setId];
        const make = sized(given.size, { plating: given.plating, strands: given.strands });
        const at = (c: number, run: readonly Stretch[]) => ampacityAmps(set.ampacity, make, c, run);
        const now = at(insulation, stretches);
        const changed = (change: (stretch: Stretch) => Partial<Stretch>) =>
          stretches.map((stretch, i) => (i === pick % stretches.length ? { ...stretch, ...change(stretch) } : stretch));
        assert.ok(at(insulation + 5, stretches) >= now, "insulation");
        assert.ok(
          at(
            insulation,
            changed((s) => ({ ambientC: celsius(s.ambientC - cooler) })),
          ) >= now,
          "air",
        );
        assert.ok(
          at(
            insulation,
            changed((s) => ({ bundle: Math.max(1, s.bundle - 1) })),
          ) >= now,
          "bundle",
        );
        // Out of the engine space at the same stated or assumed temperature, not above the base.
        assert.ok(
          at(
            insulation,
            changed(() => ({ engineSpace: false, ambientC: celsius(30) })),
          ) >= now,
          "engine space",
        );
        if (stretches.length > 1) assert.ok(at(insulation, stretches.slice(1)) >= now, "fewer stretches");
      }),
      { numRuns: 1000 },
    );
  });

  test("a larger size of the same make never has less", () => {
    fc.assert(
      fc.property(
        anyCase,
        fc.constantFrom(...systems),
        ({ setId, plating, strands, insulation, stretches }, system) => {
          const all = stockedSizes(system).map((size) =>
            ampacityAmps(sets[setId].ampacity, sized(size, { plating, strands }), insulation, stretches),
          );
          assert.deepEqual(
            all,
            all.toSorted((a, b) => a - b),
          );
        },
      ),
    );
  });

  test("is plain data", () => {
    fc.assert(
      fc.property(anyCase, ({ setId, size, plating, strands, insulation, stretches }) => {
        const set = sets[setId];
        const rated = rate(set, sized(size, { plating, strands }), insulation, ...stretches);
        assert.deepEqual(JSON.parse(JSON.stringify(rated)), rated);
      }),
    );
  });
});

test("the steps of an ampacity are those a person would take: the cell, the heat, the product", () => {
  const { steps } = recordSteps(() => rate(isoSmallCraft, awg("2"), 95, hotEngine(60)));
  const last = steps.slice(-3);
  assert.deepEqual(
    last.map((step) => (step.kind === "formula" ? step.formula : `${step.sought} in row ${step.row}`)),
    ["2 AWG in row 35 mm²", "ambient-factor", "corrected-ampacity"],
  );
});

describe("temperature at part load", () => {
  const at = (current: number, ampacityA: number, ambient = 30, rating = 105): Celsius =>
    conductorTemperature({
      current: amps(current),
      ampacity: amps(ampacityA),
      ambientC: celsius(ambient),
      ratingC: celsius(rating),
    });

  test("runs from the air at no current to the rating at the ampacity, and stops at 250 °C", () => {
    assert.equal(at(0, 60), 30);
    assert.equal(at(0, 0), 30);
    assert.equal(at(60, 60), 105);
    assert.equal(at(30, 60), 30 + 75 / 4);
    assert.equal(at(600, 60), 250);
    assert.equal(at(1, 0), 250);
  });

  test("agrees with the balance of heat in free air up to the ampacity", () => {
    for (const name of ["18", "12", "6", "2", "4/0"]) {
      const { conductor } = thermalConductor(awg(name));
      for (const rating of [60, 75, 90, 105, 125, 200]) {
        const ambientC = celsius(30);
        const full = freeAirAmpacity({ ...conductor, ambientC, conductorC: celsius(rating) });
        for (let share = 0.1; share <= 1; share += 0.1) {
          const current = amps(full * share);
          const first = conductorTemperature({ current, ampacity: full, ambientC, ratingC: celsius(rating) });
          const balance = conductorTemperatureFreeAir({ ...conductor, ambientC, current });
          // What the doc comment promises: the heat lost bends up with the rise, the resistance made bends it back.
          const promised = rating <= 125 ? 1.5 : 5;
          assert.ok(
            Math.abs(first - balance) <= promised,
            `${name} AWG ${rating} °C at ${share}: ${first} against ${balance}`,
          );
        }
      }
    }
  });
});

test("a thermal conductor without a measured diameter has the usual wall, and a measured one wins", () => {
  const usual = thermalConductor(awg("10"));
  assert.equal(usual.trust, "practice");
  const measured = thermalConductor(awg("10"), { outsideDiameter: metres(0.005), material: "XLPE" });
  assert.equal(measured.conductor.outsideDiameter, 0.005);
  assert.equal(measured.conductor.resistivity, 3.5);
  // Less than the metal itself can only be a slip.
  const slip = thermalConductor(awg("10"), { outsideDiameter: metres(0.0001) });
  assert.equal(slip.conductor.outsideDiameter, slip.conductor.conductorDiameter);
});
