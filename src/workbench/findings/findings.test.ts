import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { compile } from "../../compile.ts";
import { findCures } from "../../cure/index.ts";
import type { Finding } from "../../rules/index.ts";
import type { Units } from "../contract.ts";
import { changesOf, effectOf } from "./cure-words.ts";
import { becauseOf, clauseText, countFindings, countPasses, figuresOf, lineOf, placeName } from "./finding-words.ts";
import { groupFindings, groupings } from "./group-findings.ts";

const units: Units = { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." };
const text = readFileSync("examples/sloop-audit.yaml", "utf8");
const { findings, tally } = compile(text).judgement;

describe("groups of findings", () => {
  test("every grouping holds each open finding once", () => {
    const open = findings.filter((f) => f.waived === null || f.waived.lapsed !== null);
    for (const by of groupings) {
      const all = groupFindings(findings, by).flatMap((g) => g.findings);
      assert.equal(all.length, open.length, by);
      assert.equal(new Set(all).size, all.length, by);
    }
  });
  test("no group stands before one with a graver finding", () => {
    const rank = (f: Finding): number =>
      f.outcome === "cannot tell" ? 2 : ["must", "should", "", "note"].indexOf(f.severity);
    for (const by of groupings) {
      const firsts = groupFindings(findings, by).map(({ findings: [first] }) =>
        first === undefined ? 9 : rank(first),
      );
      assert.deepEqual(
        firsts,
        [...firsts].sort((a, b) => a - b),
        by,
      );
    }
  });
  test("what warns of the same stands together", () => {
    const groups = groupFindings(findings, "consequence");
    assert.ok(groups.length > 1);
    for (const g of groups) assert.deepEqual([...new Set(g.findings.map((f) => f.danger))], [g.title]);
  });
});

describe("a finding in words", () => {
  const [some] = findings;
  assert.ok(some !== undefined);
  const finding = (change: Partial<Finding>): Finding => ({ ...some, ...change });
  test("measured against limit, and by how much", () => {
    const far = finding({ measured: { value: 0.31, unit: "m" }, limit: { value: 0.178, unit: "m" }, margin: -0.74 });
    assert.deepEqual(figuresOf(far, units), { measured: "310 mm", limit: "178 mm", margin: "over by 132 mm" });
    const low = finding({ measured: { value: 11.2, unit: "V" }, limit: { value: 11.5, unit: "V" }, margin: -0.026 });
    assert.deepEqual(figuresOf(low, { ...units, decimal: "," }), {
      measured: "11,20 V",
      limit: "11,50 V",
      margin: "short by 0,30 V",
    });
    assert.equal(figuresOf(finding({ measured: null, limit: null }), units), null);
  });
  test("places are called as people call them", () => {
    assert.equal(placeName("circuits.W13.from"), "start of W13");
    assert.equal(placeName("parts.bilge pump"), "bilge pump");
    assert.equal(placeName("plan"), "the plan");
  });
  test("practice is no document", () => {
    const cited = finding({
      clause: {
        id: "trade-practice",
        document: "practice of the trade",
        edition: "",
        clause: "ahead of the switch",
        trust: "practice",
      },
      trust: "practice",
    });
    assert.equal(clauseText(cited), "ahead of the switch, common practice");
  });
  test("other states are named, not all of them", () => {
    const states = ["a", "b", "c", "d", "e", "f", "g"];
    assert.equal(
      becauseOf(finding({ because: "x has 1.5 V", alsoIn: states }), units),
      "x has 1.5 V; also a, b, c and 4 more states.",
    );
  });
  test("each finding with a place has a line of the plan", () => {
    const lines = text.split("\n").length;
    for (const f of findings) {
      const line = lineOf(text, f);
      if (f.at.length > 0) assert.ok(line !== null && line >= 1 && line <= lines, f.rule);
    }
  });
  test("counts are words", () => {
    const none = {
      ...tally,
      must: 0,
      should: 0,
      note: 0,
      cannotTell: 0,
      waived: 0,
      pass: 212,
      thin: 0,
      notApplicable: 1,
    };
    assert.equal(countFindings(none), "No rule fails");
    assert.equal(
      countFindings({ ...none, must: 2, should: 1, note: 3, cannotTell: 4 }),
      "2 must, 1 should and 3 note fail; 4 cannot be told",
    );
    assert.equal(countFindings({ ...none, must: 1, waived: 1 }), "1 must fails; 1 waived");
    assert.equal(countPasses(none), "212 pass; 1 does not apply");
  });
});

test("a cure says now and then, what it clears and what it raises", () => {
  const sloop = readFileSync("examples/sloop.yaml", "utf8");
  const key = { rule: "battery/switched-off-always-on-load", about: "parts.bilge pump" };
  const search = findCures(sloop, key, compile);
  assert.ok(search.is === "edits");
  const [first] = search.cures;
  assert.ok(first !== undefined);
  const rows = changesOf(first, [], units);
  assert.equal(rows[0]?.name, "W18");
  assert.ok(rows.every((r) => r.now !== r.then));
  assert.match(effectOf(first, key, units), /^Clears this, raises none\. [\d.]+ mm²·m (?:more|less) copper\.$/);
  const raising = {
    ...first,
    addedMm2M: 0,
    raises: [{ rule: "x/y", about: "circuits.W1", outcome: "fail", severity: "should", title: "Lug too small" }],
  } as const;
  assert.equal(effectOf(raising, key, units), "Clears this, raises 1: lug too small of W1 (should). No copper more.");
});
