import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, test } from "vitest";
import { compile } from "../../../src/compile.ts";
import { readPlan } from "../../../src/plan/index.ts";
import { rules, rulesOnDemand, type Finding } from "../../../src/rules/index.ts";
import { studySwitching } from "../../../src/switching/index.ts";
import { kinds, resolveSystem } from "../../../src/system/index.ts";
import { actionsTold } from "./actions-told.ts";
import { baseText, bases, mutants, mutantText, rulings, waiting } from "./planted.ts";
import type { ExpectedFinding, Mutant, Ruling } from "./planted.ts";

/**
 * What the rules on alternating current, on returns and on chargers that feed themselves find in each mutant, held against what was written down before those rules
 * ran: every finding that has to come comes, as grave as it was expected and with as many actions, and nothing is found beside it that its base does not
 * find. Where the two differ, `rulings.yaml` says who is right and why; a ruling that is not needed any more is as wrong as a difference without one.
 */

const there = new Set([...rules, ...rulesOnDemand].map(({ id }) => id));
/** Rules that are there and are not waited for: only they are held against what was expected. */
const ids = new Set([...there].filter((id) => !waiting.includes(id)));
const used = new Set<number>();

const isJudgedHere = ({ rule }: Finding): boolean =>
  ids.has(rule) && (/^(ac|return)\//.test(rule) || rule === "charging/charger-on-its-own-inverter");

const findingsOf = (text: string): Finding[] => compile(text).judgement.findings.filter(isJudgedHere);

const ofBase = new Map<string, readonly Finding[]>();

function baseFindings(name: string): readonly Finding[] {
  const known = ofBase.get(name) ?? findingsOf(baseText(name));
  ofBase.set(name, known);
  return known;
}

const said = ({ rule, outcome, about }: Finding | ExpectedFinding): string => `${rule} ${outcome} ${about}`;

const isOf = (expected: ExpectedFinding, finding: Finding): boolean =>
  finding.rule === expected.rule &&
  finding.outcome === expected.outcome &&
  [expected.about, ...(expected.or ?? [])].includes(finding.about);

/** What somebody has ruled on this difference. */
function rulingOn(mutant: Mutant, is: Ruling["is"], what: string): Ruling | undefined {
  const at = rulings.findIndex(
    (r) => r.is === is && r.what === what && (r.in === undefined || r.in.includes(mutant.name)),
  );
  if (at >= 0) used.add(at);
  return rulings[at];
}

/** Differences for which there is no ruling. */
function unruled(mutant: Mutant): string[] {
  const found = findingsOf(mutantText(mutant));
  const before = new Set(baseFindings(mutant.base).map(said));
  const differs: string[] = [];
  const tell = (is: Ruling["is"], what: string, words: string): void => {
    if (rulingOn(mutant, is, what) === undefined) differs.push(`${is} ${what}${words}`);
  };
  for (const expected of mutant.must) {
    if (!ids.has(expected.rule)) continue;
    const what = said(expected);
    const own = found.filter((finding) => isOf(expected, finding));
    if (own.length === 0) {
      const beside = found.filter(({ rule }) => rule === expected.rule);
      tell("missing", what, beside.map((f) => `; but ${f.outcome} ${f.about}: ${f.because}`).join(""));
      continue;
    }
    for (const { severity } of own)
      if (severity !== expected.severity) tell("severity", what, `: ${severity}, not ${expected.severity}`);
    const { way } = expected;
    if (way === undefined) continue;
    const told = own.map(actionsTold);
    // Nothing is reached for certain where it cannot be told.
    if (told.includes(way.length) || (expected.outcome === "cannot tell" && told.includes(null))) continue;
    const ruled = rulingOn(mutant, "actions", what)?.actions;
    if (ruled === undefined || !told.includes(ruled))
      differs.push(
        `actions ${what}: ${told.join(", ")}, not ${String(way.length)} (${own.map((f) => f.because).join("; ")})`,
      );
  }
  for (const finding of found) {
    if (before.has(said(finding)) || mutant.must.some((expected) => isOf(expected, finding))) continue;
    if (mutant.mayFail?.includes(finding.rule) === true) continue;
    tell("extra", said(finding), ` as a ${finding.severity}: ${finding.because}`);
  }
  return differs;
}

describe("exactly what was expected is found, or there is a ruling", () => {
  for (const name of Object.keys(bases)) {
    test(`${name} has nothing that must be otherwise`, () => {
      const wrong = baseFindings(name).filter(({ severity, outcome }) => severity === "must" && outcome === "fail");
      assert.deepEqual(
        wrong.map((f) => `${said(f)}: ${f.because}`),
        [],
      );
    });
  }
  test("the van of the examples is proven in every position: of alternating current and returns nothing fails, and nothing is left open", () => {
    const text = baseText("whole van");
    assert.equal(text, readFileSync(new URL("../../../examples/van.yaml", import.meta.url), "utf8"));
    const { study } = studySwitching(resolveSystem(readPlan(text, kinds).value, kinds).value);
    assert.equal(study.tooLarge, null);
    assert.ok(study.groups.length > 2 && study.groups.every(({ rests }) => rests));
    assert.deepEqual(baseFindings("whole van").map(said), []);
    const { passes } = compile(text).judgement;
    for (const rule of ["ac/missing-neutral-earth-join", "ac/doubled-neutral-earth-join", "ac/parallel-sources"])
      assert.ok(
        passes.some((pass) => pass.rule === rule),
        rule,
      );
  });
  for (const mutant of mutants) {
    test(mutant.name, () => {
      assert.deepEqual(unruled(mutant), []);
    });
  }
  test("every ruling is needed", () => {
    const idle = rulings.filter(({ what }, i) => !used.has(i) && ids.has(what.split(" ")[0] ?? ""));
    assert.deepEqual(
      idle.map(({ is, what }) => `${is} ${what}`),
      [],
    );
  });
});

test("what is expected of a rule that there is not yet waits for it", () => {
  const missing = new Set(
    mutants.flatMap(({ must }) => must.map(({ rule }) => rule)).filter((rule) => !there.has(rule)),
  );
  const come = waiting.filter((rule) => there.has(rule));
  if (come.length > 0) console.log(`no longer to be waited for: ${come.join(", ")}`);
  assert.deepEqual(
    [...missing].filter((rule) => !waiting.includes(rule)),
    [],
  );
});
