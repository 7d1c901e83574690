import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";
import { substitute } from "../../act/index.ts";
import { compile } from "../../compile.ts";
import { awgSize, metricSize, saeSize, type ConductorMake, type WireSize } from "../../wire/index.ts";
import { readBoughtWire } from "../../size/index.ts";

const RULE = "conductor/misread-size";
const drawn = (size: WireSize | null): ConductorMake => {
  assert.ok(size !== null);
  return { size, metal: "copper", plating: "plain", strands: "class 5" };
};

test("the copper of labels as the trade prints them", () => {
  const labels = [
    // label, mm²; strands: n · π/4 · d², as the makers of vehicle cable list them
    ["6 mm auto cable twin, 4.59 mm²", 4.59],
    ["65/0.30", 4.59],
    ["14/0.30 twin", 0.99],
    ["14 AWG (19/27) 2.50 mm²", 1.94],
    ["12 GA SAE J1128", 2.956],
    ["14 SWG", 3.24],
    ["4,59 mm²", 4.59],
    ["H07V-K 2.5 mm²", 2.5],
    ["2x2.5 mm² flat twin", 2.5],
    ["250,000 CM", 126.7],
  ] as const;
  for (const [label, areaMm2] of labels) {
    const bought = readBoughtWire(label, drawn(metricSize(6))).makes[0]?.make.size.areaMm2 ?? 0;
    // 0.5 %: the lists have three figures
    assert.ok(Math.abs(bought / areaMm2 - 1) < 0.005, `${label}: ${bought} against ${areaMm2} mm²`);
  }
});

test("labels that tell no area", () => {
  for (const label of ["battery cable", "", "heavy duty (red)", "soft white"])
    assert.deepEqual(readBoughtWire(label, drawn(metricSize(6))).makes, [], label);
});

test("labels with several readings bring their question, unless all of them hold the same copper", () => {
  for (const label of ["6 mm", "6 mm twin", "35", "welding cable, 35 mm"]) {
    const { makes, question } = readBoughtWire(label, drawn(metricSize(6)));
    assert.ok(makes.length !== 1 && question !== null, label);
  }
  // the name of a class, or the metal itself: both are held against what was drawn
  const both = readBoughtWire("35 sq mm welding cable, 33.2 mm²", drawn(metricSize(6))).makes.map(
    (m) => m.make.size.areaMm2,
  );
  assert.deepEqual(both.toSorted(), [33.2, 35]);
  // a cable of 12 AWG is that whatever its second figure counts
  const { makes, question } = readBoughtWire("12/3", drawn(metricSize(6)));
  assert.deepEqual([makes.map((m) => m.make.size.label), question], [["12 AWG"], null]);
});

test("a hostile label is read in no time", () => {
  const start = performance.now();
  for (const label of ["1 ".repeat(50_000), ",".repeat(100_000), "6 mm² ".repeat(20_000), "(".repeat(99_999)])
    readBoughtWire(label, drawn(metricSize(6)));
  // a second for 400 kB that a person could only have pasted by mistake
  assert.ok(performance.now() - start < 1000);
});

test("vehicle cable of SAE gauge is right where it is sized by its own area, and lean where the American gauge was drawn", () => {
  const bought = (wire: string) =>
    saidOf(
      judgePlain(
        `rules: { DC: us-small-craft }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: ${wire}, bought as: "12 GA SAE J1128" }`,
      ),
      RULE,
      "circuits.W10",
    );
  assert.equal(bought("12 SAE"), "pass");
  assert.equal(bought("12 AWG"), "fail");
  assert.ok((saeSize("12")?.areaMm2 ?? 9) < (awgSize("12")?.areaMm2 ?? 0));
});

test("a gauge in place of the metric size that was drawn is judged by resistance, not by label, and as a substitute", () => {
  const bought = (label: string, wire: string) => {
    const said = judgePlain(
      `circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: ${wire}, bought as: "${label}" }`,
    );
    return [RULE, "conductor/shrunken-substitute"].map((rule) => saidOf(said, rule, "circuits.W10"));
  };
  const notMisread = "another size was bought in its place";
  // 2 AWG has 6 % less resistance than 35 mm² of class 5 may have, 2/0 4 % less than 70 mm²; 10 AWG has 1 % more than 6 mm², 4/0 2 % more than 120 mm²
  assert.deepEqual(bought("2 AWG", "35 mm²"), [notMisread, "pass"]);
  assert.deepEqual(bought("2/0 AWG", "70 mm²"), [notMisread, "pass"]);
  assert.deepEqual(bought("10 AWG", "6 mm²"), [notMisread, "fail"]);
  assert.deepEqual(bought("4/0 AWG", "120 mm²"), [notMisread, "fail"]);
  assert.deepEqual(bought("8 AWG", "6 mm²"), [notMisread, "pass"]);
});

test("a size that is written without its square is asked back, and cannot be told", () => {
  const said = judgePlain("circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm }");
  assert.equal(saidOf(said, RULE, "circuits.W10"), "cannot tell");
});

test("rules say what they miss of a wire whose label cannot be read, and chose nothing in its place", () => {
  const said = judgePlain("circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 12/3 }");
  for (const rule of [RULE, "conductor/excess-voltage-drop", "conductor/overloaded-conductor"]) {
    const found = said.judgement.findings.find((f) => f.rule === rule && f.about === "circuits.W10");
    assert.equal(found?.outcome, "cannot tell", rule);
    assert.ok(
      found.needs.some(({ fact }) => fact === "its wire: the label can be read in 3 ways"),
      rule,
    );
  }
  assert.equal(saidOf(said, "cable/ambiguous-cable-name", "circuits.W10"), "cannot tell");
});

test("its figures are those of the substitute: 19 wires of 27 gauge have 17.0 % more resistance than 2.5 mm² as the rule, the schedule and the trial of it say", () => {
  const facts = "path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm²";
  const said = judgePlain(`circuits:\n  W10: { ${facts}, bought as: "14 AWG (19/27) GXL" }`);
  const found = said.judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");
  assert.match(found?.because ?? "", /it has 17\.0 % more resistance/);
  assert.match(said.design.circuits.find(({ id }) => id === "W10")?.bought?.follows[0] ?? "", /17\.0 % more/);
  const drawn = judgePlain(`circuits:\n  W10: { ${facts} }`);
  const trial = substitute(drawn.plan.text, drawn, "W10", "14 AWG (19/27) GXL", compile);
  assert.ok(trial.ok && trial.says.startsWith("17.0 % more resistance than the drawn wire"));
});
