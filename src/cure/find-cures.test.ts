import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "vitest";
import { compile, createMemory } from "../compile.ts";
import { mutate } from "../../test/fixtures/mutate.ts";
import { applyEdits } from "../plan/text/index.ts";
import type { Finding } from "../rules/index.ts";
import type { Cure, CureSearch, FindingName } from "./cure.ts";
import { findCures, searchCures } from "./find-cures.ts";

const example = (name: string): string => readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");
const sloop = example("sloop");
const audit = example("sloop-audit");
const pump = { rule: "battery/switched-off-always-on-load", about: "parts.bilge pump" };

function curesIn(search: CureSearch): readonly Cure[] {
  assert.ok(search.is !== "not searched", JSON.stringify(search));
  return search.cures;
}

/** Lines that one text has and the other has not. */
function changedLines(before: string, after: string): { gone: string[]; come: string[] } {
  const [a, b] = [before.split("\n"), after.split("\n")];
  return { gone: a.filter((l) => !b.includes(l)), come: b.filter((l) => !a.includes(l)) };
}

test("a bilge pump behind the main switch is fed from ahead of it, and its comment stays", () => {
  const [cure] = curesIn(findCures(sloop, pump, compile));
  assert.ok(cure !== undefined);
  assert.deepEqual(cure.moves, ["ahead-of-switch"]);
  assert.equal(cure.lines, 1);
  assert.deepEqual(changedLines(sloop, cure.text), {
    gone: [
      "  W18: { path: BP → bilge pump, length: 3.4 m, zone: bilge }   # always on, yet behind SW1: a fault left in on purpose",
    ],
    come: [
      "  W18: { path: SW1:in → bilge pump, length: 3.4 m, zone: bilge }   # always on, yet behind SW1: a fault left in on purpose",
    ],
  });
  assert.ok(cure.clears.some((f) => f.rule === pump.rule && f.about === pump.about));
  const [change] = cure.changes;
  assert.match(change?.now ?? "", /^BP → bilge pump/);
  assert.match(change?.then ?? "", /^SW1:in → bilge pump.* fuse .* at SW1$/);
});

test("a found wire that is too thin is replaced, since that is the cure; nothing else that is pinned is touched", () => {
  const [cure] = curesIn(findCures(audit, { rule: "conductor/excess-voltage-drop", about: "circuits.W12" }, compile));
  assert.ok(cure !== undefined);
  assert.deepEqual(cure.edits, [{ do: "set", path: ["circuits", "W12", "wire"], value: "50 mm²" }]);
  assert.equal(cure.touchesPinned, false);
  // 8.8 m at most, out and back, from 25 to 50 mm².
  assert.equal(cure.addedMm2M, 440);
  assert.equal(changedLines(audit, cure.text).come.length, 1);
});

const isOpen = (f: Finding): boolean => f.waived === null || f.waived.lapsed !== null;
const name = (f: FindingName): string => `${f.outcome} ${f.severity} ${f.rule} ${f.about}`;
const without = (some: readonly Finding[], others: readonly Finding[]): string[] => {
  const there = new Set(others.map((f) => `${name(f)} ${isOpen(f)}`));
  return some.filter((f) => !there.has(`${name(f)} ${isOpen(f)}`)).map(name);
};

/** Searches of the audit, by what they are for: what two tests ask about is searched once. */
const searches = new Map<string, CureSearch>();
const auditCompiled = compile(audit);
function searchAudit(finding: Finding): CureSearch {
  const key = `${finding.rule} ${finding.about}`;
  const search =
    searches.get(key) ?? findCures(audit, finding, compile, { memory: createMemory(), compiled: auditCompiled });
  searches.set(key, search);
  return search;
}

test("what a cure clears and raises is what is found when it is made and judged anew; its text is what its edits give", () => {
  const before = auditCompiled.judgement.findings;
  const asked = before.filter((f) => f.outcome === "fail" && f.rule !== "record/unknown-fact");
  assert.ok(asked.length > 8);
  let cures = 0;
  for (const finding of asked) {
    const found = searchAudit(finding);
    for (const cure of curesIn(found)) {
      cures++;
      const after = compile(cure.text);
      assert.equal(applyEdits(audit, cure.edits).value.text, cure.text);
      assert.deepEqual(cure.clears.map(name), without(before, after.judgement.findings));
      assert.deepEqual(cure.raises.map(name), without(after.judgement.findings.filter(isOpen), before));
      const stays = after.judgement.findings.some((f) => f.rule === finding.rule && f.about === finding.about);
      assert.ok(!stays, `${finding.rule} of ${finding.about} is gone`);
      const { gone, come } = changedLines(audit, cure.text);
      assert.equal(Math.max(gone.length, come.length), cure.lines, "no more lines change than are said to");
      for (const line of gone) {
        const comment = /\s+# .*$/.exec(line)?.[0];
        if (comment !== undefined && come.length >= gone.length)
          assert.ok(
            come.some((l) => l.endsWith(comment)),
            `its comment stays: ${comment}`,
          );
      }
    }
    assert.deepEqual(
      [...curesIn(found)].sort(
        (a, b) => musts(a) - musts(b) || fails(a) - fails(b) || a.lines - b.lines || a.addedMm2M - b.addedMm2M,
      ),
      curesIn(found),
      "fewest new musts, fewest new fails, fewest lines, least copper",
    );
  }
  assert.ok(cures > 8, `${cures} cures`);
}, 120_000);

const fails = ({ raises }: Cure): number => raises.filter((f) => f.outcome === "fail").length;
const musts = ({ raises }: Cure): number => raises.filter((f) => f.outcome === "fail" && f.severity === "must").length;

test("the same plan gives the same cures, with each plan read and judged anew as with a memory", () => {
  const fails = auditCompiled.judgement.findings.filter(
    (f) => f.outcome === "fail" && f.rule !== "record/unknown-fact",
  );
  assert.ok(fails.length > 4);
  for (const finding of fails) {
    const again = findCures(audit, finding, (text, _memory, options) => compile(text, createMemory(), options));
    assert.deepEqual(again, searchAudit(finding));
  }
}, 120_000);

test("a circuit that is pinned or found changes only where the finding is about it, or where the cure says so", () => {
  const { findings } = auditCompiled.judgement;
  for (const finding of findings.filter((f) => f.outcome === "fail" && f.about.startsWith("circuits."))) {
    for (const cure of curesIn(searchAudit(finding))) {
      const own = finding.about.replace(/^circuits\.|\.(?:from|to)$/g, "");
      const others = cure.edits.filter(({ path }) => path[0] === "circuits" && path[1] !== own);
      // Every circuit of this plan is as found.
      assert.equal(others.length > 0, cure.touchesPinned, `${finding.rule} of ${finding.about}`);
    }
  }
}, 120_000);

test("what cannot be told is not searched, nor what is not there; what no change cures says so", () => {
  const { findings } = compile(audit).judgement;
  const unsure = findings.find((f) => f.outcome === "cannot tell");
  assert.ok(unsure !== undefined);
  const untold = findCures(audit, unsure, compile);
  assert.ok(untold.is === "not searched");
  assert.match(untold.why, /is not known$/);
  assert.equal(findCures(audit, { rule: "no/such-rule", about: "plan" }, compile).is, "not searched");
  const unknown = findings.find((f) => f.rule === "record/unknown-fact");
  assert.ok(unknown !== undefined);
  const none = findCures(audit, unknown, compile);
  assert.ok(none.is === "none" && none.tried === 0 && none.complete && none.why !== "");
});

test("the search keeps to its bound, and ends when it is told to", () => {
  const hard = { rule: "protection/unprotected-conductor", about: "circuits.W02" };
  const all = findCures(audit, hard, compile);
  assert.ok(all.is !== "not searched" && all.complete && all.tried > 3);
  let compiled = 0;
  const counting: typeof compile = (...given) => {
    compiled++;
    return compile(...given);
  };
  const bounded = findCures(audit, hard, counting, { most: 2 });
  assert.ok(bounded.is !== "not searched" && !bounded.complete);
  assert.ok(compiled <= 3, "the plan itself and two more");
  let asked = 0;
  const stopped = findCures(audit, hard, compile, { isCancelled: () => ++asked > 3 });
  assert.ok(stopped.is !== "not searched" && !stopped.complete && stopped.tried === 3);
  const steps = searchCures(audit, hard, compile);
  assert.deepEqual(steps.next(), { value: 1, done: false });
});

test("a plan that can hardly be read gets an answer", () => {
  for (const text of [
    "",
    "circuits:\n  W1: { path: A → B }\n",
    "parts: [\n",
    "wireworthy: 1\nparts:\n  B1: { kind: battery }\n",
  ]) {
    for (const f of compile(text).judgement.findings) findCures(text, f, compile);
    assert.equal(findCures(text, pump, compile).is, "not searched");
  }
});

test("whatever is damaged in a plan, the search gives an answer", () => {
  for (let seed = 1; seed <= 24; seed++) {
    const text = mutate(audit, seed);
    const memory = createMemory();
    const compiled = compile(text, memory);
    const fails = compiled.judgement.findings.filter((f) => f.outcome === "fail");
    for (const finding of [fails[seed % 5], fails.at(-1)]) {
      if (finding === undefined) continue;
      const found = findCures(text, finding, compile, { memory, compiled, most: 4 });
      for (const cure of found.is === "edits" ? found.cures : []) {
        assert.equal(applyEdits(text, cure.edits).value.text, cure.text);
      }
    }
  }
}, 60_000);
