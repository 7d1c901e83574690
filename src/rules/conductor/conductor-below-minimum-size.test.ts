import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/conductor-below-minimum-size";
const lamp = (circuit: string, load = "kind: light, running: 0.5 A", set = "us-small-craft") =>
  saidOf(
    judgePlain(
      `rules: { DC: ${set} }\nparts:\n  lamp: { ${load} }\ncircuits:\n  W10: { path: PNL:1 → lamp, ${circuit} }`,
    ),
    RULE,
    "circuits.W10",
  );

test("18 AWG is right in a duplex, as a tail, and to electronics of less than an ampere; by itself it is not", () => {
  assert.equal(lamp("length: 4 m, wire: 18 AWG"), "fail");
  assert.equal(lamp("length: 4 m, wire: 18 AWG, sheathed: yes"), "pass");
  assert.equal(lamp("length: 15 cm, wire: 18 AWG"), "pass");
  assert.equal(lamp("length: 4 m, wire: 18 AWG", "kind: electronics, running: 0.5 A"), "pass");
  assert.equal(lamp("length: 4 m, wire: 18 AWG", "kind: electronics, running: 1.5 A"), "fail");
});

test("a piece of 15 cm has no least size under the international set", () => {
  assert.equal(
    lamp("length: 15 cm, wire: 0.5 mm²", undefined, "iso-small-craft"),
    "the set names no least size for so short a piece",
  );
});

test("sizes of another system are compared by resistance: 16 AWG is no thinner than 1 mm²", () => {
  assert.equal(lamp("length: 4 m, wire: 16 AWG", undefined, "iso-small-craft"), "pass");
  assert.equal(lamp("length: 4 m, wire: 18 AWG", undefined, "iso-small-craft"), "fail");
});

test("of what was found no sheath is assumed, and none is assumed away", () => {
  const found = "length: 4 m, wire: 0.75 mm², as found: yes, breaker: 5 A at PNL";
  assert.equal(lamp(found, undefined, "iso-small-craft"), "cannot tell");
  assert.equal(lamp(`${found}, sheathed: no`, undefined, "iso-small-craft"), "fail");
  assert.equal(lamp(found.replace("0.75", "0.5"), undefined, "iso-small-craft"), "fail");
  assert.equal(lamp(found.replace("0.75", "1"), undefined, "iso-small-craft"), "pass");
});

test("an unknown length decides where a short piece would be right", () => {
  const compiled = judgePlain("circuits:\n  W10: { path: PNL:1 → lamp, length: unknown, wire: 0.75 mm² }");
  const finding = compiled.judgement.findings.find((f) => f.rule === RULE);
  assert.deepEqual(finding?.needs, [{ fact: "its length", about: "circuits.W10" }]);
});
