import assert from "node:assert/strict";
import { test } from "vitest";
import { judgePlain, saidOf } from "../judge-plain.ts";

// Builds that are right and look wrong to one who compares words: the rule named stays silent.

const fails = (plan: string, rule: string): readonly string[] =>
  judgePlain(plan)
    .judgement.findings.filter((f) => f.rule === rule && f.severity !== "note")
    .map((f) => `${f.outcome} ${f.about}: ${f.because}`);

test("a bilge pump, an alarm and a charger ahead of the main switch, each with a device of its own", () => {
  const plan = `parts:
  bilge pump: { kind: bilge pump, running: 4.5 A, always on: yes }
  gas alarm: { kind: load, running: 0.1 A, always on: yes }
  CHG: { kind: charger, output: 20 A }
circuits:
  W12: { path: SW1:in → bilge pump, length: 3 m, fuse: 10 A at SW1 }
  W13: { path: SW1:in → gas alarm, length: 3 m, fuse: 1 A at SW1 }
  W14: { path: CHG:out → SW1:in, length: 1 m }`;
  assert.deepEqual(fails(plan, "battery/missing-disconnect"), []);
});

test("100 A of loads on a converter of 60 A, of which no state has two on", () => {
  const plan = `systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
  DC24: { kind: DC, nominal: 24 V, return: BN }
rules: { DC: iso-small-craft 2020+A1:2022, DC24: iso-small-craft 2020+A1:2022 }
parts:
  CONV: { kind: DC-DC converter, nominal: 24 V, output: 60 A }
  BAR: { kind: bus bar, rated: 100 A, system: DC24 }
  winch: { kind: load, running: 50 A }
  thruster: { kind: load, running: 50 A }
circuits:
  W20: { path: BP → CONV:in, length: 1 m }
  W21: { path: CONV:out → BAR, length: 1 m }
  W22: { path: BAR → winch, length: 1 m }
  W23: { path: BAR → thruster, length: 1 m }
states:
  hoisting: { on: [winch], charge: 40 % }
  berthing: { on: [thruster], charge: 40 % }`;
  assert.deepEqual(fails(plan, "battery/overloaded-source"), []);
});

test("a bank of 51.2 V that is charged to 58.4 V", () => {
  const plan = `systems:
  DC: { kind: DC, nominal: 48 V, return: BN }
rules: { DC: iec-cabin 2009 }
parts:
  B1: { kind: battery, chemistry: LFP, nominal: 51.2 V, capacity: 100 Ah, short-circuit: 3 kA, management: { continuous: 100 A, charging above: 0 °C } }
  fridge: { kind: load, running: 1 A }`;
  const compiled = judgePlain(plan);
  // 4 × 14.6 V = 58.4 V, below the 60 V of IEC 60364-4-41
  assert.equal(saidOf(compiled, "battery/touchable-dc-part", "systems.DC"), "pass");
});

test("more watts of modules than their controller passes on, within its input current", () => {
  const plan = `parts:
  MPPT: { kind: solar controller, output: 50 A, input limit: 150 V, input current: 30 A }
  PV: { kind: solar module, rated: 450 W, Voc: 50 V, Vmp: 41 V, Isc: 11 A, strings in parallel: 2 }
circuits:
  W20: { path: PV → MPPT:in, length: 3 m }
  W21: { path: MPPT:out → BP, length: 1 m }`;
  // 2 × 11 A × 1.25 = 27.5 A of 30 A; 900 W on 50 A × 14.4 V = 720 W
  assert.deepEqual(fails(plan, "charging/overdriven-controller"), []);
});

test("lead in frost, and a start battery on a big alternator", () => {
  const plan = `parts:
  B1: { kind: battery, chemistry: AGM, capacity: 75 Ah, cranking: 700 A, held down: yes, posts covered: yes }
  ALT: { kind: alternator, rated: 120 A }
circuits:
  W20: { path: ALT → SW1:in, length: 1 m }`;
  for (const rule of ["battery/cold-charging", "battery/excess-charge-current", "charging/overworked-alternator"])
    assert.deepEqual(fails(plan, rule), [], rule);
});

test("gear that is labelled 12 V on a bar that is charged to 14.6 V", () => {
  assert.deepEqual(
    fails("parts:\n  lamp: { kind: light, running: 2 A, volts: 12 V }", "battery/wrong-voltage-load"),
    [],
  );
});
