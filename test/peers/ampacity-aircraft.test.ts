import { describe, test } from "vitest";
import assert from "node:assert/strict";
import {
  bundleFactorModel,
  conductorTemperature,
  freeAirAmpacity,
  type ThermalConductor,
} from "../../src/ampacity/index.ts";
import { amps, celsius, circularMils, metres, ohmsPerMetre, toSi } from "../../src/quantity/index.ts";
import { conductorResistance } from "../../src/wire/index.ts";
import { number, openTable } from "../reference/open-table.ts";

/** The aircraft circular FAA AC 43.13-1B took its currents from charts of measured wire: a road to the same numbers that shares nothing with the model. */
const charts = openTable("ampacity/vehicle_faa_chart_points");
const chart = (figure: string, condition: string): number => {
  const row = charts.find((each) => each["figure"] === figure && each["condition"] === condition);
  return number(row, "value");
};
const table119 = openTable("ampacity/vehicle_faa_ac43_13_1b_copper");

/** Aircraft wire: concentric strands measure 1.13 of a solid wire; thin fluoropolymer walls 0.15 to 0.25 mm. */
function aircraftWire(size: string, wallMm = 0.2): ThermalConductor {
  const row = table119.find((each) => each["size_awg"] === size);
  const areaMm2 = circularMils(number(row, "area_cmil"));
  const across = 1.13e-3 * Math.sqrt((4 * areaMm2) / Math.PI);
  const printed = number(row, "max_ohm_per_1000ft_20C");
  return {
    metal: "copper",
    // Below 1 Ω per 1000 ft the table's two decimals are too coarse (0.06 may be 0.055): there the area it prints tells more, copper with 2 % of lay.
    at20: printed >= 1 ? toSi(printed, "resistance per length", "Ω/kft") : ohmsPerMetre((0.017241 * 1.02) / areaMm2),
    conductorDiameter: metres(across),
    outsideDiameter: metres(across + (2 * wallMm) / 1000),
    resistivity: 3.5,
  };
}

describe("FAA AC 43.13-1B", () => {
  test("equation 2, page 11-22: a hot wire may be shorter by 254.5 / (234.5 + T)", () => {
    for (let t = 20; t <= 200; t += 20) {
      const of = (c: number) =>
        conductorResistance({ metal: "copper", at20: ohmsPerMetre(1e-3), length: metres(10), conductorC: celsius(c) });
      // α20 = 0.00393 is 1/254.45: the circular rounds that to 254.5, 0.02 % at most.
      assert.ok(Math.abs(of(20) / of(t) / (254.5 / (234.5 + t)) - 1) < 2.5e-4, `${t} °C`);
    }
  });

  test("figure 11-5: thin air at 20 000 ft leaves 0.91", () => {
    // International standard atmosphere: 46 563 Pa at 20 000 ft. One curve for all wires, read to 0.02; it lies on the safe side of the thin ones.
    for (const size of ["22", "14", "8"]) {
      const given = { ...aircraftWire(size), ambientC: celsius(70), conductorC: celsius(200) };
      const factor = freeAirAmpacity({ ...given, pressure: 46_563 }) / freeAirAmpacity(given);
      assert.ok(
        factor - chart("11-5", "20 000 ft") > -0.02 && factor - chart("11-5", "20 000 ft") < 0.04,
        `${size}: ${factor}`,
      );
    }
  });

  test("figure 11-6: 8 wires loaded to 60 % and 12 to 100 %", () => {
    const given = { ...aircraftWire("12", 0.25), ambientC: celsius(70), conductorC: celsius(200) };
    for (const [count, loaded, condition] of [
      [8, 0.6, "8 wires, 60 % of capacity"],
      [12, 1, "12 wires, 100 % of capacity"],
    ] as const) {
      const factor = bundleFactorModel({ ...given, count, loaded });
      // Curves read to 0.02, and the conductivity of a bundle is known to a quarter, which moves the factor by 5 %.
      assert.ok(Math.abs(factor / chart("11-6", condition) - 1) < 0.1, `${condition}: ${factor}`);
    }
  });

  /** Table 11-9 over the model: one wire in 70 °C air at sea level. */
  const shares = (size: string): number[] => {
    const row = table119.find((each) => each["size_awg"] === size);
    return [105, 150, 200].map((rating) => {
      const alone = freeAirAmpacity({ ...aircraftWire(size), ambientC: celsius(70), conductorC: celsius(rating) });
      return number(row, `amps_${rating}C`) / alone;
    });
  };

  test("table 11-9, 24 to 10 AWG, is the model in free air times the circular's own factors for 60 000 ft and 35 wires", () => {
    const factors = chart("11-5", "60 000 ft") * chart("11-6", "35 wires, 20 % of capacity");
    for (const size of ["24", "22", "20", "18", "16", "14", "12", "10"]) {
      const row = table119.find((each) => each["size_awg"] === size);
      shares(size).forEach((share, i) => {
        const printed = number(row, `amps_${[105, 150, 200][i] ?? NaN}C`);
        // 10 % for what the charts were read to, twice, and half an ampere for the whole numbers that the table prints.
        const band = 0.1 + 0.5 / printed;
        assert.ok(Math.abs(share / factors - 1) < band, `${size} AWG: ${share / factors}`);
      });
    }
  });

  test("table 11-9, 8 AWG to 4/0, asks one and the same factor of the model at every size and rating", () => {
    // Nine wires instead of thirty-three: a factor that the circular does not print, yet it must not depend on the size.
    const all = ["8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0"].flatMap(shares);
    const middle = all.toSorted((a, b) => a - b)[Math.floor(all.length / 2)] ?? NaN;
    // The same 10 % as above, over a 12-fold range of current and a 4-fold range of rise.
    for (const share of all) assert.ok(Math.abs(share / middle - 1) < 0.1, `${share} against ${middle}`);
    // And it lies above that of thirty-three.
    assert.ok(middle > Math.max(...shares("10")));
  });

  test("its rule for the temperature at part load is on the safe side of ours", () => {
    // T2 = T1 + (TR − T1)·√(I2/Imax), which the circular itself calls conservative: 182 °C for 20 A of 26 A between 50 and 200 °C.
    const ours = conductorTemperature({
      current: amps(20),
      ampacity: amps(26),
      ambientC: celsius(50),
      ratingC: celsius(200),
    });
    assert.ok(ours < 50 + 150 * Math.sqrt(20 / 26));
    assert.equal(ours.toFixed(0), "139"); // 50 + 150 · (20/26)², worked by hand
  });
});
