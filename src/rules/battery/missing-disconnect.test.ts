import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "battery/missing-disconnect";
const american = "rules: { DC: us-small-craft ABYC E-11 }\n";
const withoutSwitch = (battery: string): string => `${american}parts:
  B1: { kind: battery, ${battery} }
circuits:
  W01: { path: B1 → BP, length: 0.8 m }
  W02: { path: SW1:in → SW1:out, length: 0.4 m }`;
const said = (battery: string): string | undefined => saidOf(judgePlain(withoutSwitch(battery)), RULE, "parts.B1");

// 800 CCA is quoted from E-11 11.6.1.2.1, 100 Ah from reviews of a later edition
test("the American set asks a switch of more than 800 cold cranking amps, or of more than 100 Ah where none are stated", () => {
  const none = "no more than 800 cold cranking amps, or 100 Ah";
  assert.equal(said("chemistry: AGM, capacity: 200 Ah, cranking: 800 A"), none);
  assert.equal(said("chemistry: AGM, capacity: 90 Ah, cranking: 801 A"), "fail");
  assert.equal(said("chemistry: AGM, capacity: 100 Ah"), none);
  assert.equal(said("chemistry: AGM, capacity: 101 Ah"), "fail");
  assert.equal(said("chemistry: AGM, capacity: unknown"), "cannot tell");
});

test("amps of units abreast add up, those behind one pair of terminals too", () => {
  assert.equal(said("chemistry: AGM, capacity: 90 Ah, cranking: 450 A, count: 2"), "fail");
});

test("bilge pump, memory and charger may be ahead of the switch, each with its device", () => {
  const ahead = judgePlain(`parts:
  bilge pump: { kind: bilge pump, running: 4 A, always on: yes }
  memory: { kind: load, running: 0.1 A, always on: yes }
  CHG: { kind: charger, output: 20 A }
  FB: { kind: fuse block, ways: 4, negative bar: yes }
circuits:
  W20: { path: SW1:in → FB, length: 0.5 m }
  W21: { path: FB:1 → bilge pump, length: 3 m }
  W22: { path: FB:2 → memory, length: 2 m }
  W23: { path: CHG:out → SW1:in, length: 1 m }`);
  assert.equal(saidOf(ahead, RULE, "parts.B1"), "pass");
});

test("a breaker that is a part of its own is a disconnect", () => {
  const breaker = judgePlain("parts:\n  SW1: { kind: breaker, rated: 150 A }");
  assert.equal(saidOf(breaker, RULE, "parts.B1"), "pass");
});

test("a start battery with nothing but an alternator and a charger needs none", () => {
  const start = judgePlain(`parts:
  B2: { kind: battery, chemistry: AGM, capacity: 90 Ah, cranking: 700 A }
  ALT: { kind: alternator, rated: 60 A }
circuits:
  W20: { path: ALT → B2, length: 1 m }
  W21: { path: B2:− → BN, length: 1 m }`);
  assert.equal(saidOf(start, RULE, "parts.B2"), "nothing hangs on it but what may stay ahead of a switch");
});
