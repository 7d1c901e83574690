import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/overloaded-conductor";
const lamp = (load: string, circuit: string, set = "iso-small-craft") =>
  saidOf(
    judgePlain(
      `rules: { DC: ${set} }\nparts:\n  lamp: { kind: load, ${load} }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 0.5 m, ${circuit} }`,
    ),
    RULE,
    "circuits.W10",
  );

test("a windlass that pulls for 40 seconds may exceed the American table, and not the international one", () => {
  const pull = "motor: DC, running: 60 A, duty: intermittent";
  assert.match(lamp(pull, "wire: 10 AWG", "us-small-craft") ?? "", /^intermittent surges/);
  assert.equal(lamp("motor: DC, running: 60 A", "wire: 10 AWG", "us-small-craft"), "fail");
  assert.equal(lamp(pull, "wire: 4 mm²"), "fail");
});

test("in a loom of twelve wires of which two carry current, two are counted", () => {
  assert.equal(lamp("running: 24 A", "wire: 2.5 mm², bundle: 2"), "pass");
  assert.equal(lamp("running: 24 A", "wire: 2.5 mm², bundle: 12"), "fail");
});

test("an unknown bundle is tried at its worst", () => {
  assert.equal(lamp("running: 24 A", "wire: 2.5 mm², bundle: unknown"), "cannot tell");
  assert.equal(lamp("running: 5 A", "wire: 2.5 mm², bundle: unknown"), "pass");
});

test("ten loaded wires that lie together for no more than 600 mm are not counted with each other in an American cabin", () => {
  const cabin = (length: string) =>
    saidOf(
      judgePlain(
        `rules: { DC: us-cabin }\nparts:\n  lamp: { kind: load, running: 15.5 A, runs above: 9 V }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: ${length}, wire: 12 AWG, bundle: 10 }`,
      ),
      RULE,
      "circuits.W10",
    );
  // 12 AWG of 90 °C: 30 A in the table, half of it beside nine others (310.15(C)(1)).
  assert.equal(cabin("0.5 m"), "pass");
  assert.equal(cabin("2 m"), "fail");
});

test("unknown insulation is taken at both ends of what is sold", () => {
  assert.equal(lamp("running: 10 A", "wire: 2.5 mm², insulation: unknown"), "pass");
  assert.equal(lamp("running: 30 A", "wire: 2.5 mm², insulation: unknown"), "cannot tell");
  assert.equal(lamp("running: 90 A", "wire: 2.5 mm², insulation: unknown"), "fail");
});

test("what an unknown load takes is bounded by its device", () => {
  assert.equal(lamp("running: unknown", "wire: 2.5 mm², breaker: 10 A at PNL"), "pass");
  assert.equal(lamp("running: unknown", "wire: 2.5 mm², breaker: 60 A at PNL"), "cannot tell");
});

test("the feeder of an unknown load is open too, unless it states its demand or has a device that bounds it", () => {
  const feeder = (more: string) =>
    saidOf(
      judgePlain(
        `parts:\n  lamp: { kind: load, running: unknown }\ncircuits:\n  W04: { path: BP → PNL, length: 1.5 m, wire: 16 mm²${more} }`,
      ),
      RULE,
      "circuits.W04",
    );
  assert.equal(feeder(""), "cannot tell");
  assert.equal(feeder(", demand: 30 A"), "pass");
  assert.equal(feeder(", fuse: 60 A at BP"), "pass");
});
