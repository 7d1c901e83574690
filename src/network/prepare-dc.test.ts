import { test } from "vitest";
import assert from "node:assert/strict";
import type { DcNetwork } from "./dc-network.ts";
import { prepareDc } from "./prepare-dc.ts";

/** Battery, main switch, panel bar of 0 Ω, two loads, common minus. */
const boat: DcNetwork = {
  elements: [
    { kind: "store", id: "battery", plus: "b+", minus: "b-", volts: 12.8, ohms: 0.01 },
    { kind: "resistor", id: "switch", a: "b+", b: "p1", ohms: 0.001 },
    { kind: "resistor", id: "bar", a: "p1", b: "p2", ohms: 0 },
    { kind: "resistor", id: "lead 1", a: "p1", b: "l1", ohms: 0.05 },
    { kind: "resistor", id: "lead 2", a: "p2", b: "l2", ohms: 0.02 },
    { kind: "draw", id: "radio", plus: "l1", minus: "b-", law: { watts: 24 } },
    { kind: "draw", id: "pump", plus: "l2", minus: "b-", law: { amps: 6 } },
  ],
  ground: "b-",
};
const near = (found: number | undefined, expected: number, within = 1e-10) => {
  assert.ok(Math.abs((found ?? NaN) - expected) <= within, `${found}, expected ${expected}`);
};
const indexOf = (names: readonly string[], name: string) => {
  const i = names.indexOf(name);
  assert.ok(i >= 0, name);
  return i;
};

test("the arrays carry what the plain description says, by index", () => {
  const prepared = prepareDc(boat);
  const solution = prepared.solve();
  const point = prepared.describe();
  point.elements.forEach((e, k) => {
    assert.deepEqual([e.amps, e.volts, e.condition], [solution.amps[k], solution.volts[k], solution.conditions[k]]);
  });
  point.nodes.forEach((n, i) => {
    assert.equal(n.volts, solution.nodeVolts[i]);
  });
});

test("an open switch leaves the panel dead, closing it again brings the same answer as before", () => {
  const prepared = prepareDc(boat);
  const before = Array.from(prepared.solve().amps);
  const values = prepared.values();
  values.on[indexOf(prepared.elements, "switch")] = 0;
  const open = prepared.solve(values);
  assert.deepEqual(Array.from(open.amps), [0, 0, 0, 0, 0, 0, 0]);
  assert.deepEqual(
    [open.conditions[1], open.conditions[2], open.conditions[5], open.conditions[6]],
    ["off", "joined", "no source", "no source"],
  );
  assert.deepEqual(Array.from(prepared.solve().amps), before);
});

test("values given do not stick: the network keeps its own", () => {
  const prepared = prepareDc(boat);
  const before = prepared.solve().amps.slice();
  const values = prepared.values();
  values.demand.fill(1);
  values.ohms.fill(0.01);
  prepared.solve(values);
  assert.deepEqual(prepared.solve().amps, before);
});

test("a bar of 0 Ω may get a resistance and lose it again", () => {
  const prepared = prepareDc(boat);
  const bar = indexOf(prepared.elements, "bar");
  const values = prepared.values();
  near(prepared.solve().amps[bar], 6);
  values.ohms[bar] = 0.03;
  const split = prepared.solve(values);
  near(split.volts[bar], 0.18);
  assert.equal(split.conditions[bar], "carrying");
  values.ohms[bar] = 0;
  near(prepared.solve(values).volts[bar], 0);
});

test("an unusable number in the values takes out its element for that solution only", () => {
  const prepared = prepareDc(boat);
  const values = prepared.values();
  values.demand[6] = NaN;
  const without = prepared.solve(values);
  assert.deepEqual(
    without.problems.map((p) => [p.problem, p.about, p.field, p.found]),
    [["unusable number", "pump", "amps", "NaN"]],
  );
  assert.equal(without.conditions[6], "off");
  assert.equal(prepared.solve().conditions[6], "taking");
});

test("one ampere at the pump: volts there and at the radio, currents through switch, bar and lead", () => {
  const prepared = prepareDc({ ...boat, elements: boat.elements.filter((e) => e.id !== "radio") });
  prepared.solve();
  const node = (name: string) => indexOf(prepared.nodes, name);
  const volts = new Float64Array(2);
  const amps = new Float64Array(4);
  const elements = ["switch", "bar", "lead 1", "lead 2"].map((id) => indexOf(prepared.elements, id));
  assert.ok(prepared.respond(node("l2"), node("b-"), [node("l2"), node("l1")], elements, volts, amps));
  near(volts[0], -0.031);
  near(volts[1], -0.011);
  [1, 1, 0, 1].forEach((expected, k) => {
    near(amps[k], expected);
  });
  // The other way round through the bar: drawn on its near side nothing passes it.
  assert.ok(prepared.respond(node("l1"), node("b-"), [], elements, volts, amps));
  [1, 0, 1, 0].forEach((expected, k) => {
    near(amps[k], expected);
  });
});

test("a load of constant power takes part in the response with −P/v²", () => {
  const prepared = prepareDc(boat);
  const v = prepared.solve().volts[5] ?? NaN;
  const node = (name: string) => indexOf(prepared.nodes, name);
  const volts = new Float64Array(1);
  prepared.respond(node("l1"), node("b-"), [node("l1")], [], volts, new Float64Array(0));
  // 61 mΩ from the radio back to the battery, beside the radio's own −v²/24 Ω.
  near(volts[0], -1 / (1 / 0.061 - 24 / v ** 2));
});

test("between islands there is no response", () => {
  const prepared = prepareDc({
    elements: [...boat.elements, { kind: "store", id: "other", plus: "o+", minus: "o-", volts: 3, ohms: 1 }],
  });
  prepared.solve();
  const node = (name: string) => indexOf(prepared.nodes, name);
  assert.equal(prepared.respond(node("o+"), node("b-"), [], [], new Float64Array(0), new Float64Array(0)), false);
});

test("describing a collapse does not disturb what follows", () => {
  const prepared = prepareDc(boat);
  const values = prepared.values();
  values.demand[5] = 5000;
  const solution = prepared.solve(values);
  assert.deepEqual(Array.from(solution.collapsed), [5]);
  const amps = solution.amps.slice();
  const first = prepared.describe();
  assert.equal(first.collapses[0]?.cause, "lead 1");
  assert.deepEqual(prepared.describe(), first);
  assert.deepEqual(solution.amps, amps);
  const node = (name: string) => indexOf(prepared.nodes, name);
  const volts = new Float64Array(1);
  assert.ok(prepared.respond(node("l1"), node("b-"), [node("l1")], [], volts, new Float64Array(0)));
  near(volts[0], -0.061);
});
