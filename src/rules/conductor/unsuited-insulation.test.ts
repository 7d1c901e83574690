import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/unsuited-insulation";
const wire = (more: string, set = "iso-small-craft") =>
  saidOf(
    judgePlain(
      `rules: { DC: ${set} }\nzones:\n  deck: { kind: [outside, sun] }\n  engine space: { kind: engine, fuel: diesel, ambient: 50 °C }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ${more} }`,
    ),
    RULE,
    "circuits.W10",
  );

test("in an engine space the sets ask for different ratings", () => {
  assert.equal(wire("wire: 2.5 mm², zone: engine space, insulation: 70 °C"), "pass");
  assert.equal(wire("wire: 14 AWG, zone: engine space, insulation: 70 °C", "us-small-craft"), "fail");
  assert.equal(wire("wire: 14 AWG, zone: engine space, insulation: 75 °C", "us-small-craft"), "pass");
});

test("an unknown rating is told where the poorest on sale is enough", () => {
  assert.equal(wire("wire: 2.5 mm², insulation: unknown"), "pass");
  assert.equal(wire("wire: 2.5 mm², zone: engine space, insulation: unknown"), "cannot tell");
  assert.equal(wire("wire: 2.5 mm², zone: deck, insulation: unknown"), "cannot tell");
});

test("fitness is judged where the plan states it, and only of wires that are there already", () => {
  assert.equal(wire("wire: 2.5 mm², zone: deck"), "pass");
  assert.equal(wire("wire: 2.5 mm², zone: deck, fit for: sun"), "fail");
  assert.equal(wire("wire: 2.5 mm², zone: deck, fit for: unknown"), "cannot tell");
  assert.equal(wire("zone: deck, fit for: sun"), "pass");
  assert.equal(wire("wire: 2.5 mm², zone: engine space, fit for: oil"), "pass");
});
