import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/unprotected-conductor";
const outcome = (fragment: string, id: string) => saidOf(judgePlain(fragment), RULE, `circuits.${id}`);
const STARTER = `parts:
  M1: { kind: starter, running: 180 A }
  lamp2: { kind: light, running: 2 A }
  SOL: { kind: relay }
circuits:
  W20: { path: B1 → SOL, length: 1 m, wire: 50 mm², fuse: none, cranking: yes }
  W21: { path: SOL → M1, length: 0.5 m, wire: 50 mm², fuse: none, cranking: yes }`;

test("a starter's main cable needs no device, a branch off its far end does", () => {
  const branch = `${STARTER}\n  W22: { path: SOL:in → lamp2, length: 3 m, wire: 1.5 mm², fuse: none }`;
  assert.equal(outcome(branch, "W20"), "the main cable of a starter, and no further");
  assert.equal(outcome(branch, "W22"), "fail");
  assert.equal(
    outcome(
      branch.replace("fuse: none }\n", "fuse: none }\n").replace("1.5 mm², fuse: none", "1.5 mm², fuse: 5 A at SOL"),
      "W22",
    ),
    "pass",
  );
});

test("one or two solar strings need none where the wire carries what the other one can push back", () => {
  const strings = (wire: string) => `parts:
  PV1: { kind: solar module, rated: 200 W, Voc: 24 V, Vmp: 20 V, Isc: 20 A }
  PV2: { like: PV1 }
  MPPT: { kind: solar controller, output: 30 A }
circuits:
  W20: { path: PV1 → MPPT:in, length: 7 m, wire: ${wire}, fuse: none }
  W21: { path: PV2 → MPPT:in, length: 7 m, wire: 6 mm², fuse: none }
  W22: { path: MPPT:out → BP, length: 1 m }`;
  assert.equal(outcome(strings("6 mm²"), "W20"), "pass");
  // 20 A from the other module, and 1 mm² carries 18 A.
  assert.equal(outcome(strings("1 mm²"), "W20"), "fail");
});

test("a return of the earthed pole needs none, nor does a link between units of a string", () => {
  const said = judgePlain(`systems:
  DC: { kind: DC, nominal: 24 V, return: BN }
parts:
  B1: { kind: battery, chemistry: AGM, nominal: 12 V, capacity: 100 Ah }
  B2: { like: B1 }
circuits:
  W01: { path: B1:+ → SW1, length: 0.8 m }
  W03: { path: B2:− → BN, length: 0.6 m }
  W05: { path: B1:− → B2:+, length: 0.3 m, wire: 50 mm², fuse: none }`);
  assert.match(saidOf(said, RULE, "circuits.W03") ?? "", /return of the earthed pole/);
  assert.equal(saidOf(said, RULE, "circuits.W05"), "a link between units of one string");
});

test("a switch that is off in every state guards nothing", () => {
  const text = `parts:
  B2: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 100 Ah }
  SW2: { kind: switch }
circuits:
  W20: { path: B2 → SW2, length: 1 m, wire: 25 mm², fuse: 80 A at B2 }
  W21: { path: SW2 → BP, length: 1 m, wire: 25 mm², fuse: none }
states:
  at anchor: { on: [lamp, fridge], SW2: off, charge: 40 % }`;
  assert.equal(outcome(text, "W21"), "pass");
  assert.equal(outcome(text.replace("fuse: 80 A at B2", "fuse: none"), "W21"), "fail");
});

test("a wire that is not known is guarded by its own device, and by what stands behind it nobody knows", () => {
  const text =
    "parts:\n  lamp2: { kind: light, running: 2 A }\ncircuits:\n  W20: { path: BP → lamp2, length: 3 m, wire: unknown, as found: yes, FUSE }";
  assert.equal(outcome(text.replace("FUSE", "fuse: 5 A at BP"), "W20"), "pass");
  assert.equal(outcome(text.replace("FUSE", "fuse: none"), "W20"), "cannot tell");
});

test("a short bar on the post may lie before the devices of what hangs on it", () => {
  const bar = (metres: string) => `parts:
  B2: { kind: battery, chemistry: AGM, capacity: 75 Ah }
  BP2: { kind: bus bar }
  lamp2: { kind: light, running: 2 A }
  lamp3: { like: lamp2 }
circuits:
  W20: { path: B2 → BP2, length: ${metres}, wire: 25 mm², fuse: none }
  W21: { path: BP2 → lamp2, length: 3 m, wire: 1.5 mm², fuse: 5 A at BP2 }
  W22: { path: BP2 → lamp3, length: 3 m, wire: 1.5 mm², fuse: 5 A at BP2 }
  W23: { path: B2:− → BN, length: 1 m }`;
  // 200 mm: ISO 13297 12.1.
  assert.equal(outcome(bar("0.15 m"), "W20"), "pass");
  assert.equal(outcome(bar("0.3 m"), "W20"), "fail");
});
