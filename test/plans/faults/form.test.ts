import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../../../src/plan/index.ts";
import { kinds, resolveSystem } from "../../../src/system/index.ts";
import {
  builds,
  planted,
  rulings,
  waiting,
  type ExpectedFigure,
  type ExpectedFinding,
  type PlantedFault,
} from "./planted.ts";

// Only the form of what is expected: edits that fit, plans that can be read, things that the plan names, each with its reason.

const known: Record<string, readonly string[]> = {
  fault: ["name", "edits", "must", "mayFail", "mustNot", "why", "asks"],
  must: ["rule", "about", "or", "outcome", "severity", "figures"],
  figure: ["of", "value", "unit", "within"],
  spoken: ["rule", "about", "why"],
  ruling: ["in", "is", "what", "figures", "because"],
};

function checkKeys(what: string, record: object, said: string): void {
  const extra = Object.keys(record).filter((key) => known[what]?.includes(key) !== true);
  assert.deepEqual(extra, [], `${said}: keys of ${what}`);
}

function checkAbout(about: string, text: string, said: string): void {
  const [section, name, end, more] = about.split(".");
  assert.match(section ?? "", /^(circuits|parts|systems)$/, said);
  assert.ok(end === undefined || /^(from|to)$/.test(end), said);
  assert.equal(more, undefined, said);
  assert.ok(text.includes(`\n  ${String(name)}:`), `${said}: the plan has no ${about}`);
}

function checkExpected(expected: ExpectedFinding, text: string): void {
  const said = `${expected.rule} of ${expected.about}`;
  checkKeys("must", expected, said);
  assert.match(expected.rule, /^[a-z]+\/[a-z-]+$/, said);
  assert.match(expected.outcome, /^(fail|cannot tell)$/, said);
  assert.match(expected.severity, /^(must|should|note)$/, said);
  for (const about of [expected.about, ...(expected.or ?? [])]) checkAbout(about, text, said);
  checkFigures(expected.figures ?? [], said);
}

function checkFigures(figures: readonly ExpectedFigure[], said: string): void {
  for (const figure of figures) {
    checkKeys("figure", figure, said);
    assert.match(figure.of, /^(measured|limit)$/, said);
    assert.ok(Number.isFinite(figure.value), said);
    assert.match(figure.within, /^\d+ %$/, said);
  }
}

function checkFault(fault: PlantedFault, plan: string): string {
  checkKeys("fault", fault, fault.name);
  let text = plan;
  for (const { find, replace } of fault.edits) {
    assert.equal(text.split(find).length - 1, 1, `${fault.name}: found once: ${find}`);
    text = text.replace(find, () => replace);
  }
  assert.ok(fault.must.length >= 1 && fault.must.length <= 3, `${fault.name}: one fault and at most two that follow`);
  for (const expected of fault.must) checkExpected(expected, text);
  for (const spoken of fault.mayFail ?? []) {
    checkKeys("spoken", spoken, fault.name);
    checkAbout(spoken.about, text, fault.name);
  }
  assert.ok(fault.mustNot.length > 0, `${fault.name}: what has to stay silent`);
  const expected = fault.must.map(({ rule }) => rule);
  assert.deepEqual(
    fault.mustNot.filter((rule) => expected.includes(rule)),
    [],
  );
  assert.ok(fault.why.length > 15, fault.name);
  return text;
}

/** Errors that a plan is read with, but for keys that it is known to wait for. */
function errorsOf(text: string, asks: readonly string[]): string[] {
  const plan = readPlan(text, kinds);
  const system = resolveSystem(plan.value, kinds);
  return [...plan.diagnostics, ...system.diagnostics]
    .filter(({ level }) => level === "error")
    .map(({ message }) => message)
    .filter((message) => !asks.some((key) => message.includes(`has no key \`${key}\``)));
}

for (const build of builds) {
  test(`${build.base}: the healthy plan can be read, and what must stay silent speaks of it`, () => {
    assert.deepEqual(errorsOf(build.plan, []), []);
    for (const expected of build.healthy.fails) checkExpected(expected, build.plan);
    for (const spoken of build.healthy.silent) {
      checkKeys("spoken", spoken, build.base);
      checkAbout(spoken.about, build.plan, spoken.rule);
    }
  });
  for (const fault of build.faults) {
    test(`${build.base}, ${fault.name}: the edits fit, the plan can be read, and what is expected speaks of it`, () => {
      checkFault(fault, build.plan);
      assert.deepEqual(errorsOf(planted(build, fault), fault.asks ?? []), []);
    });
  }
}

test("a ruling names what it holds for, and one on a figure says which is right", () => {
  const names = builds.flatMap(({ base, faults }) => [base, ...faults.map(({ name }) => name)]);
  for (const ruling of rulings) {
    checkKeys("ruling", ruling, ruling.what);
    for (const name of ruling.in ?? []) assert.ok(names.includes(name), `${ruling.what}: ${name}`);
    assert.equal((ruling.figures ?? []).length > 0, ruling.is === "figure", ruling.what);
    checkFigures(ruling.figures ?? [], ruling.what);
    assert.ok(ruling.because.length > 15, ruling.what);
  }
});

test("there are at least forty faults, and each bears a name of its own", () => {
  const names = builds.flatMap(({ faults }) => faults.map(({ name }) => name));
  assert.ok(names.length >= 40);
  assert.equal(new Set(names).size, names.length);
});

test("the keys that the plan language does not have yet are those that wait", () => {
  const lacking = builds.flatMap((build) =>
    build.faults.flatMap((fault) =>
      (fault.asks ?? [])
        .filter((key) => errorsOf(planted(build, fault), []).some((message) => message.includes(`\`${key}\``)))
        .map((key) => `${build.base}, ${fault.name}: ${key}`),
    ),
  );
  assert.deepEqual(lacking, waiting.keys);
});
