import assert from "node:assert/strict";
import { test } from "vitest";
import { judgePlain, saidOf } from "../judge-plain.ts";

// Solar builds that are right and look wrong to one who compares words: the rule named stays silent.

const array = (
  module: string,
  controller: string,
  more = "",
  circuit = "path: PV → MPPT:in, length: 3 m",
): string => `${more}parts:
  MPPT: { kind: solar controller, output: 50 A, ${controller} }
  PV: { kind: solar module, rated: 410 W, Voc: 37.3 V, Vmp: 31.3 V, Isc: 13.9 A, Voc per kelvin: -0.25 %, ${module} }
circuits:
  W20: { ${circuit} }
  W21: { path: MPPT:out → BP, length: 1 m }
`;
const FROST = "climate: { ambient: 30 °C, lowest: -32 °C }\n";

test("one or two strings without fuses", () => {
  for (const strings of [1, 2]) {
    const compiled = judgePlain(array(`strings in parallel: ${strings}`, "input limit: 150 V"));
    const said = saidOf(compiled, "protection/unfused-array-string", "parts.PV");
    assert.match(said ?? "", /^one (?:string|or two strings), and nothing else pushes$/);
    assert.equal(saidOf(compiled, "protection/unprotected-conductor", "circuits.W20"), "pass");
  }
});

test("three in series on 150 V where it gets −32 °C, and four are too many", () => {
  // 3 × 37.3 V × (1 + 0.0025 × 57) = 127.8 V; by the factor 1.23 of NEC table 690.7(A) 137.6 V; 4 in series 170.5 V
  const of = (series: number, coefficient = true): string | undefined => {
    const plan = array(`in series: ${series}`, "input limit: 150 V", FROST);
    const compiled = judgePlain(coefficient ? plan : plan.replace(" Voc per kelvin: -0.25 %,", ""));
    return saidOf(compiled, "charging/cold-string-overvoltage", "parts.MPPT");
  };
  assert.equal(of(3), "pass");
  assert.equal(of(3, false), "pass");
  assert.equal(of(4), "fail");
  // 149.2 V on the label, up to 183.5 V by the table: without a coefficient it cannot be told
  assert.equal(of(4, false), "cannot tell");
});

test("more watts of modules than the controller passes on, within its input current", () => {
  const compiled = judgePlain(array("strings in parallel: 2", "input limit: 150 V, input current: 35 A"));
  // 2 × 13.9 A × 1.25 = 34.75 A of 35 A; 820 W on 50 A × 14.4 V = 720 W
  assert.equal(saidOf(compiled, "charging/overdriven-controller", "parts.MPPT"), "pass");
});

test("a van's roof that its own connectors isolate with its load off is a note, not a fault of weight", () => {
  const compiled = judgePlain(array("connectors: make A 4 mm, mated with: make A 4 mm", "input limit: 150 V"));
  const found = compiled.judgement.findings.filter((f) => f.rule === "charging/missing-array-isolator");
  assert.deepEqual(
    found.map((f) => f.severity),
    ["note"],
  );
});

test("three strings of which each is fused where they meet", () => {
  const fuse = "largest fuse: 25 A, string fuse: { rated: 25 A, DC volts: 600 V }";
  const compiled = judgePlain(array(`strings in parallel: 3, ${fuse}`, "input limit: 150 V"));
  // 1.56 × 13.9 A = 21.7 A ≤ 25 A ≤ 25 A
  assert.equal(saidOf(compiled, "protection/unfused-array-string", "parts.PV"), "pass");
  assert.equal(saidOf(compiled, "protection/misfit-array-fuse", "parts.PV"), "pass");
});

test("two modules of other watts and the same volts side by side", () => {
  const second =
    "  PV2: { kind: solar module, rated: 100 W, Voc: 37 V, Vmp: 31 V, Isc: 3.5 A, Voc per kelvin: -0.3 % }\ncircuits:\n  W22: { path: PV2 → MPPT:in, length: 3 m }\n";
  const compiled = judgePlain(array("mounting: racked", "input limit: 150 V").replace("circuits:\n", second));
  assert.equal(saidOf(compiled, "charging/mismatched-modules", "parts.MPPT"), "pass");
});
