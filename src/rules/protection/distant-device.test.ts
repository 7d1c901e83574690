import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/distant-device";
const outcome = (fragment: string, about: string) => saidOf(judgePlain(fragment), RULE, about);
const US = "rules: { DC: us-small-craft ABYC E-11 }\n";
const lead = (more: string, rules = US) => `${rules}circuits:
  W01: { path: B1 → SW1, length: 2 m, wire: 50 mm², ${more} }`;

// 183.455(b): 7 in, 40 in in a sheath; E-11: 72 in from the post of a battery, in a sheath.
test("the American set allows 178 mm bare and 1829 mm in a sheath from the post", () => {
  assert.equal(outcome(lead("fuse: 80 A 170 mm from B1"), "circuits.W01.from"), "pass");
  assert.equal(outcome(lead("fuse: 80 A 190 mm from B1"), "circuits.W01.from"), "fail");
  assert.equal(outcome(lead("sheathed: yes, fuse: 80 A 1.5 m from B1"), "circuits.W01.from"), "pass");
  assert.equal(outcome(lead("sheathed: yes, fuse: 80 A 1.9 m from B1"), "circuits.W01.from"), "fail");
});

test("a device at the far end is as far as the run is long", () => {
  const found = judgePlain(lead("fuse: 80 A at SW1")).judgement.findings.find((f) => f.rule === RULE);
  assert.equal(found?.about, "circuits.W01.from");
  assert.deepEqual(found.measured, { value: 2, unit: "m" });
});

test("a charging source may have its device 1.8 m along in the other set", () => {
  const alternator = (metres: string) =>
    `parts:\n  ALT: { kind: alternator, rated: 80 A, self-limited: no }\ncircuits:\n  W20: { path: ALT → B1, length: ${metres}, wire: 35 mm², fuse: 100 A at B1, return: B1 }`;
  assert.equal(outcome(alternator("1.7 m"), "circuits.W20.from"), "pass");
  assert.match(outcome(alternator("1.9 m"), "circuits.W20.from") ?? "", /one-ended/);
});

test("the American set asks for no device at an alternator whose cable carries its whole output", () => {
  const alternator = (wire: string) =>
    `${US}parts:\n  ALT: { kind: alternator, rated: 80 A, self-limited: unknown }\ncircuits:\n  W20: { path: ALT → B1, length: 3 m, wire: ${wire}, fuse: 100 A at B1, return: B1 }`;
  assert.match(outcome(alternator("35 mm²"), "circuits.W20.from") ?? "", /whole rated output/);
});

test("metres that are a range, or not known, are told where they decide", () => {
  const range = (metres: string) => lead(`fuse: 80 A ${metres} from B1`, "");
  assert.equal(outcome(range("0.1…0.19 m"), "circuits.W01.from"), "pass");
  assert.equal(outcome(range("0.1…0.3 m"), "circuits.W01.from"), "cannot tell");
  const unknown = "circuits:\n  W01: { path: B1 → SW1, length: unknown, wire: 50 mm², fuse: 80 A at SW1 }";
  assert.equal(outcome(unknown, "circuits.W01.from"), "cannot tell");
});

test("a panel way, and a fuse as a part on the way, stand at no distance", () => {
  assert.equal(outcome("", "circuits.W10.from"), "pass");
  const part = (metres: string) => `parts:
  F1: { kind: fuse, rated: 80 A, family: class T }
circuits:
  W01: { path: B1 → F1, length: ${metres}, wire: 50 mm², fuse: none }
  W05: { path: F1 → SW1, length: 0.8 m, wire: 50 mm² }`;
  assert.equal(outcome(part("0.15 m"), "circuits.W01.from"), "pass");
  assert.equal(outcome(part("0.4 m"), "circuits.W01.from"), "fail");
  assert.equal(outcome(part("0.4 m"), "circuits.W05.from"), "pass");
});

test("what devices behind it guard may have its own anywhere", () => {
  // The battery's own 60 A, and 25 mm² carries more.
  const text = `circuits:
  W01: { path: B1 → SW1, length: 0.8 m, wire: 25 mm², fuse: 60 A at B1 }
  W04: { path: BP → PNL, length: 1.5 m, wire: WIRE, demand: 30 A, fuse: 40 A 500 mm from BP }`;
  assert.equal(outcome(text.replace("WIRE", "25 mm²"), "circuits.W04.from"), "the devices behind it guard it");
  assert.equal(outcome(text.replace("WIRE", "6 mm²"), "circuits.W04.from"), "fail");
});

test("a further device on the way of a conductor that is guarded from behind stands where it likes", () => {
  const text = (thin: string) => `parts:
  CB2: { kind: breaker, rated: 80 A, reset: manual }
circuits:
  W01: { path: B1 → SW1, length: 0.8 m, wire: 25 mm², sheathed: yes, fuse: 80 A at B1 }
  W02: { path: SW1 → CB2 → BP, legs: [1 m, 0.2 m], wire: ${thin} }`;
  const of = (thin: string) => saidOf(judgePlain(text(thin)), "protection/distant-device", "circuits.W02.from");
  assert.equal(of("25 mm²"), "the devices behind it guard it");
  assert.equal(of("6 mm²"), "fail");
});
