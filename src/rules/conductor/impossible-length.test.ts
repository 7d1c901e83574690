import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain } from "../../../test/rules/judge-plain.ts";

const RULE = "conductor/impossible-length";
const run = (x: string, length: string) => {
  const { judgement } = judgePlain(
    `parts:\n  PNL: { kind: panel, ways: 12, device: breaker, negative bar: yes, at: [0 m, 0 m, 0 m] }\n  lamp: { kind: light, running: 2 A, at: [${x}, 0 m, 0 m] }\ncircuits:\n  W10: { path: PNL:1 → lamp, ${length} }`,
  );
  const finding = judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W10");
  if (finding !== undefined) return `${finding.severity} ${finding.outcome}`;
  return judgement.passes.some((p) => p.rule === RULE && p.about === "circuits.W10") ? "pass" : "silent";
};

test("2.6 times the straight line round a mast step is right where its legs are drawn, and is no question yet where not", () => {
  assert.equal(run("5 m", "legs: [13 m]"), "pass");
  assert.equal(run("5 m", "length: 13 m"), "pass");
  assert.equal(run("5 m", "length: 16 m"), "note fail");
  assert.equal(run("5 m", "legs: [16 m]"), "pass");
});

test("near its source a run is judged by the metres beyond the straight line, not by their ratio", () => {
  assert.equal(run("0.2 m", "length: 0.9 m"), "pass");
  assert.equal(run("0 m", "length: 0.4 m"), "pass");
  assert.equal(run("0.3 m", "length: 4 m"), "pass");
  assert.equal(run("0.3 m", "length: 6 m"), "note fail");
});

test("where a ratio begins to count, the two ways of judging meet", () => {
  for (const x of ["1.99 m", "2.01 m"]) {
    assert.equal(run(x, "length: 5.9 m"), "pass");
    assert.equal(run(x, "length: 6.1 m"), "note fail");
  }
});

test("shorter than the straight line is wrong even with legs; a hand's breadth is measuring error", () => {
  assert.equal(run("1 m", "length: 0.96 m"), "pass");
  assert.equal(run("1 m", "length: 0.9 m"), "should fail");
  assert.equal(run("5 m", "legs: [4 m]"), "should fail");
});

test("a range of lengths is tried at both ends", () => {
  assert.equal(run("5 m", "length: 3…4 m"), "should fail");
  assert.equal(run("5 m", "length: 4…6 m"), "should cannot tell");
  assert.equal(run("5 m", "length: 5.6…6 m"), "pass");
  assert.equal(run("5 m", "length: unknown"), "silent");
});
