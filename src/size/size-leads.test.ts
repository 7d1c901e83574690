import fc from "fast-check";
import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { findCures } from "../cure/index.ts";
import { stockedSizes } from "../wire/index.ts";

/** A motor boat: a bank with a large inverter, a hull bond, shore power whose earth bar meets the hull. */
function boat({
  set = "iso-small-craft 2020+A1:2022",
  sizes = "mm²",
  lead = "120 A",
  D1 = "",
  D6 = "",
  A3 = "",
  stock = "",
  more = "",
} = {}): string {
  return `wireworthy: 1
rules: { DC: ${set}, AC: ${set} }
systems:
  DC: { kind: DC, nominal: 24 V, return: BN, earthed at: BN }
  AC: { kind: AC, nominal: ${sizes === "AWG" ? 120 : 230} V, frequency: 50 Hz, cores: [L, N, PE], earthed at: HULL }
stock: { sizes: ${sizes}, metal: tinned copper, strands: ${sizes === "AWG" ? "type 3" : "class 5"}, insulation: 90 °C${stock} }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 400 Ah, short-circuit: 5 kA }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  HULL: { kind: structure, name: hull bond, is: bonding, joints: [dc, ac] }
  winch: { kind: load, running: ${lead} }
  INL: { kind: shore inlet, rated: 16 A, loop impedance: 0.5 Ω }
  CU: { kind: consumer unit, main: breaker 16 A 2-pole, ways: { 1: breaker 16 A } }
  heater: { kind: load, rated: 1 kW }
circuits:
  D1: { path: B1 → BP, length: 0.8 m${D1} }
  D2: { path: "B1:− → BN", length: 0.8 m }
  D3: { path: BP → winch, length: 3 m }
  D6: { path: BN → HULL:dc, length: 1.5 m${D6} }
  A1: { path: INL → CU:in, length: 0.4 m, wire: ${sizes === "AWG" ? "10 AWG" : "4 mm²"} }
  A2: { path: CU:1 → heater, length: 4 m, wire: ${sizes === "AWG" ? "12 AWG" : "2.5 mm²"} }
  A3: { path: CU:PE → HULL:ac, length: 2 m, cores: [PE]${A3} }
${more}`;
}

const rowsOf = (text: string) => {
  const { design, diagnostics } = compile(text);
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error"),
    [],
  );
  return new Map(design.circuits.map((c) => [c.id, c]));
};
const sizeOf = (text: string, id: string): string | undefined => rowsOf(text).get(id)?.size?.label;

test("a hull bond is one size below the largest plus, and the earth bar's as thick as the lines", () => {
  const rows = rowsOf(boat({ D1: ", wire: 35 mm²" }));
  assert.equal(rows.get("D3")?.size?.label, "35 mm²");
  const bond = rows.get("D6");
  assert.equal(bond?.size?.label, "25 mm²");
  assert.equal(bond.outcome, "chosen");
  assert.equal(bond.decidedBy, "bond");
  // Green and yellow, though it lands on the minus.
  assert.deepEqual(
    bond.colours.map((c) => c.letters),
    ["GNYE"],
  );
  const asked = bond.constraints.find((c) => c.id === "bond");
  assert.deepEqual([asked?.outcome, asked?.alone?.label, asked?.trust], ["met", "25 mm²", "practice"]);
  // IEC 60364-5-54 Table 54.2: beside 4 mm² 4 mm²; 543.1.3: 4 mm² by itself and not guarded.
  const earth = rows.get("A3");
  assert.equal(earth?.size?.label, "4 mm²");
  assert.deepEqual([earth.current, earth.supply, earth.lengthM.high, earth.decidedBy], ["AC", "AC", 2, "bond"]);
  assert.deepEqual(
    earth.colours.map((c) => c.letters),
    ["GNYE"],
  );
  // Nothing is asked of wires that carry loads.
  assert.equal(rows.get("D1")?.constraints.find((c) => c.id === "bond")?.outcome, "not stated");
});

test("what each rule set asks of a hull bond beside a plus of 2/0 AWG or 70 mm², and of an earth bar beside 10 AWG or 4 mm²", () => {
  for (const [set, sizes, D1, bond, earth] of [
    // E-11: one size below, 8 AWG at least; earth as thick as its lines to 30 A, and 8 AWG at least to metal.
    ["us-small-craft ABYC E-11", "AWG", "2/0 AWG", "1/0 AWG", "8 AWG"],
    // 250.168 with 250.166: the largest conductor, 3/0 is enough; 250.104 by the steps of 250.66: 8 AWG to 2 AWG.
    ["us-cabin NEC 2023", "AWG", "2/0 AWG", "2/0 AWG", "8 AWG"],
    ["us-cabin NEC 2023", "AWG", "4/0 AWG", "3/0 AWG", "8 AWG"],
    // 552.10(C): no thinner than the lead; 551.56(C): 8 AWG.
    ["us-rv NEC 2023", "AWG", "2/0 AWG", "2/0 AWG", "8 AWG"],
    // Table 54.2: half above 35 mm²; 544.1: 6 mm² at least.
    ["iec-cabin 2009", "mm²", "70 mm²", "35 mm²", "6 mm²"],
    // One size below by practice; 4 mm² to the frame.
    ["iec-caravan 2017", "mm²", "70 mm²", "50 mm²", "4 mm²"],
    ["au-nz-vehicle 2022", "mm²", "70 mm²", "50 mm²", "4 mm²"],
    ["vehicle-practice", "mm²", "70 mm²", "50 mm²", "4 mm²"],
    ["iso-small-craft 2020+A1:2022", "mm²", "70 mm²", "50 mm²", "4 mm²"],
  ] as const) {
    const rows = rowsOf(boat({ set, sizes, lead: "60 A", D1: `, wire: ${D1}` }));
    assert.deepEqual([rows.get("D6")?.size?.label, rows.get("A3")?.size?.label], [bond, earth], set);
  }
});

test("least sizes hold where every plus is thin", () => {
  const small = { lead: "2 A", D1: ", wire: 2.5 mm²" };
  // By practice 6 mm²; AS/NZS 3001.2 and practice of vehicles 4 mm².
  assert.equal(sizeOf(boat(small), "D6"), "6 mm²");
  assert.equal(sizeOf(boat({ ...small, set: "vehicle-practice" }), "D6"), "4 mm²");
  // E-11: 8 AWG.
  const american = { lead: "2 A", D1: ", wire: 12 AWG", set: "us-small-craft ABYC E-11", sizes: "AWG" };
  assert.equal(sizeOf(boat(american), "D6"), "8 AWG");
});

test("conductors to electrodes: by the steps of 250.66 and 542.3.1", () => {
  const rod = (path: string) => `  E1: { path: ${path}, length: 3 m, cores: [PE] }\n`;
  const with_ = (set: string, sizes: string, line: string, is: string): string =>
    boat({ set, sizes, more: rod("CU:PE → ROD") })
      .replace("  heater:", `  ROD: { kind: earth electrode, is: ${is} }\n  heater:`)
      .replace(/(A1: .*wire: )[^ ]+ (?:AWG|mm²)/, `$1${line}`);
  assert.equal(sizeOf(with_("us-cabin NEC 2023", "AWG", "10 AWG", "rod"), "E1"), "8 AWG");
  assert.equal(sizeOf(with_("us-cabin NEC 2023", "AWG", "3/0 AWG", "rod"), "E1"), "6 AWG");
  assert.equal(sizeOf(with_("us-cabin NEC 2023", "AWG", "3/0 AWG", "foundation"), "E1"), "4 AWG");
  assert.equal(sizeOf(with_("iec-cabin 2009", "mm²", "4 mm²", "rod"), "E1"), "6 mm²");
  assert.equal(sizeOf(with_("iec-cabin 2009", "mm²", "16 mm²", "rod"), "E1"), "16 mm²");
});

test("a size that the plan gives stays, is judged, and its cure is the bond itself", () => {
  const text = boat({ D1: ", wire: 35 mm²", D6: ", wire: 1 mm²", A3: ", wire: 1.5 mm²" });
  const { design, judgement } = compile(text);
  assert.deepEqual(
    ["D6", "A3"].map((id) => design.circuits.find((c) => c.id === id)?.size?.label),
    ["1 mm²", "1.5 mm²"],
  );
  const found = judgement.findings.filter((f) => f.rule === "return/undersized-bond" && f.outcome === "fail");
  assert.deepEqual(
    found.map((f) => `${f.about} ${f.severity}`),
    ["circuits.A3 must", "circuits.D6 should"],
  );
  const search = findCures(text, { rule: "return/undersized-bond", about: "circuits.D6" }, compile);
  assert.ok(search.is !== "not searched");
  assert.deepEqual(search.cures[0]?.edits, [{ do: "set", path: ["circuits", "D6", "wire"], value: "25 mm²" }]);
});

test("where too little of a short to the hull comes back by a thin bond, the bond is blamed and thickened", () => {
  const text = boat({ D1: ", wire: 120 mm², fuse: 300 A class T at B1", D6: ", wire: 1 mm²" });
  const rule = "protection/fault-too-small-to-clear";
  const { judgement } = compile(text);
  const found = judgement.findings.filter((f) => f.rule === rule && f.outcome === "fail");
  assert.deepEqual(
    found.map((f) => f.about),
    ["circuits.D6"],
  );
  assert.match(found[0]?.because ?? "", /D6 .*to HULL comes back by it/);
  const search = findCures(text, { rule, about: "circuits.D6" }, compile);
  assert.ok(search.is !== "not searched");
  assert.deepEqual(
    search.cures[0]?.edits.map((e) => e.path),
    [["circuits", "D6", "wire"]],
  );
});

test("a bond that shares its size, or the aim of few sizes, is settled with what it asks", () => {
  const shared = boat({
    D1: ", wire: 35 mm²",
    D6: ", same size as: D9",
    more: "  D9: { path: BP → winch, length: 3 m }\n",
  });
  const rows = rowsOf(shared);
  assert.equal(rows.get("D6")?.size?.label, rows.get("D9")?.size?.label);
  assert.ok((rows.get("D6")?.size?.areaMm2 ?? 0) >= 25);
  const few = rowsOf(boat({ D1: ", wire: 35 mm²", stock: ", choose: fewest sizes" }));
  assert.ok((few.get("D6")?.size?.areaMm2 ?? 0) >= 25);
});

test("copper and price count the bond as it is sized", () => {
  const of = (D6: string) => compile(boat({ D1: ", wire: 35 mm²", D6 })).design.copperMm2M;
  assert.ok(Math.abs(of("") - of(", wire: 25 mm²")) < 1e-9);
});

test("with a thicker largest plus no bond is thinner, and what carries loads stays as it was", () => {
  const labels = stockedSizes("mm²").filter((s) => s.areaMm2 >= 6 && s.areaMm2 <= 150);
  const at = fc.integer({ min: 0, max: labels.length - 1 });
  const known = new Map<string, ReturnType<typeof rowsOf>>();
  const rows = (i: number) => {
    const label = labels[i]?.label ?? "";
    let found = known.get(label);
    if (found === undefined) known.set(label, (found = rowsOf(boat({ lead: "20 A", D1: `, wire: ${label}` }))));
    return found;
  };
  fc.assert(
    fc.property(at, at, (a, b) => {
      const [thin, thick] = [rows(Math.min(a, b)), rows(Math.max(a, b))];
      assert.ok((thin.get("D6")?.size?.areaMm2 ?? 0) <= (thick.get("D6")?.size?.areaMm2 ?? 0));
      assert.equal(thin.get("D3")?.size?.label, thick.get("D3")?.size?.label);
    }),
    { numRuns: 30 },
  );
});
