import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import type { CircuitDesign } from "./index.ts";

const HEAD = `wireworthy: 1
rules:   { DC: iso-small-craft }
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
stock:   { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
`;
const circuits = (rest: string): ReadonlyMap<string, CircuitDesign> =>
  new Map(compile(HEAD + rest).design.circuits.map((c) => [c.id, c]));
const of = (rest: string, id: string): CircuitDesign => {
  const found = circuits(rest).get(id);
  assert.ok(found !== undefined, id);
  return found;
};
const outcome = (c: CircuitDesign, id: string) => c.constraints.find((k) => k.id === id)?.outcome;

const BANK = `parts:
  B1: { kind: battery, chemistry: LFP, capacity: 150 Ah, short-circuit: 3 kA }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
`;
/** The large load in front of the motor either always runs or is named by the state: the motor cannot tell. */
const beside = (
  always: boolean,
): string => `${BANK}  L: { kind: load, running: 100 A${always ? ", always on: yes" : ""} }
  M: { kind: load, motor: DC, running: 20 A, starting: 120 A, starts above: 11.5 V${always ? ", always on: yes" : ""} }
circuits:
  W01: { path: B1 → BP, length: 2 m, wire: 50 mm² }
  W13: { path: BP → L, length: 1.2 m }
  W14: { path: BP → M, length: 3 m, wire: 50 mm² }
states:
  both: { on: [L, M], charge: 20 % }
`;

test("a start is judged beside what runs in a state, as beside what always runs", () => {
  for (const id of ["W01", "W14"]) {
    const [named, always] = [of(beside(false), id), of(beside(true), id)];
    assert.equal(outcome(named, "start"), "not met");
    // Both have 100 A running and 120 A starting, at the same charge: the same sums in another order.
    assert.ok(
      Math.abs((named.startA ?? 0) - (always.startA ?? 0)) < 1e-6,
      `${named.startA ?? ""} ${always.startA ?? ""}`,
    );
  }
  assert.ok(Math.abs((of(beside(false), "W14").startVolts ?? 0) - (of(beside(true), "W14").startVolts ?? 1)) < 1e-6);
});

test("the device of a feeder carries the start that comes on top of what runs", () => {
  assert.equal(Math.round(of(beside(false), "W01").startA ?? 0), 220);
});

test("by hand: volts at a start beside a running load", () => {
  const w = circuits(beside(false));
  const [feeder, lead] = [w.get("W01"), w.get("W14")];
  assert.ok(feeder !== undefined && lead !== undefined);
  // r20 of 50 mm² class 5 tinned, IEC 60228 table 3; hot by the design currents; 2 m and 3 m out and back; four joints and two for the fuse.
  const r20 = 0.393e-3;
  const hot = (c: CircuitDesign): number => r20 * (1 + 0.00393 * ((c.conductorC ?? 0) - 20));
  const fuse = (rating: number | null | undefined): number => 0.1 / (rating ?? 1);
  const loop = (c: CircuitDesign, metres: number): number => hot(c) * 2 * metres + 6e-4 + fuse(c.devices[0]?.ratingA);
  // 4 cells at 20 % charge, 12.8 V ÷ 3000 A inside. A hundredth of a millivolt: currents come to rest within a millionth.
  const emf = 4 * 3.2413; // reference/energy/lfp_ocv.csv at 20 %
  const at = emf - 220 * (12.8 / 3000 + loop(feeder, 2)) - 120 * loop(lead, 3);
  // A short at the bar draws more than the 2 kA that a strip fuse breaks; both kinds lose 100 mV at their rating.
  assert.deepEqual(
    [feeder, lead].map((c) => c.devices[0]?.family),
    ["terminal_post", "terminal_post"],
  );
  assert.ok(Math.abs((lead.startVolts ?? 0) - at) < 1e-5, `${lead.startVolts ?? ""} V against ${at} V by hand`);
});

test("what a converter cannot give collapses, whatever the wire", () => {
  const fed = (load: string, states = ""): string => `${BANK}  BX: { kind: bus bar }
  C: { kind: DC-DC converter, output: 30 A, isolated: yes }
  L: { kind: load, ${load} }
circuits:
  W1: { path: B1 → BP, length: 1 m }
  W2: { path: BP → C:in, length: 1 m }
  W3: { path: C:out → BX, length: 1 m }
  W4: { path: BX → L, length: 2 m }
${states}`;
  const steady = of(fed("running: 45 A"), "W4");
  assert.deepEqual([steady.dropV, steady.leastVolts, steady.loads.length], [null, null, 0]);
  assert.equal(outcome(steady, "drop"), "not met");
  assert.match(steady.constraints.find((k) => k.id === "drop")?.source ?? "", /L collapses: C gives no more than 30 A/);
  assert.deepEqual(steady.notBorne, ["L cannot be borne: C gives no more than 30 A"]);
  const idle = of(fed("running: 45 A", "states: { idle: { on: [] } }\n"), "W4");
  assert.equal(outcome(idle, "drop"), "not met");

  const start = of(fed("running: 20 A, starting: 60 A, starts above: 8 V"), "W4");
  assert.equal(outcome(start, "start"), "not met");
  assert.equal(outcome(start, "drop"), "met");
  assert.equal(start.startVolts, null);
  assert.ok((start.leastVolts ?? 0) > 10);
  assert.deepEqual(start.notBorne, ["L cannot be borne while it starts: C gives no more than 30 A"]);

  const enough = of(fed("running: 20 A, starting: 29 A, starts above: 8 V"), "W4");
  assert.deepEqual([outcome(enough, "start"), enough.notBorne], ["met", []]);
});

test("impossible volts are not told", () => {
  const c = of(
    `${BANK}  L: { kind: load, running: 900 A, runs above: 12 V }
circuits:
  W01: { path: B1 → BP, length: 90 m }
  W13: { path: BP → L, length: 1.2 m, wire: 1 mm² }
`,
    "W13",
  );
  assert.deepEqual([c.dropV, c.dropShare, c.leastVolts, c.loads.length], [null, null, null, 0]);
  assert.deepEqual(c.notBorne, ["L cannot be borne: the way to it loses more volts than there are"]);
  assert.equal(outcome(c, "least-volts"), "not met");
});

test("a load with no way back cannot be told", () => {
  const c = of(
    `${BANK}  X: { kind: load, running: 40 A, starting: 100 A }
circuits:
  W01: { path: B1 → BP, length: 1 m }
  W15: { path: BP → X, length: 1.2 m, return: none }
`,
    "W15",
  );
  assert.equal(c.outcome, "cannot tell");
  assert.deepEqual(c.cannotTell, ["nothing leads back from X to a source"]);
  assert.equal(c.size, null);
});
