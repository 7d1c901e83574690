import { test } from "vitest";
import assert from "node:assert/strict";
import { near, number, openTable } from "./open-table.ts";

test("k values are those of adiabatic heating between the two temperatures", () => {
  // IEC 60949: k = K √ln((θf + B)/(θi + B))
  const metals: Record<string, readonly [number, number]> = { copper: [226, 234.5], aluminium: [148, 228], steel: [78, 202] };
  const bare = /mineral insulated/;
  for (const row of openTable("protection/adiabatic")) {
    const [K, B] = metals[String(row["material"])] ?? [NaN, NaN];
    const computed = K * Math.sqrt(Math.log((number(row, "theta_final_C") + B) / (number(row, "theta_initial_C") + B)));
    // Rounded to whole numbers, and 0.5 % between the editions' constants; mineral insulated ones are rounded down harder.
    const tolerance = bare.test(String(row["insulation_or_case"])) ? 0.01 : 0.5 / computed + 0.005;
    assert.ok(near(number(row, "k_A_sqrt_s_per_mm2"), computed, tolerance), `${String(row["insulation_or_case"])}: ${computed}`);
  }
});

test("rest voltages rise with the state of charge and packs are their cells", () => {
  const lfp = openTable("energy/lfp_ocv");
  const lead = openTable("energy/lead_acid_rest_voltage");
  for (const rows of [lfp, lead]) {
    assert.equal(rows[0]?.["soc"], 0);
    assert.equal(rows.at(-1)?.["soc"], 1);
    for (const [i, row] of rows.entries()) {
      const next = rows[i + 1];
      if (next === undefined) continue;
      assert.ok(number(next, "soc") > number(row, "soc"));
      assert.ok(number(next, "cell_v") > number(row, "cell_v"));
    }
  }
  for (const row of lfp) {
    // Three decimals printed, cell to four.
    for (const cells of [4, 8, 16]) assert.ok(Math.abs(number(row, `pack_${cells}s_v`) - cells * number(row, "cell_v")) < 0.0006 + cells * 5e-5);
  }
  for (const row of lead) assert.ok(Math.abs(number(row, "battery_12v_v") - 6 * number(row, "cell_v")) < 6 * 5e-5 + 1e-9);
});

test("lead-acid rest voltage is within 0.02 V of the cell of its acid", () => {
  // A second route: rest volts of a cell ≈ 0.845 + density (kg/l), the workshop rule; densities from the file's own head line.
  const densities = [1.12, 1.155, 1.19, 1.225, 1.265];
  for (const [i, row] of openTable("energy/lead_acid_rest_voltage").entries()) {
    const rule = 0.845 + (densities[i] ?? NaN);
    assert.ok(Math.abs(number(row, "cell_v") - rule) < 0.02, `${number(row, "soc")}: ${rule}`);
  }
});

test("battery parameters keep their order", () => {
  const rows = openTable("energy/battery_parameters");
  const of = (parameter: string) => rows.find((row) => row["parameter"] === parameter);
  for (const chemistry of ["flooded_lead_acid", "agm_lead_acid", "gel_lead_acid", "lfp"]) {
    const low = number(of("peukert_exponent_low"), chemistry);
    const typical = number(of("peukert_exponent_typical"), chemistry);
    const high = number(of("peukert_exponent_high"), chemistry);
    assert.ok(1 <= low && low <= typical && typical <= high, chemistry);
    assert.ok(number(of("float_voltage_per_cell_25c"), chemistry) < number(of("absorption_voltage_per_cell_25c"), chemistry));
    assert.ok(number(of("capacity_factor_at_minus20c"), chemistry) < number(of("capacity_factor_at_0c"), chemistry));
    // Energy is charge times a voltage ratio below one.
    assert.ok(number(of("energy_efficiency_round_trip"), chemistry) < number(of("coulombic_efficiency_mean_cycle"), chemistry));
    assert.ok(number(of("max_depth_for_sizing_daily"), chemistry) < number(of("max_depth_for_autonomy"), chemistry));
  }
});

test("the least interrupting capacity grows with the bank, and is halved behind the main breaker", () => {
  const rows = openTable("protection/interrupt_minimum_by_cca");
  for (const row of rows.filter(({ place }) => place === "main")) {
    const branch = rows.find((r) => r["place"] === "branch" && r["cca_min"] === row["cca_min"] && r["system_max_v"] === row["system_max_v"]);
    assert.equal(number(branch, "interrupt_min_A") * 2, number(row, "interrupt_min_A"));
    const larger = rows.find((r) => r["place"] === "main" && r["system_max_v"] === row["system_max_v"] && r["cca_min"] === number(row, "cca_max") + 1);
    if (row["cca_max"] === null) assert.equal(larger, undefined);
    else assert.ok(number(larger, "interrupt_min_A") > number(row, "interrupt_min_A"));
  }
});

test("what sources give is a range in order, and the E-11 ratio is that of its own table", () => {
  const rows = openTable("protection/source_fault_current");
  for (const row of rows) assert.ok(number(row, "low") > 0 && number(row, "low") <= number(row, "high"), String(row["source_kind"]));
  const ratio = rows.find((row) => row["source_kind"] === "lead-acid starting battery" && row["unit"] === "A/A");
  const main = openTable("protection/interrupt_minimum_by_cca").filter(
    (row) => row["place"] === "main" && row["system_max_v"] === 24 && row["cca_max"] !== null,
  );
  const ratios = main.map((row) => number(row, "interrupt_min_A") / number(row, "cca_max"));
  // One decimal.
  assert.ok(Math.abs(Math.min(...ratios) - number(ratio, "low")) < 0.05);
  assert.ok(Math.abs(Math.max(...ratios) - number(ratio, "high")) < 0.05);
});
