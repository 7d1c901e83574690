import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { amps, celsius, metres, ohmsPerMetre } from "../../quantity/index.ts";
import { airPressure } from "./air-pressure.ts";
import { bundleTemperature } from "./bundle.ts";
import { bundledTemperatures, type LaidWire } from "./bundled-temperatures.ts";
import { freeAirAmpacity, type ThermalConductor } from "./free-air.ts";
import { heatBeside, type BesideInput } from "./heat-beside.ts";
import { ampacityLying, temperatureLying, type HeatWay } from "./lying.ts";

const copper = (ohmPerKm: number, dc: number, de: number, resistivity = 3.5): ThermalConductor => ({
  metal: "copper",
  at20: ohmsPerMetre(ohmPerKm / 1000),
  conductorDiameter: metres(dc / 1000),
  outsideDiameter: metres(de / 1000),
  resistivity,
});
const boat12 = copper(5.345, 2.32, 3.84);
const air = { ambientC: celsius(30) };

const anyWire = fc.constantFrom(
  copper(13.45, 1.5, 3.02),
  boat12,
  copper(1.3246, 4.67, 6.95),
  copper(0.2609, 10.6, 13.4),
);
const anyWay = fc.constantFrom<HeatWay>(
  { way: "free air" },
  { way: "touching", arrangement: "single cable clipped to a wall" },
  { way: "touching", arrangement: "three touching in trefoil" },
  {
    way: "conduit",
    cables: 3,
    conduit: "plastic",
    conduitOutside: metres(0.04),
    conduitInside: metres(0.036),
    arrangement: "single cable",
  },
  { way: "bundle", count: 2 },
  { way: "bundle", count: 12, loaded: 0.5 },
  { way: "wrapped", thickness: metres(0.05) },
);
const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("however a conductor lies", () => {
  test("temperature is the inverse of ampacity, rises with the current and with the air", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(40, 200), share(0, 35), (wire, lies, conductor, ambient) => {
        const around = { ambientC: celsius(ambient) };
        const current = ampacityLying(wire, lies, celsius(conductor), around);
        const at = (a: number, c = ambient) => temperatureLying(wire, lies, amps(a), { ambientC: celsius(c) });
        // Searches one within another, each to 1e-9 of its own, and a conduit's sixty rounds.
        assert.ok(Math.abs(at(current) - conductor) < 1e-4, `${conductor} came back as ${at(current)}`);
        assert.ok(at(1.02 * current) > at(current) && at(0.98 * current) < at(current));
        assert.ok(at(current, ambient + 2) > at(current) || at(current) >= 250);
        assert.ok(Math.abs(at(0) - ambient) < 1e-4);
      }),
      { numRuns: 60 },
    );
  });

  test("free air carries the most, but for the wall's own constants", () => {
    fc.assert(
      fc.property(anyWire, anyWay, share(60, 150), (wire, lies, conductor) => {
        const free = ampacityLying(wire, { way: "free air" }, celsius(conductor), air);
        // The constants of IEC 60287 are fitted to power cables: beside Churchill–Chu they give thin wires up to a fifth more on a wall.
        assert.ok(ampacityLying(wire, lies, celsius(conductor), air) < free * 1.2);
      }),
    );
  });

  test("within thermal insulation half is left, as BS 7671 523.9 has it", () => {
    // 0.5 for more than half a metre, against the same cable clipped to a wall (523.9, memory); one number for all sizes, of unlimited wool.
    for (const wire of [copper(7.41, 2, 3.6, 5), copper(1.83, 4.05, 6.05, 5), copper(0.524, 7.5, 9.9, 5)]) {
      const clipped: HeatWay = { way: "touching", arrangement: "single cable clipped to a wall" };
      const left =
        ampacityLying(wire, { way: "wrapped", thickness: metres(0.1) }, celsius(70), air) /
        ampacityLying(wire, clipped, celsius(70), air);
      assert.ok(left > 0.42 && left < 0.6, String(left));
    }
  });

  test("height takes off what the circular of the aviation authority says", () => {
    // FAA AC 43.13-1B figure 11-5: 0.91 at 20 000 ft. 0.03 for a chart that does not tell wire and temperature.
    const pressure = airPressure({ height: metres(6096) });
    const wire = copper(10.04, 1.75, 2.2);
    const at = (p: number) =>
      freeAirAmpacity({ ...wire, conductorC: celsius(200), ambientC: celsius(20), pressure: p });
    assert.ok(Math.abs(at(pressure) / at(101_325) - 0.91) < 0.03, String(at(pressure) / at(101_325)));
    // ISO 2533 prints 898.7, 540.2 and 226.3 hPa at 1, 5 and 11 km.
    for (const [h, hPa] of [
      [1000, 898.7],
      [5000, 540.2],
      [11_000, 226.3],
    ] as const) {
      assert.ok(Math.abs(airPressure({ height: metres(h) }) / 100 / hPa - 1) < 0.001);
    }
    assert.ok(at(airPressure({ height: metres(3000) })) / at(101_325) > 0.96);
  });
});

describe("bundles of unlike currents", () => {
  const laid = (wire: ThermalConductor, current: number): LaidWire => ({ ...wire, current: amps(current) });
  const anyLoads = fc.array(fc.tuple(anyWire, share(0, 1)), { minLength: 2, maxLength: 30 });
  const wiresOf = (loads: readonly (readonly [ThermalConductor, number])[]) =>
    loads.map(([wire, load]) => laid(wire, (load * 0.4 * 0.2) / Math.sqrt(wire.at20 * loads.length)));

  test("one wire alone is in free air", () => {
    fc.assert(
      fc.property(anyWire, share(0, 20), (wire, current) => {
        const { wiresC, middleC } = bundledTemperatures([laid(wire, current)], air);
        assert.equal(wiresC[0], temperatureLying(wire, { way: "free air" }, amps(current), air));
        assert.equal(middleC, wiresC[0]);
      }),
    );
  });

  test("equal wires with equal currents are the equal model", () => {
    fc.assert(
      fc.property(anyWire, fc.integer({ min: 2, max: 40 }), share(0.05, 1), (wire, count, load) => {
        const current = load * ampacityLying(wire, { way: "bundle", count }, celsius(105), air);
        const { wiresC, middleC } = bundledTemperatures(
          Array.from({ length: count }, () => laid(wire, current)),
          air,
        );
        for (const c of wiresC) assert.ok(Math.abs(c - middleC) < 1e-6);
        // Two and three wires of the equal factor are capped at what one carries alone.
        const equal = temperatureLying(wire, { way: "bundle", count }, amps(current), air);
        if (count > 3) assert.ok(Math.abs(middleC - equal) < 1e-5, `${middleC} and ${equal}`);
      }),
      { numRuns: 40 },
    );
  });

  test("what carries the most is hottest, idle ones are no hotter than the middle, and one more amp warms all", () => {
    fc.assert(
      fc.property(anyLoads, fc.nat(), (loads, pick) => {
        const wires = wiresOf(loads);
        const { wiresC, middleC, wattsPerMetre } = bundledTemperatures(wires, air);
        assert.equal(middleC, bundleTemperature(wires, air));
        fc.pre(middleC < 200 && Math.max(...wiresC) < 240);
        const i = pick % wires.length;
        const more = wires.map((w, k) => (k === i ? { ...w, current: amps(w.current + 1) } : w));
        const after = bundledTemperatures(more, air);
        assert.ok(after.wattsPerMetre > wattsPerMetre && after.middleC > middleC);
        after.wiresC.forEach((c, k) => {
          assert.ok(c > (wiresC[k] ?? 0) - 1e-9 || c === 250);
        });
        const idle = bundledTemperatures([...wires, laid(boat12, 0)], air);
        const last = idle.wiresC.at(-1) ?? NaN;
        assert.ok(last <= idle.middleC + 1e-9 && last >= 30 - 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  test("one loaded wire among idle ones is warmer than the even bundle and cooler than all loaded alike", () => {
    const one = Array.from({ length: 12 }, (_, i) => laid(boat12, i === 0 ? 25 : 0));
    const { wiresC, middleC } = bundledTemperatures(one, air);
    const all = bundledTemperatures(
      one.map((w) => ({ ...w, current: amps(25) })),
      air,
    );
    assert.ok((wiresC[0] ?? 0) > middleC && (wiresC[0] ?? 0) < all.middleC);
    assert.throws(() => bundledTemperatures([], air), RangeError);
  });
});

describe("beside the table", () => {
  const awg6 = copper(1.3246, 4.67, 6.95);
  const input = (published: number, more: Partial<BesideInput> = {}): BesideInput => ({
    published: amps(published),
    conductor: awg6,
    lies: { way: "free air" },
    around: air,
    ratingC: celsius(90),
    ...more,
  });

  test("NEC 310.17 agrees; a third more or less does not, and says what to look at", () => {
    assert.equal(heatBeside(input(105)).verdict, "agrees");
    const bold = heatBeside(input(140));
    assert.equal(bold.verdict, "table is bold");
    assert.match(bold.says, /18 % less than the table: .* 120 °C, and 90 °C is allowed/);
    const cautious = heatBeside(input(70));
    assert.equal(cautious.verdict, "table is cautious");
    assert.match(cautious.says, /64 % more/);
    assert.deepEqual(heatBeside(input(0)).ratio, null);
  });

  test("cells that are held down by rule are no measure", () => {
    // 33 CFR 183.425 table 5: 14 AWG at 60 °C 20 A, 6 AWG at 200 °C 135 A.
    const table = "ampacity/us_small_craft_dc";
    const small = input(20, {
      conductor: copper(8.4711, 1.85, 3.37),
      ratingC: celsius(60),
      cell: { table, row: "14", columnC: 60 },
    });
    assert.equal(heatBeside(small).verdict, "no measure");
    assert.equal(heatBeside({ ...small, cell: { table, row: "10", columnC: 60 } }).verdict === "no measure", false);
    const hot = input(135, { ratingC: celsius(200), cell: { table, row: "6", columnC: 200 } });
    assert.equal(heatBeside(hot).verdict, "no measure");
    // By heat alone it would be flagged: 1.28 and more.
    assert.equal(heatBeside(input(135, { ratingC: celsius(200) })).verdict, "table is cautious");
  });
});
