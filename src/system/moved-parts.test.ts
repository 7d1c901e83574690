import { test } from "vitest";
import assert from "node:assert/strict";
import { readPlan } from "../plan/index.ts";
import { kinds, resolveSystem } from "./index.ts";

function resolved(state: string) {
  const read = readPlan(
    `wireworthy: 1
systems: { AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] } }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  GEN: { kind: generator, rated: 3 kVA, neutral: floating }
  TS: { kind: transfer switch, inputs: [shore, generator], poles: 2 }
  INV: { kind: inverter/charger, rated: 3000 VA, charging: 70 A }
  CU: { kind: consumer unit, ways: { 1: breaker 16 A 2-pole } }
  kettle: { kind: outlet, running: 8 A }
circuits:
  A1: { path: INL → TS:shore, length: 3 m }
  A2: { path: GEN → TS:generator, length: 3 m }
  A3: { path: TS:out → CU, length: 3 m }
  A4: { path: CU:1 → kettle, length: 3 m }
states:
  odd: { ${state}, TS: shore, on: [kettle] }
`,
    kinds,
  );
  const { value, diagnostics } = resolveSystem(read.value, kinds);
  return { state: value.states[0], faults: diagnostics.filter((d) => d.id === "system/position-unknown") };
}

test("a state may use the words by which plugs and generators move", () => {
  assert.deepEqual(resolved("INL: in").faults, []);
  assert.equal(resolved("INL: in").state?.shore, true);
  assert.equal(resolved("INL: out").state?.shore, false);
  assert.deepEqual(resolved("GEN: running").faults, []);
  assert.deepEqual(resolved("GEN: running").state, resolved("GEN: on").state);
  assert.deepEqual(resolved("INL: in").state, resolved("shore: in").state);
});

test("a part may be held in any position that it has, and is released by `on`", () => {
  assert.deepEqual(resolved("INV: charger only").faults, []);
  assert.equal(resolved("INV: charger only").state?.positions["INV"], "charger only");
  assert.equal(resolved("INV: off").state?.positions["INV"], "off");
  assert.equal(resolved("INV: on").state?.positions["INV"], undefined);
  assert.deepEqual(Object.entries(resolved("GEN: off").state?.positions ?? {}), [["TS", "shore"]]);
});

test("a plug that contradicts the shore of its state is told, and so is a word that says nothing here", () => {
  assert.match(resolved("INL: in, shore: out").faults[0]?.message ?? "", /`INL: in` contradicts `shore: out`/);
  assert.match(resolved("INV: inverting").faults[0]?.hint ?? "", /`off`, `on` or `charger only`/);
  assert.match(resolved("GEN: sideways").faults[0]?.message ?? "", /`GEN` has no position `sideways`/);
});
