import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { kinds, makeGrid, resolveSystem, stripTrees, type Grid } from "../system/index.ts";
import { chooseDevice, findPush } from "./index.ts";

const TEXT = `wireworthy: 1
systems: { DC: { kind: DC, nominal: 12 V, return: BN } }
parts:
  BN: { kind: bus bar }
  BP: { kind: bus bar }
  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 3 kA }
  B2: { like: B1 }
  SW: { kind: switch }
  CHG: { kind: charger, output: 30 A }
  ALT: { kind: alternator, rated: 80 A }
  lamp: { kind: light, running: 1 A }
circuits:
  W1: { path: B1 → SW, length: 1 m }
  W2: { path: B2 → SW, length: 1 m }
  W3: { path: SW → BP, length: 1 m }
  W4: { path: CHG:out → BP, length: 1 m }
  W5: { path: ALT → BP, length: 1 m }
  W6: { path: BP → lamp, length: 1 m }
`;
const grid: Grid = makeGrid(resolveSystem(readPlan(TEXT, kinds).value, kinds).value);
const edge = (id: string): number => grid.edges.findIndex((e) => e.id === id);
const node = (terminal: string): number => grid.nodeOf(terminal);
const kept = new Uint8Array(grid.nodeCount);
for (const { plus, minus } of [...grid.stores, ...grid.feeds, ...grid.converters.map((c) => c.out)])
  kept[plus] = kept[minus] = 1;
const trees = stripTrees(grid, kept);
const push = (at: string, without: string, devices: Record<string, number> = {}) =>
  findPush(grid, trees, node(at), edge(without), (e) => devices[grid.edges[e]?.id ?? ""]);

test("a battery pushes without limit until a device stands between", () => {
  assert.equal(push("BP:pole", "W6+").amps, Infinity);
  assert.deepEqual([...push("BP:pole", "W6+").sources].sort(), ["ALT", "B1", "B2", "CHG"]);
  // 80 + 80 through the leads' fuses, the charger's own 30; the alternator is not known to limit itself, so its fuse counts.
  assert.equal(push("BP:pole", "W6+", { "W1+": 80, "W2+": 80, "W5+": 100 }).amps, 290);
});

test("a device passes no more than what stands behind it", () => {
  const found = push("BP:pole", "W3+", { "W4+": 40, "W5+": 100 });
  assert.equal(found.amps, 30 + 100);
  assert.deepEqual(found.unsure, ["ALT"]);
  // The alternator's 80 A, were it to limit itself, are less than its fuse.
  assert.equal(found.leastAmps, 30 + 80);
});

test("a load pushes nothing", () => {
  assert.equal(push("lamp:+", "W6+").amps, 0);
});

test("what comes through the conductor that is looked at does not count", () => {
  assert.deepEqual([...push("SW:in:pole", "W1+", { "W2+": 80, "W4+": 40, "W5+": 100 }).sources].sort(), [
    "ALT",
    "B2",
    "CHG",
  ]);
});

test("the device is the least that carries hours at 80 % and the start", () => {
  const way = { at: "way", device: "breaker" } as const;
  // 4.3 A ÷ 0.8 = 5.4 A: the next panel breaker is 7.5 A; its gate at 2 × holds 5 s, the start asks for 0.75 s.
  assert.equal(chooseDevice(way, { steadyAmps: 4.3, start: { amps: 8, seconds: 0.5 }, volts: 14.6 })?.rating, 7.5);
  assert.equal(chooseDevice(way, { steadyAmps: 4, start: null, volts: 14.6 })?.rating, 5);
  // 11 A on 3 A would be 3.7 ×: the gate at 4 × holds 0.8 s. On 20 A it would be 6.7 ×, which none holds.
  assert.equal(chooseDevice(way, { steadyAmps: 2.4, start: { amps: 11, seconds: 0.5 }, volts: 14.6 })?.rating, 3);
  assert.equal(chooseDevice(way, { steadyAmps: 2.4, start: { amps: 20, seconds: 0.5 }, volts: 14.6 })?.rating, 5);
});

test("no fuse is proposed of which nobody publishes when it opens", () => {
  // SAE J1284 begins at 3 A.
  for (const steadyAmps of [0.01, 0.4, 1.5, 2.4]) {
    assert.equal(chooseDevice({ at: "way", device: "fuse" }, { steadyAmps, start: null, volts: 14.6 })?.rating, 3);
  }
  assert.equal(chooseDevice({ at: "way", device: "fuse" }, { steadyAmps: 2.5, start: null, volts: 14.6 })?.rating, 4);
});

test("on a battery the family must break what the others can push", () => {
  const need = { steadyAmps: 60, start: null, volts: 14.6 };
  // A strip fuse breaks 2 kA, a battery-post fuse 5 kA above 14 V.
  assert.equal(chooseDevice({ at: "store", faultAmps: 1500 }, need)?.family, "strip_SF30");
  assert.equal(chooseDevice({ at: "store", faultAmps: 3000 }, need)?.family, "terminal_post");
  assert.equal(chooseDevice({ at: "store", faultAmps: 9000 }, need)?.family, "ul_class_T");
  // Where none breaks it, the first that carries it stands in: the rules tell what is wrong with it.
  assert.equal(chooseDevice({ at: "store", faultAmps: 90_000 }, need)?.family, "strip_SF30");
});

test("anywhere the family must break what flows there, and a kind made for far larger circuits is looked past", () => {
  const need = { steadyAmps: 4.5, start: null, volts: 14.6 };
  // A blade fuse breaks 1 kA; the least battery-post fuse is of 30 A.
  assert.equal(chooseDevice({ at: "elsewhere" }, need)?.family, "blade_type_C");
  const strong = chooseDevice({ at: "elsewhere", faultAmps: 4800 }, need);
  assert.deepEqual([strong?.family, strong?.rating], ["ul_class_T", 6]);
  assert.equal(
    chooseDevice({ at: "elsewhere", faultAmps: 4800 }, { ...need, steadyAmps: 60 })?.family,
    "terminal_post",
  );
  // At 48 V a panel has breakers that are made for it.
  assert.equal(chooseDevice({ at: "way", device: "breaker" }, { ...need, volts: 58.4 })?.family, "hydraulic_breaker");
  // What stands in the ways of a panel is the panel's own kind.
  assert.equal(chooseDevice({ at: "way", device: "breaker", faultAmps: 4800 }, need)?.family, "thermal_breaker");
});

test("a fuse of 32 V is not offered on a bank that is charged at 58.4 V", () => {
  const found = chooseDevice({ at: "elsewhere" }, { steadyAmps: 10, start: null, volts: 58.4 });
  assert.equal(found?.family, "ul_class_T");
});

test("a maker's limit holds the device down as far as it carries what flows for long", () => {
  const way = { at: "way", device: "breaker" } as const;
  const need = { steadyAmps: 4.5, start: null, volts: 14.6 };
  const held = (atMost: number, more = {}) => {
    const found = chooseDevice(way, { ...need, ...more, atMost });
    return [found?.rating, found?.isHeldDown];
  };
  assert.deepEqual(held(7.5), [7.5, false]);
  assert.deepEqual(held(7), [5, true]);
  assert.deepEqual(held(5), [5, true]);
  // Nothing carries it any more: as if nobody had stated a limit.
  assert.deepEqual(held(4.9), [7.5, false]);
  assert.deepEqual(held(5, { steadyAmps: 5.01 }), [7.5, false]);
  // What flows comes to rest within a millionth.
  assert.deepEqual(held(5, { steadyAmps: 5 * (1 + 1e-8) }), [5, true]);
  // The start yields to it.
  assert.deepEqual(held(5, { start: { amps: 60, seconds: 1 } }), [5, true]);
  // So does that nobody publishes when a fuse of 2 A opens.
  const fuse = { at: "way", device: "fuse" } as const;
  assert.equal(chooseDevice(fuse, { ...need, steadyAmps: 1, atMost: 2 })?.rating, 2);
  // It has to break what it had to break: a blade fuse of 5 A does not, and class T is made for 3 A and 6 A.
  assert.equal(chooseDevice({ at: "elsewhere", faultAmps: 4800 }, { ...need, atMost: 5 })?.rating, 6);
});
