import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const said = (battery: string, wire: string, metres: number) =>
  saidOf(
    judgePlain(
      `parts:\n  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 100 Ah, short-circuit: ${battery} }\n  beacon: { kind: light, running: 0.1 A }\ncircuits:\n  W20: { path: BP → beacon, length: ${String(metres)} m, wire: ${wire}, fuse: 100 A class T at BP }`,
    ),
    "protection/fault-too-small-to-clear",
    "circuits.W20",
  );

test("where all sources together give no more than the conductor carries, nothing has to open", () => {
  const forGood = "all its sources together give no more than it carries for good";
  // 10 mm² carries 70 A, ISO 13297.
  assert.equal(said("60 A", "10 mm²", 10), forGood);
  assert.notEqual(said("90 A", "10 mm²", 10), forGood);
  // Thin and long: a battery of thousands of amperes drives less than the fuse needs, and more than the wire carries.
  assert.equal(said("3 kA", "1.5 mm²", 12), "fail");
});
