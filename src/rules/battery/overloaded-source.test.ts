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

/** 120/240 V: on L1 kitchen 20 A and lights 3 A, on L2 a pump 8 A, across both a range 8 A. */
const cabin = (rated: string, more = "", inlet = "shore inlet"): string => `wireworthy: 1
rules: { DC: us-cabin NEC 2023, AC: us-cabin NEC 2023 }
systems:
  DC: { kind: DC, nominal: 48 V, return: BN }
  AC: { kind: AC, nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE] }
stock: { sizes: AWG }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 300 Ah, short-circuit: 6 kA }
  BN: { kind: bus bar }
  GIN: { kind: ${inlet}, rated: ${rated} }
  INV: { kind: inverter/charger, rated: 6 kW, surge: 12 kVA, charging: 30 A, charger input: 2 A${more} }
  LC: { kind: load centre, ways: 4 }
  range: { kind: load, running: 8 A }
  kitchen: { kind: load, running: 20 A }
  lights: { kind: light, running: 3 A }
  pump: { kind: load, motor: AC, running: 8 A }
circuits:
  D1: { path: B1 → INV:battery, length: 1 m }
  D2: { path: "B1:− → BN", length: 1 m }
  A1: { path: GIN → INV:in, length: 6 m }
  A2: { path: INV:out → LC, length: 2 m }
  A3: { path: LC:1 → range, length: 6 m }
  A4: { path: LC:2 → kitchen, length: 9 m, cores: [L1, N, PE] }
  A5: { path: LC:3 → pump, length: 9 m, cores: [L2, N, PE] }
  A6: { path: LC:4 → lights, length: 9 m, cores: [L1, N, PE] }
states:
  inverter: { shore: out, on: [INV, kitchen, lights, pump, range], charge: 60 % }
  generator: { shore: in, on: [GIN, kitchen, lights, pump, range], charge: 40 % }
`;
const told = (
  plan: string,
  rule: string,
  about: string,
): { value?: number | null; limit?: number | null; says?: string } => {
  const { findings, passes } = compile(plan).judgement;
  const found = findings.find((f) => f.rule === rule && f.about === about);
  if (found !== undefined)
    return { value: found.measured?.value ?? null, limit: found.limit?.value ?? null, says: found.because };
  const pass = passes.find((p) => p.rule === rule && p.about === about);
  return { value: pass?.measured ?? null, limit: pass?.limit ?? null };
};

test("the rating of an inlet in amps is that of a line: of two the greater is judged", () => {
  // L1: 20 + 3 + 8 + 2 of the charger = 33 A; L2: 8 + 8 + 2 = 18 A; their mean of 25.5 A would pass 30 A.
  const small = told(cabin("30 A"), RULE, "parts.GIN");
  assert.deepEqual([small.value, small.limit], [33, 30]);
  assert.match(small.says ?? "", /33 A on L1 \(generator\); it is rated 30 A/);
  const enough = told(cabin("50 A"), RULE, "parts.GIN");
  assert.deepEqual([enough.value, enough.limit, enough.says], [33, 50, undefined]);
  // Four fifths of 40 A are 32 A.
  const hours = told(cabin("40 A"), "ac/overloaded-inlet", "parts.GIN");
  assert.deepEqual([hours.value, hours.limit], [33, 32]);
  assert.match(hours.says ?? "", /carries 33 A on L1/);
});

test("a rating in watts lies half on each of two lines, save where both swing together", () => {
  // L1: (20 + 3 + 8) · 120 = 3720 VA of 3000; all: 3720 + (8 + 8) · 120 = 5640 VA of 6000.
  const apart = told(cabin("50 A", ", lines: opposite"), RULE, "parts.INV");
  assert.deepEqual([apart.value, apart.limit], [3720, 3000]);
  assert.match(
    apart.says ?? "",
    /3720 VA on L1 \(inverter\); it is rated 6000 VA, which is 3000 VA on each of its 2 lines/,
  );
  const together = told(cabin("50 A", ", lines: in phase"), RULE, "parts.INV");
  assert.deepEqual([together.value, together.limit, together.says], [5640, 6000, undefined]);
  // 33 A · 120 V = 3960 VA; half of 7.5 kVA is 3750, of 8 kVA 4000.
  const generator = told(cabin("7.5 kVA", "", "generator"), RULE, "parts.GIN");
  assert.deepEqual([generator.value, generator.limit], [3960, 3750]);
  assert.equal(told(cabin("8 kVA", "", "generator"), RULE, "parts.GIN").says, undefined);
});

test("a start beyond a line's share of the surge is told", () => {
  const pump = "pump: { kind: load, motor: AC, running: 8 A";
  const plan = cabin("50 A")
    .replace("INV, kitchen, lights, pump, range", "INV, pump")
    .replace(pump, `${pump}, starting: 60 A`);
  // 60 A · 120 V = 7200 VA of half of 12 kVA.
  const start = told(plan, RULE, "parts.INV");
  assert.deepEqual([start.value, start.limit], [7200, 6000]);
  assert.match(start.says ?? "", /7200 VA on L2 while something starts/);
});

test("a charger on the output of an inverter takes what is stated of its input", () => {
  const plan = (input: string): string => `wireworthy: 1
rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }
systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 300 Ah }
  B2: { kind: battery, chemistry: AGM, capacity: 80 Ah }
  BN: { kind: bus bar }
  INV: { kind: inverter, rated: 1500 VA }
  CU: { kind: consumer unit, ways: { 1: breaker 10 A 2-pole, 2: breaker 10 A 2-pole } }
  CH: { kind: charger, output: 30 A, input: ${input} }
  kettle: { kind: load, running: 1000 W }
circuits:
  D1: { path: B1 → INV:in, length: 1 m }
  D2: { path: "B1:− → BN", length: 1 m }
  D3: { path: CH:out → B2, length: 1 m }
  A1: { path: INV:out → CU, length: 2 m }
  A2: { path: CU:1 → kettle, length: 3 m }
  A3: { path: CU:2 → CH:in, length: 3 m }
states:
  away: { on: [INV, kettle], charge: 60 % }
`;
  // 3 A × 230 V + 1000 W.
  const much = told(plan("3 A"), RULE, "parts.INV");
  assert.deepEqual([Math.round(much.value ?? 0), much.limit], [1690, 1500]);
  const little = told(plan("2 A"), RULE, "parts.INV");
  assert.deepEqual([Math.round(little.value ?? 0), little.says], [1460, undefined]);
});

test("a load in watts on three lines takes a third of them on each, which is W ÷ (√3 × volts between two) in amps", () => {
  const three = `wireworthy: 1
rules: { AC: iec-cabin }
systems:
  AC: { kind: AC, nominal: 400 V, phases: three, frequency: 50 Hz, cores: [L1, L2, L3, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  CU: { kind: consumer unit, ways: 2 }
  oven: { kind: load, rated: 6900 W }
  lamp: { kind: light, running: 230 W }
circuits:
  A1: { path: INL → CU, length: 6 m }
  A2: { path: CU:1 → oven, length: 6 m }
  A3: { path: CU:2 → lamp, length: 9 m, cores: [L1, N, PE] }
states:
  on: { shore: in, on: [oven, lamp] }
`;
  // 6900 W ÷ (√3 × 400 V) = 9.96 A, and 230 W ÷ 231 V = 1.00 A beside it on the first line.
  const found = told(three, RULE, "parts.INL");
  assert.ok(Math.abs((found.value ?? 0) - (6900 / (Math.sqrt(3) * 400) + 230 / (400 / Math.sqrt(3)))) < 1e-9);
  const compiled = compile(three);
  const draw = compiled.system.elements.find((e) => e.is === "draw" && e.part === "oven");
  assert.ok(draw?.is === "draw" && Math.abs((draw.levels[0]?.amps.high ?? 0) - 9.959) < 1e-3);
});
