import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { convertSize, pairedSize, sizesOn, type ConvertInput, type LadderSystem } from "../../src/wire/convert/index.ts";
import { near, number, openTable } from "./open-table.ts";

const size = (side: LadderSystem, name: string) => {
  const found = sizesOn(side, "all").find((rung) => rung.size.name === name);
  assert.ok(found !== undefined, `${side} ${name}`);
  return found.size;
};
const convert = (input: ConvertInput) => {
  const conversion = convertSize(input);
  assert.ok(conversion !== null);
  return conversion;
};

describe("mm² and AWG, worked out once by hand and once by the tables", () => {
  /** mm², customary pair, its area and its resistance against the class 5 limit in per cent, smallest AWG not smaller of all and of those on sale. */
  const rows = [
    ["0.5", "20", 3.5, -13, "20", "18"],
    ["0.75", "18", 9.7, -18, "18", "18"],
    ["1", null, -18, 10, "17", "16"],
    ["1.5", "16", -13, 1, "15", "14"],
    ["2.5", "14", -17, 6, "13", "12"],
    ["4", "12", -17, 7, "11", "10"],
    ["6", "10", -12, 1, "9", "8"],
    ["10", "8", -16, 10, "7", "6"],
    ["16", "6", -17, 9, "5", "4"],
    ["25", "4", -15, 7, "3", "2"],
    ["35", "2", -4, -6, "1", "1"],
    ["50", "1/0", 7, -15, "1/0", "1/0"],
    ["70", "2/0", -4, -4, "3/0", "3/0"],
    ["95", "3/0", -10, 0, "4/0", "4/0"],
    ["120", "250", 6, -14, "250", "250"],
    ["150", "300", 1, -10, "300", "300"],
    ["185", "350", -4, -6, "400", "400"],
    ["240", "500", 6, -13, "500", "500"],
  ] as const;

  test.each(rows)("%s mm²", (mm2, pair, areaPct, resistancePct, ofAll, onSale) => {
    const from = size("mm²", mm2);
    const listed = pairedSize("terminals", from, "AWG");
    assert.equal(listed?.name ?? null, pair);
    // 1 mm² has no customary pair; a chart pairs it with 18, and the hand-worked figures are for that.
    const paired = convert({ size: from, to: "AWG", by: "table" }).to;
    assert.equal(paired?.size.name, pair ?? "18");
    // Hand-worked to whole per cent (area of the two smallest to tenths); resistances there by Table 8, whose third digit is another 0.6 %.
    assert.ok(Math.abs((paired?.areaChange ?? NaN) * 100 - areaPct) <= 0.55, `area ${paired?.areaChange ?? NaN}`);
    assert.ok(Math.abs((paired?.resistanceChange ?? NaN) * 100 - resistancePct) <= 1.1, `ohm ${paired?.resistanceChange ?? NaN}`);
    assert.equal(convert({ size: from, to: "AWG", among: "all" }).to?.size.name, ofAll);
    assert.equal(convert({ size: from, to: "AWG" }).to?.size.name, onSale);
  });

  test("what the chart has otherwise: 1 mm², 50, 120, 150 and 240", () => {
    const other = [["1", "18"], ["50", "1"], ["120", "4/0"], ["150", "250"], ["240", "450"]] as const; // prettier-ignore
    for (const [mm2, name] of other) assert.equal(pairedSize("stranding chart", size("mm²", mm2), "AWG")?.name, name);
    const rows = openTable("wire/size_pairings");
    const chart = rows.filter((row) => row["pairing"] === "stranding chart");
    const terminals = rows.filter((row) => row["pairing"] === "terminals");
    const differ = chart.filter((row) => terminals.find((t) => t["from_size"] === row["from_size"])?.["to_size"] !== row["to_size"]);
    assert.deepEqual(differ.map((row) => row["from_size"]), other.map(([mm2]) => mm2)); // prettier-ignore
  });

  test("the guide: smallest metric size with at least the AWG's area", () => {
    // As published, recomputed here from ASTM B258 and the sizes of IEC 60228.
    const published = [
      ["20", "0.75"], ["18", "1"], ["16", "1.5"], ["14", "2.5"], ["12", "4"], ["10", "6"], ["8", "10"], ["6", "16"], ["5", "25"], ["4", "25"],
      ["3", "35"], ["2", "35"], ["1", "50"], ["1/0", "70"], ["2/0", "70"], ["3/0", "95"], ["4/0", "120"],
    ] as const; // prettier-ignore
    for (const [gauge, mm2] of published) {
      assert.equal(pairedSize("not-smaller guide", size("AWG", gauge), "mm²")?.name, mm2);
      assert.equal(convert({ size: size("AWG", gauge), to: "mm²" }).to?.size.name, mm2, gauge);
    }
  });

  test("the workshop list is not smaller in its own direction, but for its last line", () => {
    for (const row of openTable("wire/size_pairings").filter((each) => each["pairing"] === "workshop list")) {
      const mm2 = String(row["from_size"]);
      const found = convert({ size: size("mm²", mm2), to: "AWG", by: "table", pairing: "workshop list" }).to;
      assert.equal(found?.size.name, row["to_size"]);
      assert.equal((found?.areaChange ?? NaN) >= 0, mm2 !== "35", mm2);
    }
    // Read backwards it would make 12 AWG into 2.5 mm², 24 % less.
    assert.ok(near(2.5 / size("AWG", "12").areaMm2 - 1, -0.24, 0.02));
  });

  test("a class 5 core at its limit is worth 86 to 91 % of its label, and 4/0 AWG equals 120 mm² class 5", () => {
    for (const row of openTable("wire/iec60228")) {
      const worth = 17.241 / number(row, "class5_cu_plain_ohm_per_km") / number(row, "nominal_mm2");
      assert.ok(worth > 0.86 && worth < 0.91, String(row["nominal_mm2"]));
    }
    const big = convert({ size: size("mm²", "120"), to: "AWG", by: "table", pairing: "stranding chart" });
    assert.ok(Math.abs(big.to?.resistanceChange ?? NaN) < 0.025); // +2 % as hand-worked
  });
});

describe("systems of one country or trade", () => {
  test("vehicle cable by diameter: strands of the trade's own make-up", () => {
    // 65/0.30 is the make-up that data sheets print for 6 mm, 4.59 mm².
    const six = openTable("wire/vehicle_diameter").find((row) => number(row, "outside_mm") === 6);
    assert.ok(near(number(six ?? {}, "area_mm2"), (65 * Math.PI * 0.3 ** 2) / 4, 0.002)); // three digits printed
    for (const row of openTable("wire/vehicle_diameter")) {
      const [count = NaN, wire = NaN] = String(row["strands"]).split("/").map(Number);
      // A whole number of wires of 0.30 mm: half a wire of 16.
      assert.ok(near(number(row, "area_mm2"), (count * Math.PI * wire ** 2) / 4, 0.5 / count), String(row["outside_mm"]));
    }
  });

  test("Japanese sizes are their strands", () => {
    for (const row of openTable("wire/jis_sizes")) {
      const [count = NaN, wire = NaN] = String(row["strands"]).split("/").map(Number);
      assert.ok(near(number(row, "area_mm2"), (count * Math.PI * wire ** 2) / 4, 0.0005)); // four digits
      // The label is the area rounded to the series: 38 has 37.2, 8 has 7.92.
      assert.ok(near(number(row, "label_mm2"), number(row, "area_mm2"), 0.03), String(row["label_mm2"]));
    }
  });

  test("SAE sizes have 3 to 11 % less than the AWG size of the same number, and the ladder has the printed circular mils", () => {
    for (const row of openTable("wire/sae_gauge").filter((each) => each["sae_area_cmil"] !== null)) {
      const name = String(row["sae_gauge"]);
      const area = size("SAE", name).areaMm2;
      assert.ok(near(area, number(row, "sae_area_cmil") * 5.067075e-4, 0.0006), name); // four digits
      const less = 1 - area / size("AWG", name).areaMm2;
      // 2.88 % for 4/0 rounds to 3.
      assert.ok(less > 0.028 && less < 0.11, `${name} ${less}`);
    }
  });
});
