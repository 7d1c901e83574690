import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile } from "../../src/compile.ts";
import { explainWhy } from "../../src/why/index.ts";

const sloop = compile(readFileSync(join(import.meta.dirname, "../../examples/sloop.yaml"), "utf8"));
const { passes, notApplicable } = sloop.judgement;

test("a rule that passed is told with the figures that it compared, and one that compares none says so", () => {
  const measured = passes.find((p) => p.rule === "protection/oversized-device" && p.about === "circuits.W12");
  assert.ok(measured?.measured != null && measured.limit !== null && measured.margin !== null);
  const told = explainWhy(sloop, "protection/oversized-device W12");
  assert.ok(told.ok);
  const of = (name: string): unknown => told.explanation.figures.find((f) => f.name === name)?.value;
  assert.deepEqual([of("measured"), of("limit"), of("margin")], [measured.measured, measured.limit, measured.margin]);
  assert.match(told.explanation.answer, /^It passes at W12: \d+ A against \d+ A, [\d.]+ % of the limit to spare/);
  const bare = explainWhy(sloop, "return/missing-dc-ac-bond");
  assert.ok(bare.ok);
  assert.equal(bare.explanation.answer, "It passes at systems.AC; it compares no figures.");
});

test("a rule that does not apply says why", () => {
  const silent = notApplicable.find((n) => n.about.some((a) => a.startsWith("circuits.")));
  const about = silent?.about.find((a) => /^circuits\.\w+$/.test(a)) ?? "";
  const told = explainWhy(sloop, `${silent?.rule ?? ""} ${about}`);
  assert.ok(told.ok);
  assert.ok(told.explanation.answer.includes(silent?.reason ?? "?"), told.explanation.answer);
});

test("a rule alone tells all its things, and one that is asked about another says of what it speaks", () => {
  const all = explainWhy(sloop, "protection/oversized-device");
  assert.ok(all.ok);
  const own = passes.filter((p) => p.rule === "protection/oversized-device");
  const section = all.explanation.sections.find((s) => s.title === "Where it passes");
  assert.equal(section?.steps.length, own.length);
  const other = explainWhy(sloop, "protection/oversized-device nothing of that name");
  assert.ok(!other.ok);
  assert.match(other.hint, /^it speaks of W01, /);
});

test("what is asked of shorts in a circuit of alternating current leads to where they are told", () => {
  const id = sloop.system.circuits.find((c) => c.current === "AC")?.id ?? "";
  for (const topic of ["fault", "selectivity"]) {
    const told = explainWhy(sloop, `${id}.${topic}`);
    assert.ok(told.ok);
    assert.ok(told.explanation.answer.includes(`\`${id}.loop\``), told.explanation.answer);
    assert.ok(explainWhy(sloop, `${id}.loop`).ok);
  }
});
