import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const STEADY = "battery/current-above-management-limit";
const SURGE = "battery/surge-above-management-limit";
const battery = (management: string): string =>
  `{ kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA, ${management} }`;

test("a surge takes its VA over efficiency and the volts of the emptiest bank", () => {
  const { judgement } = judgePlain(`parts:
  B1: ${battery("management: { continuous: 100 A, peak: 120 A }")}
  fridge: { kind: load, running: 4 A }
  INV: { kind: inverter, rated: 1 kVA, surge: 2.4 kVA, efficiency: 80 % }
circuits:
  W20: { path: BP → INV:in, length: 1 m }`);
  const finding = judgement.findings.find((f) => f.rule === SURGE && f.state === "INV at its surge");
  // 20 % charge of four LFP cells: 12.8 V (rules of the trade: 12.8 V LFP at 20 %), so 2400 ÷ (0.8 × 12.8) = 234 A; 2 %: the curve says a little more
  const amps = 2400 / (0.8 * 12.8);
  assert.ok(
    Math.abs((finding?.measured?.value ?? 0) / amps - 1) < 0.02,
    `${finding?.measured?.value} A against ${amps} A`,
  );
});

test("a lithium battery that says nothing of its management cannot be told, a lead battery is not asked", () => {
  const lithium = judgePlain(`parts:\n  B1: ${battery("made: 2024")}`);
  assert.equal(saidOf(lithium, STEADY, "parts.B1"), "cannot tell");
  const lead = judgePlain("parts:\n  B1: { kind: battery, chemistry: AGM, capacity: 200 Ah }");
  assert.equal(saidOf(lead, STEADY, "parts.B1"), "its maker states no limits");
  assert.equal(saidOf(lead, SURGE, "parts.B1"), "its maker states no limits");
});

test("a management of which nothing is known cannot be told", () => {
  assert.equal(
    saidOf(judgePlain(`parts:\n  B1: ${battery("management: unknown")}`), STEADY, "parts.B1"),
    "cannot tell",
  );
});

test("units behind one pair of terminals carry their limits together, and one of them may be off", () => {
  const rack = (count: number, lamp: number) =>
    judgePlain(`parts:
  B1: ${battery(`count: ${count}, management: { continuous: 50 A, peak: 400 A }`)}
  lamp: { kind: light, running: ${lamp} A }`).judgement.findings.find((f) => f.rule === STEADY);
  assert.equal(rack(3, 90), undefined);
  assert.equal(rack(2, 90)?.severity, "should");
  assert.equal(rack(2, 110)?.severity, "must");
});

test("what nobody knows of a load leaves the current of its bank open", () => {
  const open = judgePlain("parts:\n  lamp: { kind: light, running: unknown }");
  const finding = open.judgement.findings.find((f) => f.rule === STEADY);
  assert.equal(finding?.outcome, "cannot tell");
  assert.equal(finding.needs[0]?.about, "parts.lamp");
});
