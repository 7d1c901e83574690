import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "battery/overloaded-source";
const galley = (states: string): string => `systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }
parts:
  INV: { kind: inverter, rated: 2 kVA, efficiency: 90 % }
  PNA: { kind: panel, ways: 2 }
  kettle: { kind: load, running: 1.8 kW }
  oven: { kind: load, running: 1.6 kW }
circuits:
  W20: { path: BP → INV:in, length: 1 m }
  W21: { path: INV:out → PNA:in, length: 1 m }
  W22: { path: PNA:1 → kettle, length: 3 m }
  W23: { path: PNA:2 → oven, length: 3 m }
states:
${states}`;

test("loads that are never on together are counted one by one", () => {
  const apart = judgePlain(
    galley(
      "  tea: { on: [INV, kettle], charge: 40 % }\n  cake: { on: [INV, oven], charge: 40 % }\n  never together: [kettle, oven]",
    ),
  );
  assert.equal(saidOf(apart, RULE, "parts.INV"), "pass");
  const together = judgePlain(galley("  party: { on: [INV, kettle, oven], charge: 40 % }"));
  const finding = together.judgement.findings.find((f) => f.rule === RULE);
  assert.equal(finding?.outcome, "fail");
  assert.equal(finding.measured?.value, 3400);
});

test("a converter gives no more than its rating, at a start either", () => {
  const alone = (running: string): string =>
    `parts:
  CONV: { kind: DC-DC converter, nominal: 24 V, output: 10 A }
  pump: { kind: load, ${running} }
systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
  DC24: { kind: DC, nominal: 24 V, return: BN }
rules: { DC: iso-small-craft 2020+A1:2022, DC24: iso-small-craft 2020+A1:2022 }
circuits:
  W20: { path: BP → CONV:in, length: 1 m }
  W21: { path: CONV:out → pump, length: 3 m }`;
  assert.equal(saidOf(judgePlain(alone("running: 10 A")), RULE, "parts.CONV"), "pass");
  const starting = judgePlain(alone("running: 4 A, starting: 12 A")).judgement.findings.find((f) => f.rule === RULE);
  assert.match(starting?.because ?? "", /while something starts/);
});

test("an inverter that states no rating cannot be told", () => {
  const unknown = judgePlain(
    galley("  tea: { on: [INV, kettle], charge: 40 % }").replace("rated: 2 kVA", "rated: unknown"),
  );
  assert.equal(saidOf(unknown, RULE, "parts.INV"), "cannot tell");
});

/** Boiler 9 A and cooker 12 A at 230 V behind a transfer switch, and not a word of what is on when. */
const boat = (inlet: string, generator: string, more = ""): string => `wireworthy: 1
rules: { AC: iso-small-craft 2020+A1:2022 }
systems: { AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] } }
stock: { sizes: mm² }
parts:
  INL: { kind: shore inlet, ${inlet} }
  GEN: { kind: generator, ${generator} }
  TS: { kind: transfer switch, inputs: [shore, generator] }
  CU: { kind: consumer unit, main: { poles: 2, residual device: 30 mA }, ways: { 1: breaker, 2: breaker } }
  boiler: { kind: load, running: 9 A }
  cooker: { kind: load, running: 12 A }
circuits:
  W1: { path: INL → TS:shore, length: 1 m }
  W2: { path: GEN → TS:generator, length: 2 m }
  W3: { path: TS:out → CU, length: 2 m }
  W4: { path: CU:1 → boiler, length: 6 m }
  W5: { path: CU:2 → cooker, length: 6 m }
${more}`;

test("without states all that a source reaches is on together, save what never is, and the finding says so", () => {
  const judged = compile(boat("rated: 16 A", "rated: 4 kVA"));
  const shore = judged.judgement.findings.find((f) => f.rule === RULE && f.about === "parts.INL");
  assert.equal(shore?.outcome, "fail");
  assert.equal(shore.measured?.value, 21);
  assert.match(shore.because, /as the plan gives no states/);
  const generator = judged.judgement.findings.find((f) => f.rule === RULE && f.about === "parts.GEN");
  assert.equal(generator?.measured?.value, 21 * 230);
  assert.ok(judged.design.assumptions.some((a) => a.id === "all-on-together"));
  const apart = compile(boat("rated: 16 A", "rated: 4 kVA", "states:\n  never together: [boiler, cooker]\n"));
  assert.deepEqual(
    apart.judgement.findings.filter((f) => f.rule === RULE),
    [],
  );
});

test("without states mains and leads are made for all of it, from a source of unknown rating too", () => {
  const { design } = compile(boat("rated: unknown", "rated: unknown"));
  const amps = new Map(design.circuits.map((c) => [c.id, c.steadyA]));
  for (const id of ["W1", "W2", "W3"])
    assert.ok(Math.abs((amps.get(id) ?? 0) - 21) < 0.01, `${id} ${amps.get(id) ?? 0}`);
});

test("a generator that a state switches on is judged in it", () => {
  const states = "states:\n  cooking: { on: [GEN, boiler, cooker], TS: generator }\n";
  const finding = compile(boat("rated: 32 A", "rated: 4 kVA", states)).judgement.findings.find((f) => f.rule === RULE);
  assert.equal(finding?.about, "parts.GEN");
  assert.match(finding.because, /cooking/);
});

test("a breaker that is written in the line of an inlet, at either end, leaves it judged as without", () => {
  const states = "states:\n  cooking: { shore: in, TS: shore, on: [boiler, cooker] }\n";
  const plain = boat("rated: 16 A", "rated: 8 kVA", states);
  const judged = ["", ", breaker: 16 A 30 mA 2-pole at INL", ", breaker: 16 A 30 mA 2-pole at TS"].map((breaker) => {
    const line = "path: INL → TS:shore, length: 1 m";
    const { findings } = compile(plain.replace(line, line + breaker)).judgement;
    return findings.flatMap((f) => (f.rule === RULE ? [[f.about, f.because, f.measured?.value]] : []));
  });
  // Boiler 9 A and cooker 12 A.
  assert.equal(judged[0]?.[0]?.[2], 21);
  assert.deepEqual(judged[1], judged[0]);
  assert.deepEqual(judged[2], judged[0]);
});
