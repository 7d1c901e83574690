import assert from "node:assert/strict";
import { test } from "vitest";
import { judgePlain, saidOf } from "../judge-plain.ts";

// Builds of alternating current that are right and look wrong to one who compares words: the rule named stays silent.

const mains = (
  set: string,
  parts: string,
  circuits: string,
  rest = "",
  volts = "nominal: 230 V, cores: [L, N, PE]",
): string =>
  `rules: { DC: iso-small-craft 2020+A1:2022, AC: ${set} }\nsystems:\n  AC: { kind: AC, ${volts} }\nparts:\n${parts}\ncircuits:\n${circuits}${rest}`;

// 21: what an inverter gives opens no breaker, and leaves a few volts on the case
test("a breaker behind an inverter that can never trip", () => {
  const plan = mains(
    "iec-cabin 2009",
    "  INV: { kind: inverter, rated: 2 kVA, neutral–earth join: always }\n  CU: { kind: consumer unit, ways: { 1: breaker 16 A 2-pole } }\n  kettle: { kind: load, rated: 1 kW, running: 4.5 A }",
    "  W20: { path: BP → INV:in, length: 1 m }\n  W21: { path: INV:out → CU:in, length: 1 m }\n  W22: { path: CU:1 → kettle, length: 8 m }",
  );
  const compiled = judgePlain(plan);
  assert.equal(saidOf(compiled, "ac/source-that-cannot-trip", "circuits.W22"), "pass");
  assert.equal(
    saidOf(compiled, "ac/slow-fault-disconnection", "circuits.W22"),
    "only sources that limit their own current feed it",
  );
  // 1.5 × 8.7 A on 8 m of wire: a few volts
  const pass = compiled.judgement.passes.find((p) => p.rule === "ac/source-that-cannot-trip" && p.about === "circuits.W22"); // prettier-ignore
  assert.ok(pass?.unit === "V" && (pass.measured ?? 0) < 10, JSON.stringify(pass));
});

// 31: lines at 180° subtract
const kitchen = (lines: string): string =>
  mains(
    "us-cabin NEC 2023",
    `  INV: { kind: inverter, rated: 6 kVA, neutral–earth join: always, lines: ${lines} }\n  LC: { kind: load centre, ways: 4, rated: 60 A }\n  kitchen: { kind: outlet, running: 12 A }`,
    "  W20: { path: BP → INV:in, length: 1 m }\n  W21: { path: INV:out → LC, length: 1 m }\n  W22: { path: LC:1 → kitchen, length: 5 m, cores: [L1, L2, N, PE], wire: 14 AWG }",
    "\nstates:\n  cooking: { on: [INV, kitchen], charge: 80 % }",
    "nominal: 240 V, phases: split, frequency: 60 Hz, cores: [L1, L2, N, PE]",
  );

test("12 A and 12 A share a neutral of 14 AWG on lines that swing against each other, and not on one inverter of 120 V", () => {
  const right = judgePlain(kitchen("opposite"));
  assert.equal(saidOf(right, "ac/overloaded-shared-neutral", "circuits.W22"), "pass");
  const pass = right.judgement.passes.find((p) => p.rule === "ac/overloaded-shared-neutral" && p.about === "circuits.W22"); // prettier-ignore
  assert.ok(Math.abs(pass?.measured ?? 1) < 1e-3, "the difference of two equal currents is nothing");
  const wrong = judgePlain(kitchen("in phase")).judgement.findings.find(
    (f) => f.rule === "ac/overloaded-shared-neutral",
  );
  assert.ok(Math.abs((wrong?.measured?.value ?? 0) - 24) < 1e-6, "12 A + 12 A");
});

// 32: a thinner earth by 250.122 and by k²S²
test("an earth core that is smaller than the live cores", () => {
  const nec = mains(
    "us-cabin NEC 2023",
    "  INL: { kind: shore inlet, rated: 50 A, loop impedance: 0.2 Ω }\n  CU: { kind: consumer unit, main: breaker 50 A 2-pole, ways: { 1: breaker } }\n  range: { kind: load, rated: 4 kW, running: 34 A }",
    "  W20: { path: INL → CU:in, length: 1 m, wire: 6 AWG }\n  W21: { path: CU:1 → range, length: 6 m, cable: 8/2 w/G NM-B, breaker: 40 A at CU }",
    "",
    "nominal: 120 V, cores: [L, N, PE]",
  );
  // NEC Table 250.122: 10 AWG up to 60 A
  assert.equal(saidOf(judgePlain(nec), "ac/undersized-protective-conductor", "circuits.W21"), "pass");
  const heat = mains(
    "iec-cabin 2009",
    "  INL: { kind: shore inlet, rated: 32 A, loop impedance: 0.5 Ω }\n  CU: { kind: consumer unit, main: breaker 40 A 2-pole, ways: { 1: breaker } }\n  heater: { kind: load, rated: 2 kW, running: 9 A }",
    "  W20: { path: INL → CU:in, length: 1 m, wire: 10 mm² }\n  W21: { path: CU:1 → heater, length: 10 m, cable: 2.5 mm² T&E, breaker: 16 A MCB B at CU }",
  );
  // 250 A for 0.1 s at most: √(250² · 0.1) / 115 = 0.69 mm², and the cable has 1.5 mm²
  assert.equal(saidOf(judgePlain(heat), "ac/undersized-protective-conductor", "circuits.W21"), "pass");
});

// 2.2 A through the soil open no breaker, and 30 mA at once.
test("a supply earthed by electrodes of 100 Ω behind 30 mA", () => {
  const plan = mains(
    "iec-caravan 2019",
    "  INL: { kind: shore inlet, rated: 16 A, earthing: TT, loop impedance: 100 Ω }\n  CU: { kind: consumer unit, main: { residual device: 30 mA, poles: 2 }, ways: { 1: breaker 10 A 2-pole } }\n  kettle: { kind: load, rated: 1 kW }",
    "  W20: { path: INL → CU:in, length: 1 m }\n  W21: { path: CU:1 → kettle, length: 8 m }",
  );
  const findings = judgePlain(plan).judgement.findings.filter((f) => f.rule === "ac/slow-fault-disconnection");
  assert.deepEqual(
    findings.map((f) => `${f.about} ${f.outcome}`),
    [],
  );
});
