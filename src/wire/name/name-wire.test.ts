import { test } from "vitest";
import assert from "node:assert/strict";
import { readLabel } from "../label/read-label.ts";
import type { LabelContext } from "../label/label-reading.ts";
import type { WireMake } from "../make/wire-make.ts";
import { allNames, nameWire, plainName, type NameDialect, type NameUse } from "./index.ts";

function makeOf(label: string, context?: LabelContext): WireMake {
  const read = readLabel(label, context === undefined ? {} : { context });
  assert.equal(read.verdict, "exact", label);
  const [reading] = read.readings;
  assert.ok(reading !== undefined);
  return reading.make;
}

// Labels as the trade writes them; each dialect's way as in notes of counters and workshops, common practice.
test.each<[label: string, NameDialect, NameUse, name: string]>([
  ["12/2 NM-B w/G", "north american", "order", "12/2 w/G NM-B"],
  ["12-2 with ground NM-B", "north american", "sleeve", "12/2 w/G"],
  ["12/2 NM-B", "north american", "spoken", "twelve two with ground"],
  ["14/3 SOOW", "north american", "drawing", "14/3 SOOW"],
  ["SOOW 12/3 90C", "north american", "order", "12/3 SOOW 90 °C"],
  ["tinned 6 AWG", "north american", "order", "6 AWG tinned"],
  ["0000", "north american", "spoken", "four aught"],
  ["250 MCM", "north american", "sleeve", "250 kcmil"],
  ["14/2 duplex boat cable", "boat", "drawing", "14/2 boat cable"],
  ["14/2 duplex boat cable", "boat", "sleeve", "14/2 boat"],
  ["H07RN-F 3G2,5", "european", "order", "H07RN-F 3G2.5 mm²"],
  ["H07RN-F 3G2,5", "european", "sleeve", "3G2.5"],
  ["H07RN-F 3G2,5", "british", "spoken", "three-core two and a half flex"],
  ["12 AWG", "european", "order", "AWG 12 (3.31 mm²)"],
  ["12 AWG", "australian", "sleeve", "12 B&S"],
  ["35 mm²", "european", "spoken", "thirty-five square"],
  ["2.5mm T&E", "british", "order", "2.5 mm² twin and earth"],
  ["2.5/1.5 mm² twin and earth", "british", "order", "2.5/1.5 mm² twin and earth"],
  ["6 mm auto cable", "australian", "sleeve", "6 mm auto cable"],
  ["VVF 1.6-2C", "japanese", "order", "VVF 1.6-2C"],
  ["5.5SQ", "japanese", "sleeve", "5.5 SQ"],
  ["FLRY-A 1.5 BKWHYE", "vehicle", "drawing", "FLRY-A 1.5 BKWHYE"],
  ["14 SAE GXL red/white", "vehicle", "order", "GXL 14 SAE RDWH"],
])("%s in the %s dialect, for %s: %s", (label, dialect, use, name) => {
  assert.equal(nameWire(makeOf(label), { dialect, use }).label, name);
});

test("where a dialect has nothing that is the same it says so, and what to ask for", () => {
  const named = nameWire(makeOf("12/2 NM-B"), { dialect: "european", use: "order" });
  assert.ok(named.label === null);
  assert.match(named.reason, /^european labels have nothing that is the same as building cable/);
  assert.match(named.reason, /sold as `12\/2 w\/G NM-B`$/);
  const sizeless = nameWire({ ...makeOf("12 AWG"), size: null }, { dialect: "boat", use: "sleeve" });
  assert.ok(sizeless.label === null && sizeless.reason.includes("size is not known"));
});

test("a count without a kind of cable has no name, rather than a wrong one", () => {
  const make = { ...makeOf("12/3 SOOW"), family: null, type: null };
  const named = nameWire(make, { dialect: "north american", use: "sleeve" });
  // `12/3` alone would be a question.
  assert.notEqual(named.label, "12/3");
  if (named.label === null) assert.match(named.reason, /unless the kind of cable is known/);
});

test("what a sleeve leaves out is listed, and nothing is added that is not known", () => {
  const make = makeOf("14/2 boat cable type 3 tinned 600 V");
  const sleeve = nameWire(make, { dialect: "boat", use: "sleeve" });
  assert.ok(sleeve.label !== null);
  assert.deepEqual(sleeve.leavesOut, ["stranding", "plating", "volts"]);
  assert.match(nameWire(make, { dialect: "boat", use: "order" }).label ?? "", /type 3 tinned 600 V$/);
});

test("names of a metric three-core cable: right ones, questions and the one that is not the same", () => {
  const names = allNames(makeOf("3G2.5"));
  const standing = (label: string) => names.find((name) => name.label === label)?.standing;
  assert.equal(standing("3G2.5"), "this cable");
  assert.equal(standing("2.5 mm² twin and earth"), "not the same");
  assert.equal(standing("12/3"), "ask: which?");
  assert.equal(standing("3-core 2.5 mm² flex"), "ask: which?");
  const [first] = names;
  assert.equal(first?.standing, "this cable");
});

test("each meaning of an ambiguous label has a name of its own", () => {
  for (const label of ["14/3", "12/2", "10/3", "6 mm"]) {
    const { readings } = readLabel(label);
    const names = readings.map(({ make }) => plainName(make));
    assert.ok(!names.includes(null), label);
    assert.equal(new Set(names).size, readings.length, label);
  }
});
