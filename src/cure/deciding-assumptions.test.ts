import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { rules, rulesOnDemand } from "../rules/index.ts";
import { layOver } from "../../test/rules/lay-over.ts";
import { findDecidingAssumptions } from "./deciding-assumptions.ts";
import { examplesOf } from "../rules/rule.ts";

const plain = readFileSync(new URL("../../test/rules/plain-boat.yaml", import.meta.url), "utf8");
const sloop = readFileSync(new URL("../../examples/sloop.yaml", import.meta.url), "utf8");

const [rule] = rulesOnDemand;

test("the rule's own examples are found, and what is pinned is not", () => {
  assert.ok(rule !== undefined && !rules.includes(rule));
  for (const { plan, about } of examplesOf(rule).bad) {
    const { findings } = findDecidingAssumptions(layOver(plain, plan), compile);
    const own = findings.find((f) => f.about === about);
    assert.ok(own?.outcome === "fail" && own.severity === "should" && own.rule === rule.id);
    assert.doesNotMatch(own.because, /\{\w+\}/);
    assert.ok(own.at.length > 0);
  }
  for (const { plan } of examplesOf(rule).good) {
    const { findings } = findDecidingAssumptions(layOver(plain, plan), compile);
    assert.ok(findings.every((f) => f.about !== "assumptions.lowest-charge"));
  }
});

test("pinned to what was said to decide, the plan comes out so; pinned to its own value, it stays as it was", () => {
  const before = compile(sloop).design.circuits.map((c) => c.size?.label);
  const { findings } = findDecidingAssumptions(sloop, compile);
  const contact = findings.find((f) => f.about === "assumptions.contact-resistance");
  const [, circuit = "", size = ""] = /with 1 mΩ (W\d+) takes (\S+ mm²) instead/.exec(contact?.because ?? "") ?? [];
  assert.notEqual(circuit, "", contact?.because);
  const pinned = (text: string): string =>
    sloop.replace("name: main switch, rated", `resistance: ${text}, name: main switch, rated`);
  const after = compile(pinned("1 mΩ")).design.circuits;
  assert.equal(after.find((c) => c.id === circuit)?.size?.label, size);
  assert.deepEqual(
    compile(pinned("0.2 mΩ")).design.circuits.map((c) => c.size?.label),
    before,
  );
});

test("every default of the plan is moved, or named as one that is not", () => {
  const found = findDecidingAssumptions(sloop, compile);
  const told = [...found.findings.map((f) => f.about.replace("assumptions.", "")), ...found.idle, ...found.notVaried];
  assert.deepEqual(
    told.sort(),
    compile(sloop)
      .design.assumptions.map((a) => a.id)
      .sort(),
  );
  assert.ok(found.complete && found.tried >= found.idle.length);
});

test("a waiver names an assumption as any other thing", () => {
  const text = `${sloop}\nwaivers:\n  record/deciding-assumption start-time: { reason: starts are short here, by: owner, until: 2099-01-01 }\n`;
  const { findings } = findDecidingAssumptions(text, compile);
  const own = findings.find((f) => f.about === "assumptions.start-time");
  assert.equal(own?.waived?.reason, "starts are short here");
  assert.deepEqual(
    compile(text).diagnostics.filter((d) => d.id.startsWith("rules/")),
    [],
  );
});

test("the search keeps to its bound, and ends when it is told to", () => {
  const bounded = findDecidingAssumptions(sloop, compile, { most: 3 });
  assert.ok(!bounded.complete && bounded.tried === 3);
  assert.equal(findDecidingAssumptions(sloop, compile, { isCancelled: () => true }).tried, 0);
});
