import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { readPlan } from "../plan/index.ts";
import { kinds, reachAlternating, resolveSystem, suppliedIn } from "./index.ts";

const plan = (state: string) => `wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V, return: BN }, AC: { kind: AC, nominal: 230 V, frequency: 50 Hz, cores: [L, N, PE] } }
parts:
  B1: { kind: battery, chemistry: LFP, capacity: 280 Ah, short-circuit: 4 kA }
  BN: { kind: bus bar, rated: 400 A }
  SI: { kind: shore inlet, rated: 16 A }
  GEN: { kind: generator, rated: 3 kVA, neutral: joined to earth }
  GI2: { kind: shore inlet, rated: 16 A }
  CO: { kind: transfer switch, inputs: [shore, generator], off: yes }
  INV: { kind: inverter/charger, rated: 3000 VA, charging: 70 A, charger input: 5 A, neutral–earth join: closed when inverting }
  CU: { kind: consumer unit, ways: { 1: breaker 16 A 2-pole } }
  kettle: { kind: load, running: 4 A }
circuits:
  D1: { path: B1 → INV:battery, length: 1 m, fuse: 400 A class T 0.15 m from B1 }
  D2: { path: "B1:− → BN", length: 1 m }
  A1: { path: SI → CO:shore, length: 2 m }
  A2: { path: GEN → GI2, length: 8 m }
  A3: { path: GI2 → CO:generator, length: 2 m }
  A4: { path: CO:out → INV:in, length: 2 m }
  A5: { path: INV:out → CU, length: 2 m }
  A6: { path: CU:1 → kettle, length: 2 m }
states:
  one: { on: [kettle], charge: 50 %, ${state} }
`;

/** Whether the relay is supplied, and what the inverter is asked for, W. */
function at(text: string): readonly [boolean, number | undefined] {
  const { value: system } = resolveSystem(readPlan(text, kinds).value, kinds);
  const [state] = system.states;
  assert.ok(state !== undefined);
  return [suppliedIn(system)(state)("INV:in:L"), reachAlternating(system)(state).get("INV:inverting")];
}

test("whichever supply reaches it is passed on, and what reaches only an open switch is not", () => {
  const WATTS = 4 * 230;
  assert.deepEqual(at(plan("SI: in, CO: shore")), [true, undefined]);
  assert.deepEqual(at(plan("GEN: running, SI: out, GI2: in, CO: generator")), [true, undefined]);
  assert.deepEqual(at(plan("SI: in, CO: off")), [false, WATTS]);
  assert.deepEqual(at(plan("SI: in, GI2: out, CO: generator")), [false, WATTS]);
  assert.deepEqual(at(plan("GEN: running, GI2: out, CO: generator")), [false, WATTS]);
  assert.deepEqual(at(plan("GEN: running, GI2: in, CO: shore")), [false, WATTS]);
  assert.deepEqual(at(plan("shore: out, CO: shore")), [false, WATTS]);
});

test("a switch that moves by itself goes to the supply that there is", () => {
  const seeking = (state: string) => plan(state).replace("off: yes }", "automatic: yes }");
  assert.deepEqual(at(seeking("GEN: running, GI2: in")), [true, undefined]);
  assert.deepEqual(at(seeking("SI: in, GI2: out")), [true, undefined]);
  assert.equal(at(seeking("GEN: running, GI2: out"))[0], false);
});

test("the bank is charged in the same states, and drained by the inverter in the others", () => {
  const bank = (state: string): number =>
    compile(plan(state)).design.states[0]?.sources.find((s) => s.part === "B1")?.amps ?? NaN;
  const charged = bank("GEN: running, SI: out, GI2: in, CO: generator");
  // All that the charger gives goes into the bank: nothing else is on it.
  assert.ok(Math.abs(charged + 70) < 0.01, `${charged} A`);
  assert.ok(Math.abs(bank("SI: in, CO: shore") - charged) < 0.01);
  // 920 W at no more than 14 V, and not a watt charged.
  assert.ok(bank("SI: in, CO: off") > 920 / 14);
});

test("behind a transformer, and behind an inverter/charger that passes it on, it is the same supply", () => {
  const charger = "  CH: { kind: charger, output: 20 A }\n";
  const text = plan("SI: in, CO: shore")
    .replace("circuits:\n", `${charger}  TR: { kind: isolation transformer, rated: 16 A }\ncircuits:\n`)
    .replace("A1: { path: SI → CO:shore,", "A0: { path: SI → TR:in, length: 1 m }\n  A1: { path: TR:out → CO:shore,")
    .replace("ways: { 1: breaker 16 A 2-pole }", "ways: { 1: breaker 16 A 2-pole, 2: breaker 6 A 2-pole }")
    .replace("states:", "  A7: { path: CU:2 → CH:in, length: 1 m }\nstates:");
  const supplied = (said: string): boolean | undefined => {
    const { value: system } = resolveSystem(readPlan(text.replace("CO: shore }", said), kinds).value, kinds);
    const [state] = system.states;
    return state === undefined ? undefined : suppliedIn(system)(state)("CH:in:L");
  };
  assert.equal(supplied("CO: shore }"), true);
  // Then the inverter feeds that board, which is no supply from outside.
  assert.equal(supplied("CO: off }"), false);
});

test("where no way from a supply is drawn, `shore` says it", () => {
  const text = (shore: string) =>
    `wireworthy: 1\nparts:\n  B1: { kind: battery }\n  CH: { kind: charger, output: 20 A }\ncircuits:\n  W1: { path: CH → B1, length: 1 m }\nstates:\n  one: { shore: ${shore} }\n`;
  for (const shore of ["in", "out"]) {
    const { value: system } = resolveSystem(readPlan(text(shore), kinds).value, kinds);
    const [state] = system.states;
    assert.ok(state !== undefined);
    assert.equal(suppliedIn(system)(state)("CH:in:L"), shore === "in");
  }
});
