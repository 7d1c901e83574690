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

test("a short piece of a cabin's loom is not called overloaded by numbers that are not carried", () => {
  assert.equal(lamp("running: 24 A", "wire: 12 AWG, bundle: 4", "us-cabin"), "cannot tell");
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
