import { readFileSync } from "node:fs";
import assert from "node:assert/strict";
import { test } from "vitest";
import { readPlan } from "../../../src/plan/index.ts";
import { kinds, resolveSystem } from "../../../src/system/index.ts";

// What the rules must find was written down before they were, from the rules of the trade and the schedule's numbers. Here only
// its form is held: rules that exist, things that the plan names, edits that fit, plans that can be read.

interface Expected {
  readonly rule: string;
  readonly outcome: string;
  readonly severity: string;
  readonly about: string;
  readonly why: string;
  readonly fact?: string;
  /** What a rule may argue against it; it then needs its reason. */
  readonly doubtful?: string;
  /** Another rule or outcome that says the same as well. */
  readonly or?: readonly { readonly rule?: string; readonly outcome?: string }[];
}

interface Mutant {
  readonly name: string;
  readonly base: string;
  readonly edits: readonly { readonly find: string; readonly replace: string }[];
  readonly adds: readonly Expected[];
  readonly removes: readonly { readonly rule: string; readonly outcome: string; readonly about: string }[];
  readonly why: string;
  readonly right?: boolean;
  readonly doubtful?: string;
}

const ruleIds = Object.entries({
  conductor: `overloaded-conductor excess-voltage-drop starved-load failing-start conductor-below-minimum-size solid-wire-where-it-moves
    misread-size wrong-metal unsuited-insulation impossible-length uneven-parallel-conductors thinly-stranded-conductor hot-bundle`,
  protection: `unprotected-conductor distant-device one-ended-two-source-cable oversized-device undersized-device
    device-above-appliance-limit low-voltage-rating ac-only-device-on-dc overdrawn-feeder self-resetting-breaker`,
  battery: `surge-above-management-limit current-above-management-limit overloaded-source uneven-sharing unequal-leads tapped-mid-point
    mixed-string missing-disconnect undersized-disconnect switched-off-always-on-load`,
  record: "unknown-fact unnamed-rule-set",
}).flatMap(([topic, names]) => names.split(/\s+/).map((name) => `${topic}/${name}`));

const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, import.meta.url), "utf8"));
const bases = Object.fromEntries(
  ["sloop", "sloop-audit"].map((base) => [
    base,
    {
      text: readFileSync(new URL(`../../../examples/${base}.yaml`, import.meta.url), "utf8"),
      expected: read(`${base}.expected.json`) as readonly Expected[], // the checks below hold its shape
    },
  ]),
);
const mutants = read("mutants.json") as readonly Mutant[]; // the checks below hold its shape
const baseOf = (name: string) => {
  const base = bases[name];
  assert.ok(base !== undefined, `there is no plan ${name}`);
  return base;
};
const identity = (f: { readonly rule: string; readonly outcome: string; readonly about: string }): string =>
  `${f.outcome}: ${f.rule} of ${f.about}`;

function textOf(mutant: Mutant): string {
  return mutant.edits.reduce((text, { find, replace }) => text.replace(find, () => replace), baseOf(mutant.base).text);
}

function checkForm(found: readonly Expected[], text: string): void {
  assert.deepEqual(new Set(found.map(identity)).size, found.length, "each is named once");
  for (const f of found) {
    const said = identity(f);
    assert.ok(ruleIds.includes(f.rule), said);
    assert.match(f.outcome, /^(fail|cannot tell)$/, said);
    assert.match(f.severity, /^(must|should|note)$/, said);
    assert.equal(f.fact !== undefined, f.outcome === "cannot tell", `${said} names its missing fact, and only then`);
    assert.ok(f.why.length > 20, `${said} says why`);
    for (const other of f.or ?? [])
      assert.ok(other.rule === undefined || ruleIds.includes(other.rule), `${said}, or ${String(other.rule)}`);
    const [section, name, end, more] = f.about.split(".");
    assert.ok(section === "circuits" || section === "parts" || section === "systems", said);
    assert.ok(
      end === undefined || (f.rule === "protection/distant-device" && /^(from|to)$/.test(end)),
      `${said}: an end is named where a rule is of an end`,
    );
    assert.equal(more, undefined, said);
    assert.ok(
      text.includes(`\n  ${String(name)}:`) || f.rule === "record/unnamed-rule-set",
      `${said}: the plan has no such thing`,
    );
  }
}

for (const [name, { text, expected }] of Object.entries(bases)) {
  test(`what must be found on ${name} speaks of rules and of things that there are`, () => {
    checkForm(expected, text);
  });
}

test("each change of a plan bears a name of its own", () => {
  assert.equal(new Set(mutants.map((m) => m.name)).size, mutants.length);
});

for (const mutant of mutants) {
  test(`${mutant.name}: the edits fit, the plan can be read, and what is expected speaks of it`, () => {
    const base = baseOf(mutant.base);
    let before = base.text;
    for (const { find, replace } of mutant.edits) {
      assert.equal(before.split(find).length - 1, 1, `found once: ${find}`);
      before = before.replace(find, () => replace);
    }
    const text = textOf(mutant);
    const plan = readPlan(text, kinds);
    const system = resolveSystem(plan.value, kinds);
    const errors = [...plan.diagnostics, ...system.diagnostics].filter((d) => d.level === "error");
    assert.deepEqual(
      errors.map((d) => d.message),
      [],
    );
    checkForm(mutant.adds, text);
    assert.ok(mutant.why.length > 10);
    const stood = base.expected.map(identity);
    for (const removed of mutant.removes)
      assert.ok(stood.includes(identity(removed)), `stood before: ${identity(removed)}`);
    const gone = mutant.removes.map(identity);
    for (const added of mutant.adds)
      assert.ok(!stood.includes(identity(added)) || gone.includes(identity(added)), `is new: ${identity(added)}`);
    if (mutant.right === true) assert.deepEqual(mutant.adds, [], "what is right adds nothing");
  });
}

test("every rule is made to fail, and at least eight plans are right and look wrong", () => {
  const failing = new Set(mutants.flatMap((m) => m.adds.filter((f) => f.outcome === "fail").map((f) => f.rule)));
  assert.deepEqual(
    ruleIds.filter((id) => !failing.has(id)),
    [],
  );
  assert.ok(mutants.filter((m) => m.right === true).length >= 8);
});
