import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/uneven-parallel-conductors";
const two = (a: string, b: string) =>
  judgePlain(`circuits:\n  W02: { path: SW1 → BP, ${a} }\n  W22: { path: SW1 → BP, ${b} }`);

test("two wires share a current by Ohm's law", () => {
  const said = two("length: 2 m, wire: 35 mm², fuse: none", "length: 4 m, wire: 35 mm², fuse: none");
  const share = said.judgement.findings.find((f) => f.rule === RULE)?.measured?.value ?? 0;
  // 0.565 mΩ/m of tinned class 5 (IEC 60228), 0.1 mΩ a joint and two joints each; a warmer wire has more, the short one most: 2 % of the share
  const [short, long] = [2 * 0.565 + 0.2, 4 * 0.565 + 0.2];
  assert.ok(Math.abs(share - long / (short + long)) < 0.02 * share, `${share}`);
  assert.equal(saidOf(said, RULE, "circuits.W22"), "pass");
});

test("one of two feeders without a device at its far end makes them parallel conductors again", () => {
  const both = "fuse: [125 A at SW1, 125 A at BP]";
  const guarded = two(`length: 0.4 m, wire: 35 mm², ${both}`, `length: 6 m, wire: 35 mm², ${both}`);
  assert.equal(saidOf(guarded, RULE, "circuits.W02"), "two feeders, each with a device at both its ends");
  const open = two(`length: 0.4 m, wire: 35 mm², ${both}`, "length: 6 m, wire: 35 mm², fuse: 125 A at SW1");
  assert.equal(saidOf(open, RULE, "circuits.W02"), "fail");
});

test("equal conductors on one circuit are taken at their word", () => {
  const said = judgePlain("circuits:\n  W02: { path: SW1 → BP, length: 0.4 m, parallel: 2 }");
  assert.equal(saidOf(said, RULE, "circuits.W02"), "pass");
});

test("wires that start at one part and end at different ones are no parallel conductors", () => {
  assert.equal(saidOf(judgePlain(""), RULE, "circuits.W10"), "no other conductor lies parallel to it");
});
