import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { near, number, openTable } from "./open-table.ts";

/** What an insulation rated `tc` may carry at another ambient than the table's, by Fourier's law: heat ∝ temperature difference. */
const derating = (tc: number, ambient: number) => Math.sqrt((tc - ambient) / (tc - 30));
const amps = (row: Readonly<Record<string, unknown>>) => Object.keys(row).filter((name) => name.includes("amps"));

describe("ampacity tables", () => {
  const ascending = [
    ["ampacity/us_small_craft_dc", "size_awg"],
    ["ampacity/iso_small_craft", "area_mm2"],
    ["ampacity/nec_310_16", "size_awg_or_kcmil"],
    ["ampacity/nec_310_17", "size_awg_or_kcmil"],
    ["ampacity/vehicle_vde_0298_4", "area_mm2"],
    ["ampacity/vehicle_faa_ac43_13_1b_copper", "size_awg"],
  ] as const;

  test("a larger size carries more in every column", () => {
    for (const [id, key] of ascending) {
      for (const [i, row] of openTable(id).entries()) {
        const next = openTable(id)[i + 1];
        for (const column of amps(row)) {
          if (next === undefined || row[column] === null) continue;
          assert.ok(number(next, column) > number(row, column), `${id} ${String(row[key])} ${column}`);
        }
      }
    }
  });

  test("better insulation never carries less; equal neighbours stand only where the regulation prints them", () => {
    for (const [id, key] of ascending) {
      for (const row of openTable(id)) {
        for (const metal of ["cu_", "al_", ""]) {
          const columns = amps(row).filter((name) => name.startsWith(`${metal}amps`) && /\d/.test(name) && row[name] !== null);
          for (const [i, column] of columns.entries()) {
            const next = columns[i + 1];
            if (next === undefined) continue;
            assert.ok(number(row, next) >= number(row, column), `${id} ${String(row[key])} ${next}`);
            // The US small-craft table has flat steps (its note says which); no other table has one.
            if (id !== "ampacity/us_small_craft_dc") assert.ok(number(row, next) > number(row, column), `${id} ${String(row[key])}`);
          }
        }
      }
    }
  });

  test("the US small-craft table is the free-air table of the NEC where both were drawn up alike", () => {
    const nec = openTable("ampacity/nec_310_17");
    const equal60: string[] = [];
    const equal75: string[] = [];
    for (const row of openTable("ampacity/us_small_craft_dc")) {
      const same = nec.find((other) => other["size_awg_or_kcmil"] === row["size_awg"]);
      if (same?.["cu_amps_60C"] === row["amps_60C"]) equal60.push(String(row["size_awg"]));
      if (same?.["cu_amps_75C"] === row["amps_75C"]) equal75.push(String(row["size_awg"]));
      // Elsewhere the regulation is the lower one.
      if (same?.["cu_amps_60C"] != null) assert.ok(number(row, "amps_60C") <= number(same, "cu_amps_60C"));
      if (same?.["cu_amps_75C"] != null) assert.ok(number(row, "amps_75C") <= number(same, "cu_amps_75C"));
    }
    const from6up = ["6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"];
    assert.deepEqual(equal60, ["10", ...from6up]);
    assert.deepEqual(equal75, from6up);
  });

  test("free air always carries more than a raceway", () => {
    const raceway = openTable("ampacity/nec_310_16");
    for (const row of openTable("ampacity/nec_310_17")) {
      const same = raceway.find((other) => other["size_awg_or_kcmil"] === row["size_awg_or_kcmil"]);
      for (const column of amps(row)) {
        if (row[column] === null) assert.equal(same?.[column], null);
        else assert.ok(number(row, column) > number(same, column), `${String(row["size_awg_or_kcmil"])} ${column}`);
      }
    }
  });

  test("aluminium carries √0.61 of copper", () => {
    // Heat ∝ I²R, and aluminium has 61 % of the conductivity. The codes round to 5 A; 3 % more in large raceway sizes, where copper loses more to skin effect.
    for (const id of ["ampacity/nec_310_16", "ampacity/nec_310_17"]) {
      for (const row of openTable(id)) {
        for (const rating of ["60C", "75C", "90C"]) {
          const al = number(row, `al_amps_${rating}`);
          const cu = number(row, `cu_amps_${rating}`);
          if (Number.isNaN(al)) continue;
          const roundingOf = 2.5 / cu + 2.5 / al;
          assert.ok(Math.abs(al / cu / Math.sqrt(0.61) - 1) < 0.031 + roundingOf, `${id} ${String(row["size_awg_or_kcmil"])} ${rating}: ${al / cu}`);
        }
      }
    }
  });

  test("the E-11 bundled tables are the products of the single-conductor table and the factors", () => {
    const single = openTable("ampacity/us_small_craft_dc");
    const bundle = openTable("ampacity/e11_bundle_factors");
    const engine = openTable("ampacity/us_small_craft_engine_factors");
    const rows = openTable("ampacity/us_small_craft_bundled");
    assert.equal(rows.length, 4 * 2 * 15);
    for (const row of rows) {
      const base = single.find((other) => other["size_awg"] === row["size_awg"]);
      const factor = number(bundle.find((other) => other["conductors_min"] === row["bundle_min_conductors"]), "factor");
      for (const column of amps(row).filter((name) => row[name] !== null)) {
        const rating = Number(/(\d+)C/.exec(column)?.[1]);
        const hot = row["space"] === "inside" ? number(engine.find((other) => other["insulation_C"] === rating), "factor") : 1;
        // Printed to 0.1 A, a half rounded either way.
        assert.ok(Math.abs(number(row, column) - number(base, column) * factor * hot) <= 0.1, `${JSON.stringify(row)} ${column}`);
      }
    }
  });
});

describe("factors", () => {
  test("the NEC ambient factors are the square-root rule at the upper end of the band", () => {
    for (const row of openTable("ampacity/nec_ambient")) {
      for (const rating of [60, 75, 90]) {
        const printed = number(row, `factor_${rating}C`);
        // The row up to 10 °C is worked at 10 °C as well. Two digits: half a unit of the second decimal.
        if (!Number.isNaN(printed)) {
          assert.ok(Math.abs(printed - derating(rating, number(row, "ambient_max_C"))) < 0.0051, `${rating} °C, ${printed}`);
        } else assert.ok(number(row, "ambient_max_C") >= rating - 4); // no factor where next to no current is left
      }
    }
  });

  test("the Canadian factors for hotter insulation follow the same rule", () => {
    for (const row of openTable("ampacity/ambient_high_temp_insulation")) {
      for (const rating of [60, 75, 90, 105, 110, 125, 150, 200, 250]) {
        const printed = number(row, `factor_${rating}C`);
        // Two digits, a few cut instead of rounded: one unit of the second decimal.
        if (!Number.isNaN(printed)) assert.ok(Math.abs(printed - derating(rating, number(row, "ambient_C"))) < 0.0101, `${rating} °C`);
      }
    }
  });

  test("engine-space factors are the square-root rule at 50 °C, save the capped 200 °C one", () => {
    for (const row of openTable("ampacity/us_small_craft_engine_factors")) {
      const rating = number(row, "insulation_C");
      const factor = number(row, "factor");
      if (rating === 200) assert.equal(factor, 1);
      // Two digits and the law's own rounding: one unit of the second decimal.
      else assert.ok(Math.abs(factor - derating(rating, 50)) < 0.0101, `${rating} °C: ${factor}`);
    }
  });

  test("factors never rise with the number of conductors or with ambient, and leave no gap", () => {
    const bands = [
      ["ampacity/us_small_craft_bundle_factors", "conductors_min", "conductors_max", ["factor"]],
      ["ampacity/e11_bundle_factors", "conductors_min", "conductors_max", ["factor"]],
      ["ampacity/iso_small_craft_bundle_factors", "conductors_min", "conductors_max", ["factor"]],
      ["ampacity/nec_count_adjustment", "conductors_min", "conductors_max", ["factor_310_15_C_1", "factor_400_5_cords"]],
      ["ampacity/nec_ambient", "ambient_min_C", "ambient_max_C", ["factor_60C", "factor_75C", "factor_90C"]],
    ] as const;
    for (const [id, from, to, columns] of bands) {
      const rows = openTable(id);
      for (const [i, row] of rows.entries()) {
        const next = rows[i + 1];
        if (next === undefined) {
          if (from !== "ambient_min_C") assert.equal(row[to], null, `${id}: the last band has an end`);
          continue;
        }
        assert.equal(number(next, from), number(row, to) + 1, id);
        for (const column of columns) {
          if (next[column] !== null) assert.ok(number(next, column) <= number(row, column), `${id} ${column}`);
        }
      }
    }
  });
});

describe("smallest conductors", () => {
  test("smallest boat conductors are the SAE sizes", () => {
    const sae = openTable("wire/sae_gauge");
    for (const row of openTable("ampacity/us_small_craft_stranding")) {
      const same = sae.find((other) => other["sae_gauge"] === row["size_awg"]);
      assert.equal(row["min_circular_mils"], same?.["sae_area_cmil"]);
      assert.ok(near(number(row, "area_mm2"), number(row, "min_circular_mils") * 5.06707e-4, 0.001)); // three decimals
    }
  });

  test("Type 3 strands of 30 AWG give the smallest area, and are finer than Type 2", () => {
    const strand = 1e6 * (0.005 * 92 ** ((36 - 30) / 39)) ** 2; // cmil of 30 AWG, ASTM B258
    for (const row of openTable("ampacity/us_small_craft_stranding")) {
      if (row["type3_min_strands"] === null) continue;
      assert.ok(number(row, "type3_min_strands") * strand > number(row, "min_circular_mils"), String(row["size_awg"]));
      assert.ok(number(row, "type3_min_strands") > number(row, "type2_min_strands"));
    }
  });

  test("small-conductor devices are the 60 °C column of copper, from 14 AWG up", () => {
    const table = openTable("ampacity/nec_310_16");
    const rows = openTable("ampacity/nec_240_4_d").filter((row) => row["conductor"] === "Cu" && Number(row["size_awg"]) <= 14);
    for (const row of rows) {
      const same = table.find((other) => other["size_awg_or_kcmil"] === row["size_awg"]);
      assert.equal(row["max_ocpd_amps"], same?.["cu_amps_60C"]);
    }
    assert.equal(rows.length, 3);
  });

  test("a larger device asks for a larger equipment grounding conductor, aluminium two sizes up", () => {
    const order = openTable("wire/awg").map((row) => String(row["size"]));
    const rows = openTable("ampacity/nec_250_122");
    for (const [i, row] of rows.entries()) {
      const cu = order.indexOf(String(row["cu_egc_size_awg_or_kcmil"]));
      const al = order.indexOf(String(row["al_egc_size_awg_or_kcmil"]));
      assert.ok(cu >= 0 && al > cu, String(row["ocpd_amps"]));
      const next = rows[i + 1];
      if (next !== undefined) assert.ok(order.indexOf(String(next["cu_egc_size_awg_or_kcmil"])) > cu);
    }
  });
});
