import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { celsius, metres, ohmsPerMetre } from "../../src/quantity/index.ts";
import {
  acResistance,
  cableOutside,
  circularMilsOfDiameter,
  circularMilsOfSquareMillimetres,
  circularMilsOfStrands,
  conduitFill,
  conduitImpedance,
  effectiveImpedance,
  fillingOf,
  metalMass,
  racewaySizes,
  raceways,
  reactance,
  smallestConduit,
  squareMillimetresOfCircularMils,
} from "../../src/wire/geometry/index.ts";
import {} from "../../src/wire/geometry/index.ts";
import { awgSize, conductorResistance, insulatedDiameter, kcmilSize } from "../../src/wire/index.ts";
import { emptyMake } from "../../src/wire/make/wire-make.ts";
import { near, number, openTable, rounding } from "./open-table.ts";

const sizeOf = (name: string) => awgSize(name) ?? kcmilSize(Number(name));

describe("conduits, NEC Chapter 9 Tables 1, 4 and 5", () => {
  const table4 = openTable("wire/conduit_dimensions");

  test("an area is that of the inside diameter, and the columns are its percentages", () => {
    assert.equal(table4.length, 114);
    for (const row of table4) {
      const label = `${String(row["raceway"])} ${String(row["trade_size_in"])}`;
      const area = number(row, "area_100pct_mm2");
      const circle = (Math.PI / 4) * number(row, "inside_diameter_mm") ** 2;
      // Diameters are rounded to tenths: 0.05 mm in d is 2 · 0.05/d in the area, areas to whole mm². 4 in FMC is printed 1.2 % off, as the file says.
      const slack = label === "FMC 4" ? 0.012 : 0.1 / number(row, "inside_diameter_mm") + 0.5 / area;
      assert.ok(near(area, circle, slack), `${label}: ${area} against ${circle}`);
      for (const percent of [60, 53, 31, 40])
        // Each column and the area are rounded to whole mm².
        assert.ok(Math.abs(number(row, `area_${percent}pct_mm2`) - (area * percent) / 100) <= 1, `${label} ${percent}`);
    }
  });

  test("a larger trade size is wider, and every row is carried", () => {
    let carried = 0;
    for (const raceway of raceways) {
      const sizes = racewaySizes(raceway);
      carried += sizes.length;
      sizes.forEach((size, i) => {
        const before = sizes[i - 1];
        if (before !== undefined) assert.ok(before.insideMm < size.insideMm, size.label);
      });
      const rows = table4.filter((row) => row["raceway"] === raceway);
      // Trade sizes stand in their order: sorting by area must not move one.
      if (rows.length > 0) assert.deepEqual(sizes.map(({ name }) => name), rows.map((row) => String(row["trade_size_in"]))); // prettier-ignore
    }
    assert.equal(carried, table4.length + openTable("wire/conduit_metric").length);
  });

  test("conductor counts of Annex C, EMT and THHN", () => {
    // NFPA 70 Annex C Table C.1, THHN in EMT, as electricians know them by heart (memory): trade size, gauge, greatest number.
    const annex = [
      ["1/2", "14", 12], ["1/2", "12", 9], ["1/2", "10", 5], ["1/2", "8", 3],
      ["3/4", "14", 22], ["3/4", "12", 16], ["3/4", "10", 10], ["3/4", "8", 6],
      ["1", "14", 35], ["1", "12", 26], ["1", "10", 16], ["1", "8", 9],
    ] as const; // prettier-ignore
    const emt = racewaySizes("EMT");
    for (const [trade, gauge, most] of annex) {
      const size = emt.find(({ name }) => name === trade);
      const outsideMm = insulatedDiameter(sizeOf(gauge), "THHN/THWN/THWN-2")?.value ?? NaN;
      assert.ok(size !== undefined);
      // Note 7: where all are equal, 0.8 of a further one counts as one.
      const exact = (size.areaMm2 * 0.4) / ((Math.PI / 4) * outsideMm ** 2);
      assert.equal(Math.floor(exact + 0.2), most, `${trade} ${gauge}`);
      assert.equal(conduitFill(size, [{ count: Math.floor(exact), outsideMm }]).fits, true);
      assert.equal(conduitFill(size, [{ count: Math.floor(exact) + 1, outsideMm }]).fits, false);
    }
  });

  test("every row of Table 5: what a make takes up is the printed diameter, and its section is as wide", () => {
    const rows = openTable("wire/insulation_diameters");
    const types: Readonly<Record<string, string>> = {
      "THHN/THWN/THWN-2": "THHN",
      "XHH/XHHW/XHHW-2": "XHHW-2",
      "TW/THW/THW-2/THHW": "THW",
      "RHH/RHW/RHW-2 without covering": "RHW-2",
    };
    let seen = 0;
    for (const row of rows) {
      const type = types[String(row["type"])];
      if (type === undefined) continue; // with covering: no type code tells it
      seen++;
      const { name, system, label, areaMm2 } = sizeOf(String(row["size_awg_or_kcmil"]));
      const size = { system, name, label, areaMm2, basis: "metal" } as const;
      const make = { ...emptyMake, family: "building wire", type, size } as const;
      const printed = number(row, "diameter_mm");
      assert.equal(fillingOf(make)?.outsideMm, printed);
      assert.ok(near((Math.PI / 4) * printed ** 2, number(row, "area_mm2"), 0.01) || row["conflict_cells"] !== null, label);
      // Layers of round strands against the diameters of Table 8, 1.6 % apart at most (see there); the wall is the same.
      assert.ok(near(cableOutside(make)?.mm ?? NaN, printed, 0.016), `${type} ${label}`);
    }
    assert.equal(seen, 72);
  });

  test("three 4/0 XHHW and a 4 AWG ground go into 2 in EMT", () => {
    // By hand from Table 5: 3 × 0.3197 in² + 0.0814 in² = 1.0405 in² (671 mm²); 2 in EMT holds 1.342 in² at 40 %, 1-1/2 in 0.814 in².
    const outside = (gauge: string) => insulatedDiameter(sizeOf(gauge), "XHH/XHHW/XHHW-2")?.value ?? NaN;
    const found = smallestConduit("EMT", [{ count: 3, outsideMm: outside("4/0") }, { count: 1, outsideMm: outside("4") }]);
    assert.equal(found?.size.name, "2");
    assert.ok(near(found.filledMm2, 1.0405 * 645.16, 0.002)); // four digits of square inches
  });
});

describe("alternating current, NEC Chapter 9 Table 9", () => {
  const awg = openTable("wire/awg");
  const rows = openTable("wire/ac_impedance").map((row) => {
    const name = String(row["size_awg_or_kcmil"]);
    const conductor = awg.find((each) => each["size"] === name);
    assert.ok(conductor !== undefined);
    const conductorMm = number(conductor, "stranded_overall_diameter_mm");
    return { row, name, conductorMm, direct: number(conductor, "stranded_cu_bare_75C_ohm_per_kft") / 304.8 };
  });

  test("the table's two units agree, and the look-up is the row", () => {
    for (const { row, name } of rows) {
      const found = conduitImpedance(sizeOf(name), "copper", "PVC");
      const perKft = (found?.resistanceOhmsPerMetre ?? NaN) * 304.8;
      assert.ok(near(perKft, number(row, "r_cu_pvc_conduit_ohm_per_kft"), 1e-12), name);
      for (const column of ["xl_pvc_or_al_conduit", "xl_steel_conduit", "r_cu_pvc_conduit", "r_cu_steel_conduit"]) {
        const perKft = number(row, `${column}_ohm_per_kft`);
        const perKm = number(row, `${column}_ohm_per_km`);
        // Two digits each, converted before they were rounded: half a unit of the last digit of both.
        assert.ok(near(perKm, perKft * 3.28084, rounding(perKft, 2) + rounding(perKm, 2)), `${name} ${column}`);
      }
    }
  });

  test("its reactance is that of parallel wires 1.42 to 1.55 times as far apart as touching ones", () => {
    for (const { row, name, conductorMm } of rows) {
      const outside = insulatedDiameter(sizeOf(name), "RHH/RHW/RHW-2 without covering")?.value;
      if (outside === undefined) continue; // 600 kcmil and up are not in Table 5 as carried
      const touching = reactance({ hertz: 60, conductorMm, spacingMm: outside }) * 304.8;
      const printed = number(row, "xl_pvc_or_al_conduit_ohm_per_kft");
      // The table is for cradled wires with their old coverings, loose in the pipe: more reactance, by nearly one factor from 14 AWG to 500 kcmil.
      assert.ok(printed / touching > 1.41 && printed / touching < 1.56, `${name}: ${printed / touching}`);
    }
  });

  test("its resistance lies between loose and touching wires by IEC 60287-1-1", () => {
    for (const { row, name, conductorMm, direct } of rows) {
      const printed = number(row, "r_cu_pvc_conduit_ohm_per_kft");
      const x = number(row, "xl_pvc_or_al_conduit_ohm_per_kft") / 304.8;
      // The spacing that the printed reactance implies, X = 2πf (2 ln(2s/d) + 0.5) · 10⁻⁷.
      const loose = (conductorMm / 2) * Math.exp((x / (2 * Math.PI * 60 * 1e-7) - 0.5) / 2);
      const at = (spacingMm: number) => acResistance({ hertz: 60, ohmsPerMetre: direct, conductorMm, spacingMm, conductors: 3 }) * 304.8;
      // Two digits printed. 4/0 is printed 0.062 where direct current has 0.0608 and no spacing gives more than 0.0613: one per cent beyond its rounding.
      const half = rounding(printed, 2) + (name === "4/0" ? 0.01 : 0);
      assert.ok(printed >= at(loose) * (1 - half), `${name}: ${printed} below ${at(loose)}`);
      const outside = insulatedDiameter(sizeOf(name), "RHH/RHW/RHW-2 without covering")?.value;
      if (outside !== undefined) assert.ok(printed <= at(outside) * (1 + half), `${name}: ${printed} above ${at(outside)}`);
    }
  });

  test("effective impedance at a power factor of 0.85, the table's own column", () => {
    // Table 9, printed column "effective Z at 0.85 PF", copper in steel conduit: 500 kcmil 0.050, 4/0 0.080, 1/0 0.13 Ω/kft (memory).
    for (const [name, printed] of [["500", 0.05], ["4/0", 0.08], ["1/0", 0.13]] as const) {
      const found = conduitImpedance(sizeOf(name), "copper", "steel");
      assert.ok(found !== null);
      assert.ok(near(effectiveImpedance(found, 0.85) * 304.8, printed, 0.05), name); // two digits of three two-digit numbers
    }
  });
});

describe("public handbooks", () => {
  test("circular mils: US Navy NEETS module 4", () => {
    // "A wire has a diameter of 0.025 inch … 25 mils … 625 circular mils"; a stranded wire: strands times the square of the diameter in mils.
    assert.equal(circularMilsOfDiameter({ mils: 25 }), 625);
    // One circular mil is 0.7854 square mil.
    assert.ok(near(squareMillimetresOfCircularMils({ cmil: 1 }) / 0.0254 ** 2, 0.7854, 1e-5));
    assert.equal(circularMilsOfStrands({ wires: 19, mils: 10 }), 1900);
    for (const cmil of [1, 4107, 211600, 500000])
      assert.ok(near(circularMilsOfSquareMillimetres({ areaMm2: squareMillimetresOfCircularMils({ cmil }) }), cmil, 1e-12));
  });

  test("circular mils of the gauge: Lessons In Electric Circuits vol. I, wire table", () => {
    // 4/0: 0.4600 in, 211,600 cmil; 10: 0.1019 in, 10,380 cmil as rounded from the exact diameter; 12: 0.08081 in, 6,530.
    for (const [inch, cmil] of [[0.46, 211600], [0.1019, 10380], [0.08081, 6530]] as const)
      // The diameter has four digits, twice in the square.
      assert.ok(near(circularMilsOfDiameter({ mils: inch * 1000 }), cmil, 0.0005), String(inch));
  });

  test("mass of bare copper: NBS Handbook 100", () => {
    // Pounds in 1000 ft, solid (memory of the table): 4/0 640.5, 2 200.9, 10 31.43, 12 19.77, 14 12.43.
    const LB = 453.592; // g
    for (const [name, pounds] of [["4/0", 640.5], ["2", 200.9], ["10", 31.43], ["12", 19.77], ["14", 12.43]] as const) {
      const grams = metalMass({ areaMm2: sizeOf(name).areaMm2, densityGCm3: 8.89, lay: 1 });
      assert.ok(near((grams * 304.8) / LB, pounds, rounding(pounds, 4)), `${name}: ${(grams * 304.8) / LB}`);
    }
  });

  test("resistance and temperature: Lessons In Electric Circuits vol. I, temperature coefficient", () => {
    // R = Rref (1 + α (T − Tref)). The book's example has two wires of 15 Ω and α 0.004041 at 35 °C: 15.909 Ω. IACS copper has 0.00393, so 15 K give 5.895 %.
    const warm = conductorResistance({ metal: "copper", at20: ohmsPerMetre(15), length: metres(1), conductorC: celsius(35) });
    assert.ok(near(warm, 15 * 1.05895, 1e-9));
    assert.ok(near(warm, 15.909, 0.0017)); // 15 K times the difference of the coefficients, 0.00011
  });
});
