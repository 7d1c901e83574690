import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { readBreakerMarking } from "./breaker-marking.ts";

/** As printed on breakers to IEC 60898-1 and IEC 61009-1 (letter, then amps without a unit), and as said over the counter. */
const markings = [
  ["C32", "MCB C 32 A", undefined],
  ["B 16 A", "MCB B 16 A", undefined],
  ["breaker D10 2-pole", "MCB D 10 A 2-pole", undefined],
  ["MCB C 32 A", "MCB C 32 A", undefined],
  ["breaker 32 A curve C", "MCB C 32 A", undefined],
  ["10 A miniature breaker, curve C", "MCB C 10 A", undefined],
  ["breaker 32 A B-curve", "MCB B 32 A", undefined],
  ["DC MCB C16", "DC MCB 16 A", undefined],
  ["RCBO 32 A 30 mA", "32 A 30 mA", "to be said"],
  ["RCBO C32 30 mA", "MCB C 32 A 30 mA", "to be said"],
  ["RCBO 16A C 30mA", "MCB C 16A 30mA", "to be said"],
  ["RCBO C16 0.03 A", "MCB C 16 A 30 mA", "to be said"],
  ["C16/0.03 type A", "MCB C 16 A 30 mA", undefined],
  ["RCBO B10 1P+N IΔn 30 mA", "MCB B 10 A 2-pole 30 mA", "to be said"],
  ["C20 2P 6 kA", "MCB C 20 A 2-pole", undefined],
  ["GFCI breaker 20 A", "20 A", "5 mA"],
  ["ELCI 30 A 2-pole", "30 A 2-pole", "30 mA"],
] as const;

for (const [text, plain, residual] of markings) {
  test(`\`${text}\` is read as it is printed`, () => {
    const read = readBreakerMarking(text);
    assert.equal(read?.plain, plain);
    assert.equal(read.residual, residual);
  });
}

test("what is no marking is left alone", () => {
  for (const text of ["16 A 30 mA", "class T fuse 200 A", "B1 16 A", "K16", "blade type C 15 A", "C3200", "breaker"])
    assert.equal(readBreakerMarking(text), null, text);
});

const planOf = (breaker: string, part = "") => `wireworthy: 1
rules: { AC: iec-cabin 2009 }
systems:
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 32 A }
  heater: { kind: load, running: 9 A }
${part}circuits:
  W1: { path: INL → heater, length: 5 m, breaker: ${breaker} }
`;
const deviceIn = (text: string) => compile(text).design.circuits.find((c) => c.id === "W1")?.devices[0];

test("a marking gives rating, kind and family to the design", () => {
  for (const breaker of ["C16", "C 16 A", "breaker 16 A curve C", "RCBO C16 30 mA"]) {
    const device = deviceIn(planOf(breaker));
    assert.deepEqual([device?.ratingA, device?.kind, device?.family], [16, "breaker", "mcb_C"], breaker);
  }
});

test("a part that is called like a marking is meant by its name", () => {
  const plan = planOf("C16", "  C16: { kind: breaker, rated: 20 A }\n");
  assert.equal(deviceIn(plan)?.ratingA, 20);
});

test("a device that opens on leakage says at which, or is asked for it and kept", () => {
  const { diagnostics, design } = compile(planOf("RCBO C16"));
  const asked = diagnostics.filter((d) => d.id === "plan/residual-current-missing");
  assert.equal(asked.length, 1);
  assert.match(asked[0]?.hint ?? "", /30 mA/);
  assert.equal(design.circuits[0]?.devices[0]?.ratingA, 16);
  assert.deepEqual(
    compile(planOf("RCBO C16 30 mA")).diagnostics.filter((d) => d.level === "error" || d.level === "warning"),
    [],
  );
});

test("what opens on leakage alone is no device against too much current, in a line or as a part", () => {
  const { diagnostics, design } = compile(planOf("RCD 25 A 30 mA 2-pole"));
  assert.equal(diagnostics.filter((d) => d.id === "plan/no-overcurrent-device").length, 1);
  assert.equal(
    design.circuits[0]?.devices.find((d) => d.ratingA === 25),
    undefined,
  );
  const part = planOf("none", "  RC: { kind: RCCB, rated: 25 A, poles: 2, residual device: 30 mA }\n").replace(
    "INL → heater, length: 5 m",
    "INL → RC → heater, legs: [1 m, 5 m]",
  );
  const { design: drawn, judgement } = compile(part);
  assert.deepEqual(
    drawn.circuits[0]?.devices.filter((d) => d.ratingA === 25),
    [],
  );
  assert.ok(!judgement.findings.some((f) => f.rule === "ac/missing-residual-device" && f.outcome === "fail"));
});

test("what it can open is said to belong to the board", () => {
  const said = compile(planOf("C16 6 kA")).diagnostics.filter((d) => d.id === "plan/interrupt-elsewhere");
  assert.match(said[0]?.hint ?? "", /interrupt: 6 kA/);
});
