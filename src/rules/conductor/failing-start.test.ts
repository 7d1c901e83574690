import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/failing-start";
const boat = (fridge: string, wire: string) => `parts:
  fridge: { kind: load, motor: DC, ${fridge} }
  lamp: { kind: load, running: 1 A, runs above: 12 V }
circuits:
  W01: { path: B1 → SW1, length: 0.8 m, sheathed: yes, wire: 50 mm², fuse: none }
  W02: { path: SW1 → BP, length: 0.4 m, wire: 50 mm², fuse: none }
  W03: { path: B1:− → BN, length: 0.6 m, wire: 50 mm², fuse: none }
  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm² }
  W04: { path: BP → PNL, length: 3 m, wire: ${wire}, demand: 81 A, fuse: none }
  W11: { path: PNL:2 → fridge, length: 2 m, wire: 10 mm² }
states:
  at anchor: { on: [lamp, fridge], charge: 40 % }`;

test("the volts left to another load while one starts are those of a state in which it runs at its starting current", () => {
  const starting = judgePlain(boat("running: 10 A, starting: 80 A, starts above: 6 V", "16 mm²"));
  const finding = starting.judgement.findings.find((f) => f.rule === RULE);
  assert.equal(finding?.about, "parts.fridge");
  assert.equal(finding.state, "at anchor");
  const running = judgePlain(boat("running: 80 A", "16 mm²"));
  const volts = running.design.states[0]?.loads.find((l) => l.part === "lamp")?.volts ?? 0;
  // 0.01 V: in the other plan the battery's leads are 7 K warmer, as 80 A flow in them for long
  assert.ok(Math.abs((finding.measured?.value ?? 0) - volts) < 0.01, `${finding.measured?.value} against ${volts} V`);
});

test("a thicker feeder gives the other load what it needs", () => {
  const said = judgePlain(boat("running: 10 A, starting: 80 A, starts above: 6 V", "95 mm²"));
  assert.equal(saidOf(said, RULE, "parts.fridge"), "pass");
});

test("a motor that states no least volts is asked for three quarters of nominal, which is common practice", () => {
  const said = judgePlain(
    "parts:\n  fridge: { kind: load, motor: DC, running: 10 A, starting: 60 A }\ncircuits:\n  W11: { path: PNL:2 → fridge, length: 5 m, wire: 2.5 mm² }",
  );
  const finding = said.judgement.findings.find((f) => f.rule === RULE);
  assert.equal(finding?.limit?.value, 9);
  assert.equal(finding.trust, "practice");
});

test("what starts but states nothing is not asked, unless it starves another", () => {
  const said = judgePlain("parts:\n  fridge: { kind: load, running: 4 A, starting: 10 A }");
  assert.equal(
    saidOf(said, RULE, "parts.fridge"),
    "no least volts are stated for its start, and it starves nothing else",
  );
});
