import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../../../src/plan/index.ts";
import { kinds, resolveSystem } from "../../../src/system/index.ts";
import { baseText, bases, mutants, mutantText, rulings, type Mutant, type Ruling } from "./planted.ts";
import { walkOf, type Holds, type Question } from "./walk.ts";

// Whether what is expected can be right at all: edits that fit, plans that can be read, things that the plan names, and ways that were found by hand
// lead where they are said to, and none is longer than it must be. No rule runs here.

const everything: readonly Question[] = (
  ["doubled", "missing", "parallel", "live pins", "common neutral", "own charge", "overlap"] as const
).map((holds) => ({ holds, part: null }));

const MAYBE: Partial<Record<Holds, Holds>> = {
  doubled: "may be doubled",
  missing: "may be missing",
  parallel: "may add",
};

/** What is reached and is right all the same. */
const isRight = (mutant: Mutant, question: Question | undefined): boolean =>
  mutant.right?.some((holds) => holds === question?.holds) === true;

const systemOf = (text: string) => {
  const plan = readPlan(text, kinds);
  const system = resolveSystem(plan.value, kinds);
  return {
    system: system.value,
    errors: [...plan.diagnostics, ...system.diagnostics].filter(({ level }) => level === "error").map((d) => d.message),
  };
};

for (const name of Object.keys(bases)) {
  test(`${name} can be read`, () => {
    assert.deepEqual(systemOf(baseText(name)).errors, []);
  });
}

test("in the van as it should be nothing holds in any position", () => {
  const walk = walkOf(systemOf(baseText("whole van")).system);
  assert.deepEqual(
    walk.shortest(everything),
    everything.map(() => null),
  );
});

for (const mutant of mutants) {
  test(`${mutant.name}: the plan can be read, and every way is the shortest`, () => {
    const { system, errors } = systemOf(mutantText(mutant));
    assert.deepEqual(errors, []);
    const names = new Set([
      ...system.parts.map(({ id }) => `parts.${id}`),
      ...system.circuits.map(({ id }) => `circuits.${id}`),
      ...system.supplies.map(({ id }) => `systems.${id}`),
    ]);
    const walk = walkOf(system);
    for (const { rule, about, or = [], holds, way } of mutant.must) {
      for (const place of [about, ...or]) assert.ok(names.has(place), `${rule}: the plan has no ${place}`);
      assert.equal(holds === undefined, way === undefined, rule);
      if (holds === undefined || way === undefined) continue;
      const question = { holds, part: about.replace("parts.", "") };
      assert.ok(walk.after(way, question), `${rule}: ${way.join(", ")} does not lead to: ${holds}`);
      const [shortest] = walk.shortest([question]);
      assert.equal(shortest?.length, way.length, `${rule}: shorter is ${String(shortest?.join(", "))}`);
    }
    // What is not said to be reached is reached nowhere. The branches of the van have one load each; in the van itself they were walked.
    const asked = system.supplies.some(({ phases }) => phases === "split")
      ? []
      : everything.filter(({ holds }) => !mutant.must.some((e) => e.holds === holds || e.holds === MAYBE[holds]));
    const branches = system.elements.flatMap((e) =>
      e.is === "mover" && /^ACP:inverter\.[1-7]$/.test(e.id) ? [e.id] : [],
    );
    assert.deepEqual(
      walkOf(system, branches)
        .shortest(asked)
        .flatMap((way, i) =>
          way === null || isRight(mutant, asked[i]) ? [] : `${String(asked[i]?.holds)}: ${way.join(", ")}`,
        ),
      [],
    );
    assert.ok(mutant.why.length > 15);
    const expected = mutant.must.map(({ rule }) => rule);
    assert.deepEqual(
      (mutant.silent ?? []).filter((rule) => expected.includes(rule)),
      [],
    );
  });
}

/** The number that a ruling allows is that of the shortest way to what it says to hold. */
function checkRuled({ in: names = [], what, actions }: Ruling, holds: Holds): void {
  const part = what.slice(what.indexOf("parts.") + "parts.".length);
  for (const mutant of mutants.filter(({ name }) => names.includes(name))) {
    const [way] = walkOf(systemOf(mutantText(mutant)).system).shortest([{ holds, part }]);
    assert.equal(way?.length, actions, `${mutant.name}: ${String(way?.join(", "))}`);
  }
}

test("there are at least twenty faults, each mutant bears a name of its own, and rulings name them", () => {
  const names = mutants.map(({ name }) => name);
  assert.ok(mutants.filter(({ must }) => must.length > 0).length >= 20);
  assert.equal(new Set(names).size, names.length);
  for (const ruling of rulings) {
    for (const name of ruling.in ?? []) assert.ok(names.includes(name), `${ruling.what}: ${name}`);
    assert.equal(ruling.actions !== undefined, ruling.is === "actions", ruling.what);
    if (ruling.holds !== undefined) checkRuled(ruling, ruling.holds);
    assert.ok(ruling.because.length > 15, ruling.what);
  }
});
