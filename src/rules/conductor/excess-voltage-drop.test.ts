import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/excess-voltage-drop";
const pump = (set: string, wire: string) =>
  judgePlain(
    `rules: { DC: ${set} }\nparts:\n  lamp: { kind: bilge pump, running: 5 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 5.6 m, wire: ${wire} }`,
  );

test("8 % to a bilge pump is right under the American set and wrong under the international one", () => {
  const american = pump("us-small-craft", "14 AWG");
  assert.equal(saidOf(american, RULE, "circuits.W10"), "pass");
  const share =
    american.judgement.passes.find((p) => p.rule === RULE && p.about === "circuits.W10")?.measured ?? undefined;
  assert.ok(share !== undefined && share > 0.05, `${share}`);
  assert.equal(saidOf(pump("iso-small-craft", "14 AWG"), RULE, "circuits.W10"), "fail");
});

test("in an American cabin the drop is advice: 7 % on a branch is no fault, and more than a tenth is a note", () => {
  const said = (wire: string) =>
    judgePlain(`rules: { DC: us-cabin }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 30 m, wire: ${wire} }`);
  assert.equal(saidOf(said("12 AWG"), RULE, "circuits.W10"), "pass");
  const more = said("14 AWG").judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");
  assert.deepEqual([more?.outcome, more?.severity], ["fail", "note"]);
});

test("a hut on its own supply may lose 8 %, and 6 % to its lights", () => {
  const hut = (load: string) =>
    saidOf(
      judgePlain(
        `rules: { DC: iec-cabin }\nparts:\n  lamp: { ${load} }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 13 m, wire: 1.5 mm² }`,
      ),
      RULE,
      "circuits.W10",
    );
  assert.equal(hut("kind: load, running: 2 A"), "pass");
  assert.equal(hut("kind: light, running: 2 A"), "fail");
});

const light = (length: string, more = "") =>
  judgePlain(
    `parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 5 A${more} }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: ${length}, wire: 1.5 mm² }`,
  );

test("a range of lengths passes or fails where both its ends do, and else cannot be told", () => {
  assert.equal(saidOf(light("2…3 m"), RULE, "circuits.W10"), "pass");
  assert.equal(saidOf(light("30…31 m"), RULE, "circuits.W10"), "fail");
  const between = light("3…30 m");
  assert.equal(saidOf(between, RULE, "circuits.W10"), "cannot tell");
  const finding = between.judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");
  assert.deepEqual(finding?.needs, [{ fact: "its length", about: "circuits.W10" }]);
});

test("an unknown length fails where even the straight line loses too much, and else cannot be told", () => {
  assert.equal(saidOf(light("unknown", ", at: [2 m, 0 m, 0 m]"), RULE, "circuits.W10"), "cannot tell");
  assert.equal(saidOf(light("unknown", ", at: [40 m, 0 m, 0 m]"), RULE, "circuits.W10"), "fail");
});

test("an unknown length of the feeder leaves its branches open", () => {
  const said = judgePlain(
    "circuits:\n  W04: { path: BP → PNL, length: unknown, demand: 30 A, wire: 16 mm², as found: yes, fuse: 60 A at BP }",
  );
  const finding = said.judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W11");
  assert.deepEqual(finding?.needs, [{ fact: "the length of W04", about: "circuits.W04" }]);
});

test("what a load takes decides, and is named where nobody knows it", () => {
  const said = judgePlain("parts:\n  lamp: { kind: light, running: unknown }");
  const finding = said.judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");
  assert.deepEqual(finding?.needs, [{ fact: "what lamp takes", about: "parts.lamp" }]);
});

test("a limit that the plan sets itself is an advice", () => {
  const said = judgePlain(
    "parts:\n  lamp: { kind: light, running: 5 A }\ncircuits:\n  W10: { path: PNL:1 → lamp, length: 5 m, wire: 1.5 mm², drop: 2 % }",
  );
  const finding = said.judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");
  assert.equal(finding?.severity, "should");
  assert.equal(finding.clause, null);
});
