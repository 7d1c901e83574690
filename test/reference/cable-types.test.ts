import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { severalTypes, typeAt, typeChoices, type TypeCode } from "../../src/wire/type/index.ts";
import { number, openTable } from "./open-table.ts";

const type = (code: string): TypeCode => {
  const [only, more] = typeChoices(code);
  assert.ok(only !== undefined && more === undefined, code);
  return only;
};

/** What a count counts: descriptions of 14/2 NM-B, of marine duplex and triplex, of cord types, of HD 361 and of -J and -O, all public pages. */
describe("what the number of conductors counts", () => {
  const facts: [codes: string, counts: TypeCode["counts"], ground: TypeCode["ground"]][] = [
    ["NM-B UF-B", "ground extra", "bare"],
    ["T&E 6242Y", "ground extra", "bare"],
    ["NYCWY", "ground extra", "concentric"],
    ["SOOW SJTW", "all", "not stated"],
    ["BC-5W2", "all", "not stated"],
    ["H07RN-F H05VV-F", "all", "not stated"],
    ["NYM-J NYY-J", "all", "insulated"],
    ["NYM-O NYY-O", "all", "none"],
    ["THHN H07V-K GXL FLRY-B H1Z2Z2-K", "single", "none"],
  ];
  test.each(facts)("%s", (codes, counts, ground) => {
    for (const code of codes.split(" ")) assert.deepEqual([type(code).counts, type(code).ground], [counts, ground], code);
  });
});

describe("harmonised codes (HD 361, three public pages on the code)", () => {
  test("the figures after H are volts", () => {
    const volts = { "H01N2-D": "100/100", "H03VV-F": "300/300", "H05VV-F": "300/500", "H07RN-F": "450/750" };
    for (const [code, say] of Object.entries(volts)) assert.equal(type(code).voltsSay, say);
  });

  test("the insulation decides the temperature: V2 and B 90 °C, R 60 °C", () => {
    assert.deepEqual(["H07V2-K", "H07BQ-F", "H07RN-F"].map((code) => type(code).temperatureC), [90, 90, 60]);
    // Those that a page printed are verified, the others are not.
    assert.deepEqual(type("H07V2-K").unverified, []);
    assert.deepEqual(type("H07V-K").unverified, ["temperatureC"]);
  });

  test("the conductor letter is the class, and so the resistance: 2.5 mm² of H07V-U, -R, -K has 7.41, 7.41, 7.98 Ω/km", () => {
    const row = openTable("wire/iec60228").find((cells) => cells.nominal_mm2 === 2.5);
    const perKm = ["H07V-U", "H07V-R", "H07V-K"].map((code) => {
      const name = type(code).stranding?.name?.replace(" ", "") ?? "";
      return number(row, `${name}_cu_plain_ohm_per_km`);
    });
    assert.deepEqual(perKm, [7.41, 7.41, 7.98]);
  });

  test("-F class 5 and -H class 6 may be moved, -K class 5 may not", () => {
    assert.deepEqual(["H05VV-F", "H03VH-H", "H07V-K"].map((c) => [type(c).stranding?.name, type(c).fitness.flexible]), [
      ["class 5", true],
      ["class 6", true],
      ["class 5", false],
    ]);
    assert.match(type("H07V-K").traps.join(" "), /fixed wiring/);
  });

  test("form letters: H flat and dividable, H2 flat and not", () => {
    for (const code of ["H03VH-H", "H03VVH2-F"]) assert.equal(type(code).form, "flat");
    assert.match(type("H03VH-H").name, /flat and dividable/);
    assert.match(type("H03VVH2-F").name, /flat and not dividable/);
  });

  test("the parts of H07RN-F 3G2.5", () => {
    const text = "H07RN-F 3G2.5";
    assert.equal(typeAt(text, 0)?.to, 7);
    assert.equal(type("H07RN-F").name, "harmonised cable, rubber insulation, polychloroprene sheath, finely stranded");
  });

  test("05 is called a voltage", () => {
    assert.match(type("H05VV-F").traps.join(" "), /05 is a voltage \(300\/500 V\), not a size/);
  });
});

/** NEC table 400.4 as in NOM-001-SEDE-2012 table 400-4: sizes and counts; letters in three public pages. */
describe("flexible cords", () => {
  const facts: [code: string, volts: number, thinnest: string, thickest: string, from: number, to: number | null][] = [
    ["SOOW", 600, "18", "2", 2, null],
    ["STW", 600, "18", "2", 2, null],
    ["SJOOW", 300, "18", "10", 2, 6],
    ["SJT", 300, "18", "10", 2, 6],
    ["SVT", 300, "18", "16", 2, 3],
  ];
  test.each(facts)("%s", (code, volts, thinnest, thickest, from, to) => {
    assert.deepEqual([type(code).volts, type(code).limits], [volts, { sizes: [thinnest, thickest], cores: [from, to] }]);
  });

  test("T thermoplastic, E elastomer, neither rubber; O oil, W wet and sunlight", () => {
    assert.match(type("SJT").name, /thermoplastic$/);
    assert.match(type("SJE").name, /elastomer$/);
    assert.match(type("SJO").name, /rubber, oil-resistant jacket$/);
    assert.match(type("SJOO").name, /oil-resistant jacket and insulation$/);
    const fit = (code: string) => [type(code).fitness.oil, type(code).fitness.wet, type(code).fitness.sun];
    assert.deepEqual([fit("SOOW"), fit("SO"), fit("STW")], [[true, true, true], [true, false, false], [null, true, true]]);
    assert.match(type("SO").traps[0] ?? "", /without W is not for wet places/);
  });
});

describe("boats, vehicles, buildings", () => {
  test("BC-5W2 is 105 °C dry, 75 °C wet, 600 V (page on boat-cable approvals)", () => {
    const { temperatureC, wetTemperatureC, volts, limits } = type("BC-5W2");
    assert.deepEqual([temperatureC, wetTemperatureC, volts, limits.sizes], [105, 75, 600, ["18", "4/0"]]);
    assert.match(type("UL 1426").traps.join(" "), /does not ask for tinned wire and allows Type 2/);
  });

  test("FL codes: Y PVC, 2X XLPE, 2G silicone; R and U walls; A and B lays (page on automotive cables)", () => {
    assert.match(type("FLY").name, /PVC insulation, normal wall$/);
    assert.match(type("FLRY-A").name, /PVC insulation, reduced wall, strands laid symmetrically$/);
    assert.match(type("FLR2X-B").name, /polyethylene insulation, reduced wall, strands laid asymmetrically$/);
    assert.match(type("FLU2G").name, /silicone insulation, ultra-thin wall$/);
  });

  test("SAE wire: GPT and TWP thermoplastic; GXL, SXL, TXL cross-linked; SGT, SGX, STX, SGR battery cable (two trade pages)", () => {
    for (const code of ["GPT", "TWP", "SGT"]) assert.match(type(code).name, /thermoplastic/);
    for (const code of ["GXL", "SXL", "TXL", "SGX", "STX"]) assert.match(type(code).name, /cross-linked/);
    assert.match(type("SGR").name, /rubber/);
    for (const code of ["SGT", "SGX", "STX", "SGR"]) assert.equal(type(code).family, "battery cable");
  });

  test("NM-B is for dry places", () => {
    assert.equal(type("NM-B").fitness.wet, false);
  });

  /** The 60, 75 and 90 °C columns of NEC table 310.16 are headed by these types; from memory, as the table's rows say. */
  test("building wires stand under the temperatures that head NEC table 310.16", () => {
    const heads: [number, string[]][] = [
      [60, ["TW"]],
      [75, ["RHW", "THW", "THWN", "USE"]],
      [90, ["RHH", "RHW-2", "THHN", "THW-2", "THWN-2", "USE-2", "XHHW-2"]],
    ];
    for (const [temperature, codes] of heads) for (const code of codes) assert.equal(type(code).temperatureC, temperature, code);
  });
});

/** Labels written by someone who had not seen this table: what a type's volts and temperature are where the label prints none. */
test("types agree with the labels of the trade in volts and temperature", () => {
  const text = readFileSync(join(import.meta.dirname, "../fixtures/wire-labels.csv"), "utf8");
  const rows = text.split("\n").filter((line) => line.startsWith('"') && line.includes(",exact,"));
  let compared = 0;
  for (const line of rows) {
    const [label = ""] = /^"(?:[^"]|"")*"/.exec(line) ?? [];
    const cells = line.slice(label.length + 1).replace(/"[^"]*"/g, "").split(",");
    const [codes = "", volts = "", temperature = ""] = cells.slice(12, 15);
    const types = codes.split("/").flatMap((code) => typeChoices(code));
    if (codes === "" || types.length === 0) continue;
    const told = severalTypes(types.filter(({ code }) => codes.split("/").includes(code)));
    if (volts !== "" && told.voltsSay !== null) {
      assert.equal(told.voltsSay.replace(" DC", ""), volts, label);
      compared++;
    }
    // A cord or a wire may print more than its type promises, never less.
    if (temperature !== "" && told.temperatureC !== null) assert.ok(told.temperatureC <= Number(temperature), label);
  }
  assert.ok(compared > 40, String(compared));
});
