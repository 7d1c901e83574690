import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { amps, celsius, metres, ohmsPerMetre } from "../../quantity/index.ts";
import { bundleFactorModel, bundleTemperature } from "./bundle.ts";
import { conduitAmpacity } from "./conduit.ts";
import { conductorTemperatureFreeAir, freeAirAmpacity, type FreeAirInput } from "./free-air.ts";
import { groupedCablesAmpacity } from "./grouped-cables.ts";
import { radiationLoss, surfaceLoss } from "./surface-loss.ts";

/** A conductor of 0.5 to 120 mm² of copper with a wall of 0.2 to 2 mm, in air of −20 to 60 °C. */
const anyInput = fc
  .record({
    areaMm2: fc.double({ min: 0.5, max: 120, noNaN: true }),
    wallMm: fc.double({ min: 0.2, max: 2, noNaN: true }),
    resistivity: fc.constantFrom(3.5, 5),
    ambient: fc.double({ min: -20, max: 60, noNaN: true }),
    rise: fc.double({ min: 5, max: 150, noNaN: true }),
  })
  .map(({ areaMm2, wallMm, resistivity, ambient, rise }): FreeAirInput => {
    const dc = Math.sqrt((areaMm2 * 4) / Math.PI) * 1.1;
    return {
      metal: "copper",
      at20: ohmsPerMetre(0.0176 / areaMm2),
      conductorDiameter: metres(dc / 1000),
      outsideDiameter: metres((dc + 2 * wallMm) / 1000),
      resistivity,
      ambientC: celsius(ambient),
      conductorC: celsius(ambient + rise),
    };
  });

describe("free air", () => {
  test("temperature and ampacity are each other's inverse", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const current = freeAirAmpacity(input);
        const back = conductorTemperatureFreeAir({ ...input, current });
        // Two searches, each to 1e-9 K.
        assert.ok(Math.abs(back - input.conductorC) < 1e-5, `${input.conductorC} came back as ${back}`);
      }),
    );
  });

  test("the heat made is the heat lost", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const current = freeAirAmpacity(input);
        const made = current ** 2 * input.at20 * (1 + 0.00393 * (input.conductorC - 20));
        const perKelvin =
          (2 * Math.PI) / (input.resistivity * Math.log(input.outsideDiameter / input.conductorDiameter));
        const lost = surfaceLoss(input.outsideDiameter, input.conductorC - made / perKelvin, input);
        assert.ok(Math.abs(made / lost - 1) < 1e-6);
      }),
    );
  });

  test("more heat allowed, cooler air, cooler walls and denser air carry more; brighter surfaces carry less", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const current = freeAirAmpacity(input);
        const changed = (change: Partial<FreeAirInput>) => freeAirAmpacity({ ...input, ...change });
        assert.ok(changed({ conductorC: celsius(input.conductorC + 1) }) > current);
        assert.ok(changed({ ambientC: celsius(input.ambientC - 1) }) > current);
        assert.ok(changed({ wallC: celsius(input.ambientC + 1) }) < current);
        assert.ok(changed({ pressure: 60_000 }) < current);
        assert.ok(changed({ emissivity: 0.3 }) < current);
      }),
    );
  });

  test("nothing may be carried where the air is as hot as the conductor may be, or the walls are far hotter", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        assert.equal(freeAirAmpacity({ ...input, conductorC: input.ambientC }), 0);
        assert.equal(freeAirAmpacity({ ...input, wallC: celsius(900) }), 0);
      }),
    );
  });

  test("a current far beyond any balance reads as the hottest there is", () => {
    const wire = { metal: "copper", at20: ohmsPerMetre(8e-3), resistivity: 5, ambientC: celsius(30) } as const;
    const sized = { ...wire, conductorDiameter: metres(1.8e-3), outsideDiameter: metres(3.3e-3) };
    assert.equal(conductorTemperatureFreeAir({ ...sized, current: amps(90) }), 250);
    assert.equal(conductorTemperatureFreeAir({ ...sized, current: amps(5000) }), 250);
    assert.equal(conductorTemperatureFreeAir({ ...sized, current: amps(0) }).toFixed(6), "30.000000");
  });

  test("in a vacuum radiation alone settles a 20 AWG wire at 6.5 A in 70 °C walls near 116 °C", () => {
    // 9.88 Ω per 1000 ft is FAA AC 43.13-1B table 11-9; a thin-wall aircraft wire measures 1.27 to 1.32 mm. 116 °C is an estimate by
    // hand from the fourth-power law; 2 K is what 0.05 mm of diameter does to it.
    const settled = conductorTemperatureFreeAir({
      metal: "copper",
      at20: ohmsPerMetre(9.88 / 304.8),
      conductorDiameter: metres(1.0e-3),
      outsideDiameter: metres(1.3e-3),
      resistivity: 3.5,
      current: amps(6.5),
      ambientC: celsius(70),
      pressure: 0,
    });
    assert.ok(Math.abs(settled - 116) < 2, `${settled} °C`);
  });

  test("a black body of one metre's circumference at 100 °C in a void near zero radiates 1099 W/m", () => {
    // σ·T⁴ = 5.670374e-8 · 373.15⁴ = 1099.4 W/m²
    const surroundings = { ambientC: celsius(-273.15), emissivity: 1 };
    assert.equal(radiationLoss(1 / Math.PI, 100, surroundings).toFixed(1), "1099.4");
  });
});

describe("bundles", () => {
  test("more wires never carry more each, idle neighbours never heat, and one wire is alone", () => {
    fc.assert(
      fc.property(anyInput, fc.integer({ min: 1, max: 60 }), (input, count) => {
        const factor = bundleFactorModel({ ...input, count });
        assert.ok(bundleFactorModel({ ...input, count: count + 1 }) <= factor + 1e-9);
        assert.ok(bundleFactorModel({ ...input, count, loaded: 0.5 }) >= factor);
        assert.equal(bundleFactorModel({ ...input, count: 1 }), 1);
      }),
    );
  });

  test("the middle of a bundle at its modelled ampacity is as hot as the ampacity was asked for", () => {
    fc.assert(
      fc.property(anyInput, fc.integer({ min: 4, max: 40 }), (input, count) => {
        const factor = bundleFactorModel({ ...input, count });
        fc.pre(factor < 1);
        const current = amps(factor * freeAirAmpacity(input));
        const wires = Array.from({ length: count }, () => ({ ...input, current }));
        const { ambientC } = input;
        assert.ok(Math.abs(bundleTemperature(wires, { ambientC }) - input.conductorC) < 1e-5);
      }),
    );
  });

  test("one more amp anywhere warms the whole bundle; nothing flowing leaves it at the air's temperature", () => {
    const wire = { metal: "copper", at20: ohmsPerMetre(5.3e-3), outsideDiameter: metres(3.8e-3) } as const;
    const loads = [20, 10, 0, 0, 5, 15].map((a) => ({ ...wire, current: amps(a) }));
    const warm = bundleTemperature(loads, { ambientC: celsius(30) });
    const warmer = bundleTemperature([...loads.slice(1), { ...wire, current: amps(21) }], { ambientC: celsius(30) });
    assert.ok(warm > 30 && warmer > warm);
    const idle = loads.map((load) => ({ ...load, current: amps(0) }));
    assert.ok(Math.abs(bundleTemperature(idle, { ambientC: celsius(30) }) - 30) < 1e-6);
    const overloaded = loads.map((load) => ({ ...load, current: amps(2000) }));
    assert.equal(bundleTemperature(overloaded, { ambientC: celsius(30) }), 250);
    assert.throws(() => bundleTemperature([], { ambientC: celsius(30) }), RangeError);
  });
});

describe("groups and pipes", () => {
  test("touching cables carry less than a single one, and in a pipe less still", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const grouped = { ...input, ambientC: celsius(30), conductorC: celsius(90) };
        const single = groupedCablesAmpacity({ ...grouped, arrangement: "single cable" });
        const trefoil = groupedCablesAmpacity({ ...grouped, arrangement: "three touching in trefoil" });
        const pipe = {
          ...grouped,
          conduit: "plastic",
          conduitOutside: metres(4 * input.outsideDiameter),
          conduitInside: metres(3.6 * input.outsideDiameter),
          arrangement: "single cable",
        } as const;
        const three = conduitAmpacity({ ...pipe, cables: 3 });
        assert.ok(trefoil < single);
        assert.ok(three < single);
        assert.ok(conduitAmpacity({ ...pipe, cables: 4 }) < three);
        assert.equal(groupedCablesAmpacity({ ...grouped, arrangement: "single cable", ambientC: celsius(90) }), 0);
        assert.equal(conduitAmpacity({ ...pipe, cables: 3, ambientC: celsius(91) }), 0);
      }),
    );
  });

  test("the two ways to a lone cable in air agree within a tenth", () => {
    // Churchill–Chu with grey radiation against the IEC 60287 constants; IEC's fit is made for power cables of 10 mm and more.
    fc.assert(
      fc.property(anyInput, (input) => {
        fc.pre(input.outsideDiameter > 0.008);
        const given = { ...input, ambientC: celsius(30), conductorC: celsius(80) };
        const ratio = groupedCablesAmpacity({ ...given, arrangement: "single cable" }) / freeAirAmpacity(given);
        assert.ok(Math.abs(ratio - 1) < 0.1, String(ratio));
      }),
    );
  });
});
