import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/solid-wire-where-it-moves";
const wire = (set: string, more: string) =>
  judgePlain(
    `rules: { DC: ${set} }\nzones:\n  door: { kind: moving }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 2.5 mm², ${more} }`,
  );
const finding = (set: string, more: string) =>
  wire(set, more).judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");

test("solid wire is right in a cabin that stands still, and noted where it bends", () => {
  for (const set of ["us-cabin", "iec-cabin"]) {
    assert.equal(saidOf(wire(set, "strands: solid"), RULE, "circuits.W10"), "fixed wiring of a building may be solid");
    assert.equal(finding(set, "strands: solid, zone: door")?.severity, "note");
  }
});

test("solid wire is wrong in whatever moves, as gravely as the set says", () => {
  const severities = [
    ["us-small-craft", "must"],
    ["iso-small-craft", "must"],
    ["us-rv", "must"],
    ["iec-caravan", "must"],
    ["au-nz-vehicle", "must"],
    ["vehicle-practice", "should"],
  ] as const;
  for (const [set, severity] of severities) assert.equal(finding(set, "strands: solid")?.severity, severity, set);
});

test("boat cable of type 2 is right where it is fixed and too stiff where it bends", () => {
  assert.equal(saidOf(wire("us-small-craft", "strands: type 2"), RULE, "circuits.W10"), "pass");
  assert.equal(finding("us-small-craft", "strands: type 2, zone: door")?.outcome, "fail");
  assert.equal(saidOf(wire("us-small-craft", "strands: type 3, zone: door"), RULE, "circuits.W10"), "pass");
});

test("without a rule set solid wire cannot be told", () => {
  const said = judgePlain("rules: {}\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, strands: solid }");
  assert.equal(saidOf(said, RULE, "circuits.W10"), "cannot tell");
});
