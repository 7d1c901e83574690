import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain } from "../../test/rules/judge-plain.ts";
import { metricSize } from "../wire/index.ts";
import { readBoughtWire } from "./bought-wire.ts";

const AC = `systems:
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  kettle: { kind: load, rated: 900 W }
`;
const circuit = (fragment: string, id: string) => {
  const found = judgePlain(fragment).design.circuits.find((c) => c.id === id);
  assert.ok(found !== undefined, id);
  return found;
};

test("a cable is printed by what its cores do, and says whether the earth is among those that are counted", () => {
  const makeUp = (cable: string) =>
    circuit(`${AC}circuits:\n  W50: { path: INL → kettle, length: 2 m, cable: ${cable} }`, "W50").cable?.makeUp;
  assert.equal(makeUp("3G2.5 H07RN-F"), "L N PE 3 × 2.5 mm², earth counted");
  assert.equal(makeUp("12/2 w/G NM-B"), "L N PE 2 × 12 AWG and a bare earth");
  assert.equal(makeUp("12/4 SOOW"), "L N PE 4 × 12 AWG, earth counted, 1 not used");
  assert.equal(makeUp("12/3"), null);
});

test("cores that are thinner than the others are told, and the circuit is computed with them", () => {
  const found = circuit("circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 4/0-4/0-2/0 URD }", "W10");
  assert.equal(found.cable?.makeUp, "+ − 3 × 4/0 AWG, 1 of them 2/0 AWG, 1 not used");
  assert.equal(found.size?.label, "2/0 AWG");
});

test("cables side by side have every function each", () => {
  const found = circuit("circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 2x(2x10) H07RN-F }", "W10");
  assert.equal(found.cable?.makeUp, "+ − 4 × 10 mm²");
});

test("colours that the plan gives are facts, those of the scheme are proposals, and none are proposed for what was found", () => {
  const lettersOf = (more: string) =>
    circuit(`circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m${more} }`, "W10").colours.map(
      ({ core, letters, by }) => `${core} ${letters} ${by}`,
    );
  assert.deepEqual(lettersOf(", colour: [red, black]"), ["+ RD plan", "− BK plan"]);
  assert.deepEqual(lettersOf(", colour: orange"), ["+ OG plan", "− BK proposed"]);
  // ISO 13297: minus is black or yellow; where alternating current of 120 V comes aboard, black is its live, and yellow is left
  assert.deepEqual(lettersOf(""), ["+ RD proposed", "− BK proposed"]);
  const both = `rules: { DC: iso-small-craft, AC: iso-small-craft }\n${AC}circuits:\n  W50: { path: INL → kettle, length: 2 m }`;
  const letters = (text: string, id: string) => circuit(text, id).colours.map((c) => c.letters);
  // At 230 V cable is sold in brown, blue and green-yellow, which the standard allows as well, and black is left for minus.
  assert.deepEqual(letters(both, "W50"), ["BN", "LBU", "GNYE"]);
  assert.deepEqual(letters(both, "W10"), ["RD", "BK"]);
  const american = both.replace(/nominal: 230 V/, "nominal: 120 V");
  assert.notEqual(american, both);
  assert.deepEqual(letters(american, "W50"), ["BK", "WH", "GN"]);
  assert.deepEqual(letters(american, "W10"), ["RD", "YE"]);
  assert.deepEqual(lettersOf(", as found: yes"), []);
});

test("the bought size stands beside the drawn one, with what follows from it, or the question that settles it", () => {
  const bought = (label: string) =>
    circuit(`circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 4 mm², bought as: "${label}" }`, "W10").bought;
  assert.equal(bought("4 mm²")?.size?.label, "4 mm²");
  assert.deepEqual(bought("4 mm²")?.follows, []);
  const other = bought("12 AWG boat cable");
  assert.equal(other?.size?.label, "12 AWG");
  // 12 AWG tinned 5.53 mΩ/m by NEC Table 8 against 5.09 mΩ/m of IEC 60228 class 5 tinned
  assert.match(other.follows[0] ?? "", /drawn 4 mm², bought 12 AWG: 8\.7 % more resistance/);
  assert.ok(bought("6 mm")?.size === null && bought("6 mm")?.question !== null);
});

test("building cable is rated by the column that the code asks for, not by its wires", () => {
  const rated = (cable: string) =>
    circuit(`circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: ${cable} }`, "W10").make.insulationC;
  // NFPA 70 334.80 and 340.80
  assert.equal(rated("12/2 w/G NM-B"), 60);
  assert.equal(rated("12/2 UF-B"), 60);
  assert.equal(rated("3G2.5 H07RN-F"), 60);
  assert.equal(rated("2.5 T&E"), 70);
});

test("a bare wire is the earth wherever it stands in a list of colours", () => {
  const found = circuit(
    `${AC}circuits:\n  W50: { path: INL → kettle, length: 2 m, colour: [bare, black, white] }`,
    "W50",
  );
  assert.deepEqual(
    found.colours.map(({ core, letters }) => `${core} ${letters}`),
    ["L BK", "N WH", "PE BARE"],
  );
});

test("service cable of which nobody says the metal is asked about", () => {
  const asked = (cable: string) =>
    judgePlain(`circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: ${cable} }`).diagnostics.some(
      ({ id }) => id === "plan/metal-not-told",
    );
  assert.deepEqual([asked("4/0-4/0-2/0 URD"), asked("4/0-4/0-2/0 AL URD")], [true, false]);
});

test("a gauge that may be that of vehicle cable, and cores of two sizes, are taken as the leaner", () => {
  const drawn = { size: metricSize(16), metal: "copper", plating: "tinned", strands: "class 5" } as const;
  const sizes = (label: string, context?: "boat") =>
    readBoughtWire(label, drawn, context).makes.map(({ make }) => make.size.label);
  assert.deepEqual(sizes("6 ga"), ["6 SAE", "6 AWG"]);
  assert.deepEqual(sizes("6 ga", "boat"), ["6 AWG"]);
  assert.deepEqual(sizes("6 ga boat cable"), ["6 AWG"]);
  assert.deepEqual(sizes("6 AWG"), ["6 AWG"]);
  assert.deepEqual(sizes("4/0-4/0-2/0 AL URD"), ["2/0 AWG"]);
});

test("what a person wrote and nobody can read is not replaced by a size that is chosen", () => {
  const told = (facts: string) => {
    const found = circuit(`circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ${facts} }`, "W10");
    return [found.outcome, found.size?.label ?? null, found.cannotTell[0] ?? null];
  };
  assert.deepEqual(told("wire: 6 mm"), ["cannot tell", null, "its wire: the label can be read in 3 ways"]);
  assert.deepEqual(told("cable: 12/3"), ["cannot tell", null, "its wire: the label can be read in 3 ways"]);
  assert.deepEqual(told("wire: banana"), ["cannot tell", null, "its wire: the label cannot be read"]);
  assert.deepEqual(told("wire: 3G2.5"), ["cannot tell", null, "its wire: the label is that of a cable"]);
  assert.deepEqual(told("wire: unknown"), ["cannot tell", null, "its wire is not known"]);
  assert.deepEqual(told("wire: 6 mm, as found: yes").slice(0, 2), ["cannot tell", null]);
  // a size of its own counts, whatever the cable is
  assert.deepEqual(told("cable: 12/3, wire: 4 mm²").slice(0, 2), ["pinned", "4 mm²"]);
});

test("a cable that circuits share and nobody can read leaves the wire of all of them open", () => {
  const { design } = judgePlain(
    "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, in cable: mast, cable: 12/3 }\n  W11: { path: PNL:2 → fridge, length: 5 m, in cable: mast }",
  );
  for (const id of ["W10", "W11"]) assert.equal(design.circuits.find((c) => c.id === id)?.outcome, "cannot tell", id);
});

test("stock that cannot be read is asked about, and sizes are chosen from the usual ones", () => {
  const found = judgePlain(
    "stock: { sizes: mm², sizes kept: [6 mm], metal: tinned copper, strands: class 5, insulation: 90 °C }",
  );
  assert.ok(found.diagnostics.some(({ id }) => id === "plan/label-ambiguous"));
  assert.equal(found.design.circuits.find(({ id }) => id === "W10")?.outcome, "chosen");
});
