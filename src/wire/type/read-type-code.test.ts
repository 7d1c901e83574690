import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { cableTypes } from "../../reference/cable-types.ts";
import { readTypeCode, severalTypes, typeAt, typeChoices, type TypeCode } from "./index.ts";

const codesAt = (text: string, from = 0) => typeAt(text, from)?.types.map(({ code }) => code) ?? [];

describe("types are read as people write them", () => {
  const spellings: [code: string | null, string[]][] = [
    ["NM-B", ["NM-B", "nm-b", "NMB", "NM B", "NM–B", " NM-B "]],
    ["THWN-2", ["THWN-2", "thwn2", "THWN2"]],
    ["H07RN-F", ["H07RN-F", "h07rn-f", "H07RNF", "H07RN–F"]],
    ["H07V-K", ["H07V-K", "H07VK"]],
    ["H07V-R", ["H07V-R", "H07VR"]],
    ["FLRY-A", ["FLRY-A", "FLRYA", "flry-a"]],
    ["BC-5W2", ["BC-5W2", "BC5W2", "bc 5w2"]],
    ["T&E", ["T&E", "T+E", "t & e", "twin and earth", "Twin & Earth", "TWIN  AND EARTH"]],
    ["NSGAFÖU", ["NSGAFÖU", "nsgaföu", "NSGAFOEU"]],
    ["UL 1426", ["UL 1426", "UL1426", "ul-1426"]],
    ["PV WIRE", ["PV wire", "PV-Wire", "UL 4703"]],
    ["ВВГ", ["ВВГ", "ввг", "VVG"]],
    ["SPT-2", ["SPT-2", "SPT2"]],
    [null, ["", " ", "nonsense", "THWN 2", "NM-BX", "H07", "H07V-X", "H07RN-F3G2.5", "HO7RN-F", "H07RN-F/", "XNM-B"]],
  ];
  test.each(spellings)("%s", (code, texts) => {
    for (const text of texts) assert.equal(readTypeCode(text)?.code ?? null, code, text);
  });

  test("every type of the table reads as itself, in each of its spellings, and says so in a sentence", () => {
    for (const row of cableTypes.rows) {
      for (const text of [row.code, ...(row.also?.split("|") ?? [])]) {
        assert.ok(
          typeChoices(text).some(({ code }) => code === row.code),
          text,
        );
      }
    }
  });

  test("letters that are words as well are types in capitals only, and not beside a digit", () => {
    for (const word of ["USE", "SO", "ST", "AC", "W", "TC"]) {
      assert.equal(readTypeCode(word)?.code, word);
      assert.notEqual(readTypeCode(word)?.alsoMeans, null);
      assert.deepEqual(typeChoices(word.toLowerCase()), []);
    }
    assert.equal(typeAt("100W", 3), null);
    assert.equal(typeAt("W2", 0), null);
  });

  test("SE is two types, and neither is taken without asking", () => {
    assert.equal(readTypeCode("SE"), null);
    assert.deepEqual(
      typeChoices("SE").map(({ family }) => family),
      ["flexible cord", "service cable"],
    );
    assert.equal(readTypeCode("SEOOW")?.family, "flexible cord");
    assert.equal(readTypeCode("SER")?.family, "service cable");
  });
});

describe("the longest type at a place", () => {
  test("ends where cores and size begin", () => {
    assert.deepEqual([codesAt("H07RN-F3G2.5"), typeAt("H07RN-F3G2.5", 0)?.to], [["H07RN-F"], 7]);
    assert.equal(typeAt("H05VVF3G1,5", 0)?.to, 6);
    assert.equal(typeAt("NYM-J3x1.5", 0)?.to, 5);
    assert.equal(typeAt("SOOW12/3", 0)?.to, 4);
    assert.deepEqual(codesAt("THWN 2 AWG"), ["THWN"]);
    assert.deepEqual(codesAt("THWN-2 AWG"), ["THWN-2"]);
    assert.deepEqual(codesAt("XHHW-2"), ["XHHW-2"]);
    assert.deepEqual(codesAt("2-2-4 SER AL", 6), ["SER"]);
  });

  test("does not begin within a word and does not end within one", () => {
    assert.equal(typeAt("ATHHN", 1), null);
    assert.equal(typeAt("THHNX", 0), null);
    assert.equal(typeAt("STEEL", 0), null);
    assert.equal(typeAt("SOFT", 0), null);
    assert.equal(typeAt("FLAT", 0), null);
    assert.equal(typeAt("H07V2.5", 0), null, "a dropped conductor letter makes V2 and a broken number");
  });

  test("whatever the text, places are inside it and the same text gives the same answer", () => {
    const word = fc.constantFrom(
      "H07",
      "RN-F",
      "SOOW",
      "-",
      " ",
      "V",
      "2",
      "FLRY",
      "BC-5W2",
      "İ",
      "ß",
      "NM-B",
      "2x",
      "é",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 30 }),
          fc.array(word).map((words) => words.join("")),
        ),
        (text) => {
          for (let from = 0; from <= text.length; from++) {
            const found = typeAt(text, from);
            if (found === null) continue;
            assert.ok(found.to > from && found.to <= text.length);
            assert.deepEqual(typeAt(text, from), found);
          }
        },
      ),
    );
  });
});

/** Every cord and every named type, and some harmonised codes. */
const many: readonly TypeCode[] = [
  ...cableTypes.rows.flatMap(({ code }) => typeChoices(code)),
  ...["S", "SJ", "SV"].flatMap((s) =>
    ["", "T", "E"].flatMap((m) => ["", "O", "OO"].flatMap((o) => ["", "W"].flatMap((w) => typeChoices(s + m + o + w)))),
  ),
  ...["H07RN-F", "H07V-K", "H05VV-F", "H1Z2Z2-K", "H01N2-D", "A05VV-U", "H03VH-Y", "FLR2X-B", "BC-5W2"].flatMap(
    typeChoices,
  ),
];

test("what a type says is plain data, in sentences, within what cables are made for", () => {
  assert.ok(many.length > 250);
  for (const type of many) {
    assert.deepEqual(JSON.parse(JSON.stringify(type)), type);
    for (const sentence of [type.says, ...type.traps]) assert.match(sentence, /^[^.].*[^.]\.$/u, type.code);
    const { temperatureC, wetTemperatureC, volts, voltsSay } = type;
    assert.ok(temperatureC === null || (temperatureC >= 60 && temperatureC <= 210), type.code);
    // Wet insulation never stands more heat than dry.
    assert.ok(wetTemperatureC === null || (temperatureC !== null && wetTemperatureC <= temperatureC), type.code);
    assert.equal(volts === null, voltsSay === null, type.code);
    // The greatest voltage is the last number printed.
    if (voltsSay !== null) assert.equal(Number(/(\d+)(?: DC)?$/.exec(voltsSay)?.[1]), volts, type.code);
    if (type.counts === "single") assert.deepEqual([type.cores, type.ground], [1, "none"], type.code);
    if (type.ground === "bare" || type.ground === "concentric") assert.equal(type.counts, "ground extra", type.code);
  }
});

test("a wire marked with several types bears the best of each", () => {
  const marked = severalTypes(["RHH", "RHW-2", "USE-2"].flatMap((code) => [...typeChoices(code)]));
  assert.deepEqual(
    [marked.code, marked.volts, marked.temperatureC, marked.wetTemperatureC],
    ["RHH/RHW-2/USE-2", 600, 90, 90],
  );
  assert.equal(marked.fitness.wet, true);
  assert.equal(severalTypes(typeChoices("THHN")).fitness.wet, false);
});
