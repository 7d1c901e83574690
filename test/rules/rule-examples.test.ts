import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, test } from "vitest";
import { compile, type Compiled } from "../../src/compile.ts";
import { rules } from "../../src/rules/index.ts";
import { ruleSets } from "../../src/ruleset/index.ts";
import { layOver } from "./lay-over.ts";
import { examplesOf } from "../../src/rules/rule.ts";

/**
 * Every rule brings plans that are right and plans that are wrong. Laid over the plain boat, what is right must stay without a finding, and
 * what is wrong must be found by that rule, in that thing, in those words, by that rule nowhere else.
 */
const plain = readFileSync(new URL("plain-boat.yaml", import.meta.url), "utf8");

const found = ({ judgement }: Compiled): string[] =>
  judgement.findings.map((f) => `${f.rule} ${f.about}: ${f.outcome}: ${f.because}`);
const errors = ({ diagnostics }: Compiled): string[] =>
  diagnostics.filter((d) => d.level === "error" || d.level === "warning").map((d) => `${d.about}: ${d.message}`);

/** A message with figures in the place of its braces. */
const pattern = (message: string): RegExp =>
  new RegExp(`^${message.replace(/[.*+?^$()|[\]\\]/g, "\\$&").replace(/\{\w+\}/g, "[^{}]+")}$`);

test("the plain boat has no findings", () => {
  const compiled = compile(plain);
  assert.deepEqual(errors(compiled), []);
  assert.deepEqual(found(compiled), []);
});

for (const rule of rules) {
  describe(rule.id, () => {
    test("is a fault by its name, and knows its sets", () => {
      assert.match(rule.id, /^(?:conductor|cable|label|protection|battery|charging|ac|return|record)\/[a-z0-9-]+$/);
      assert.match(rule.title, /^[A-Z][^.]*[^.]$/);
      const named = [
        ...(typeof rule.severity === "string" ? [] : Object.keys(rule.severity.sets)),
        ...rule.sources.flatMap((s) => s.sets ?? []),
      ];
      for (const set of named)
        assert.ok(
          ruleSets.some((s) => s.id === set),
          set,
        );
      assert.ok(examplesOf(rule).good.length > 0 && examplesOf(rule).bad.length > 0, "good and bad examples");
    });
    for (const good of examplesOf(rule).good) {
      test(`stays silent: ${good.says}`, () => {
        const compiled = compile(layOver(plain, good.plan));
        assert.deepEqual(
          errors(compiled).filter((e) => !e.startsWith("systems")),
          [],
        );
        assert.deepEqual(
          found(compiled).filter((f) => f.startsWith(`${rule.id} `)),
          [],
        );
      });
    }
    for (const bad of examplesOf(rule).bad) {
      test(`finds: ${bad.says}`, () => {
        const compiled = compile(layOver(plain, bad.plan));
        const own = compiled.judgement.findings.filter((f) => f.rule === rule.id);
        assert.deepEqual(
          own.map((f) => `${f.about} ${f.outcome}`),
          [`${bad.about} ${bad.fails === "cannot tell" ? "cannot tell" : "fail"}`],
        );
        const because = own[0]?.because ?? "";
        assert.doesNotMatch(because, /\{\w+\}/);
        if (bad.fails !== "cannot tell") assert.match(because, pattern(rule.messages[bad.fails] ?? "no such message"));
      });
    }
  });
}
