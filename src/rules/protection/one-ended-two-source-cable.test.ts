import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/one-ended-two-source-cable";
const outcome = (fragment: string, id: string) => saidOf(judgePlain(fragment), RULE, `circuits.${id}`);
const IN_REACH = "no more than it may carry comes to one of its ends";

test("what limits itself and cannot feed backwards needs a device at the battery's end only", () => {
  for (const kind of ["solar controller", "charger", "DC-DC charger"]) {
    const text = `parts:\n  C1: { kind: ${kind}, output: 30 A }\ncircuits:\n  W20: { path: C1:out → BP, length: 3 m, wire: 10 mm², fuse: 40 A at BP }`;
    assert.match(outcome(text, "W20") ?? "", /^(?:pass|no more than it may carry)/, kind);
  }
});

test("a converter that pushes both ways feeds its input as well", () => {
  const text = (both: string) => `parts:
  B2: { kind: battery, chemistry: AGM, capacity: 75 Ah }
  DCDC: { kind: DC-DC charger, output: 60 A, both ways: ${both} }
circuits:
  W20: { path: B2 → DCDC:in, length: 1 m, wire: 1.5 mm², fuse: 15 A at B2 }
  W21: { path: DCDC:out → BP, length: 1 m, wire: 16 mm² }
  W22: { path: B2:− → BN, length: 1 m }`;
  assert.equal(outcome(text("no"), "W20"), "it is fed from one end only");
  assert.equal(outcome(text("yes"), "W20"), "fail");
});

test("an alternator's cable that carries its whole output, guarded at the battery", () => {
  const cable = (rules: string, metres: string) =>
    `${rules}parts:\n  ALT: { kind: alternator, rated: 80 A, self-limited: unknown }\ncircuits:\n  W20: { path: ALT → B1, length: ${metres}, wire: 35 mm², fuse: 100 A at B1, return: B1 }`;
  assert.equal(outcome(cable("rules: { DC: us-small-craft ABYC E-11 }\n", "3 m"), "W20"), "pass");
  // The exemption of E-11 looks at the rated output alone, whether or not the machine limits itself.
  const endless = (wire: string) =>
    cable("rules: { DC: us-small-craft ABYC E-11 }\n", "3 m").replace("unknown", "no").replace("35 mm²", wire);
  assert.equal(outcome(endless("35 mm²"), "W20"), "pass");
  assert.equal(outcome(endless("16 mm²").replace("100 A", "80 A"), "W20"), "fail");
  assert.equal(outcome(cable("", "1.5 m"), "W20"), "pass");
  assert.equal(outcome(cable("", "3 m"), "W20"), "cannot tell");
  assert.equal(outcome(cable("", "3 m").replace("self-limited: unknown", "self-limited: yes"), "W20"), IN_REACH);
});

test("two feeders to one bar, a device at each end of both", () => {
  const text = (second: string) => `parts:
  B2: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }
  BP2: { kind: bus bar }
  pilot: { kind: load, running: 5 A, critical: yes }
circuits:
  W20: { path: B2 → BP2, length: 1 m, wire: 10 mm², fuse: 60 A at B2 }
  W21: { path: BP → BP2, length: 1 m, wire: 6 mm², fuse: [40 A at BP, 40 A at BP2] }
  W22: { path: BP → BP2, length: 1 m, wire: 6 mm², fuse: [40 A at BP${second}] }
  W23: { path: BP2 → pilot, length: 1 m }
  W24: { path: B2:− → BN, length: 1 m }`;
  assert.equal(outcome(text(", 40 A at BP2"), "W21"), "pass");
  assert.equal(outcome(text(", 40 A at BP2"), "W22"), "pass");
  assert.equal(outcome(text(""), "W22"), "fail");
});
