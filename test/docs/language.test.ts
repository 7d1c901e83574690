import { expect, test } from "vitest";
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { parse } from "yaml";
import type { Diagnostic } from "../../src/diagnostic.ts";
import type { ValueRule } from "../../src/plan/grammar/rule.ts";
import { foldName, readPlan, sectionNames } from "../../src/plan/index.ts";
import { readDocument } from "../../src/plan/text/index.ts";
import { kinds, resolveSystem } from "../../src/system/index.ts";
import { generatedDocs } from "../../tools/make-docs.ts";
import { planSchema } from "../../tools/plan-schema.ts";
import { sectionDocs } from "../../tools/plan-sections.ts";
import { kindExamples, quantityExamples, spellings, valueForms } from "../../tools/plan-values.ts";
import { quantity } from "../../src/plan/grammar/values.ts";
import type { Dimension } from "../../src/quantity/index.ts";

const root = join(import.meta.dirname, "../..");

test.each([...generatedDocs()])("%s is what the code says", (path, text) => {
  assert.ok(readFileSync(join(root, path), "utf8") === text, `${path} is stale: run \`npm run docs\``);
});

test("the page speaks of every section, kind and key", () => {
  assert.deepEqual(
    sectionDocs.map((s) => s.name),
    [...sectionNames],
  );
  const page = generatedDocs().get("docs/language.md") ?? "";
  const names = kinds.map((k) => k.name);
  for (const name of names) assert.ok(page.includes(`kind: ${name}`), `an example of ${name}`);
  // An example of a kind that is no more is not left behind.
  assert.deepEqual(
    Object.keys(kindExamples).filter((name) => !names.includes(name)),
    [],
  );
  for (const { facts } of kinds) for (const key of Object.keys(facts)) assert.ok(page.includes(`\`${key}\``), key);
});

/** Reads one value by its rule, as it would stand behind a key. */
function readBy(rule: ValueRule<unknown>, written: string): { value: unknown; said: string[] } {
  const document = readDocument(`a: ${written}\n`);
  const said = document.diagnostics.map((d) => d.id);
  const node = document.value.sections[0]?.value;
  assert.ok(node !== undefined && node !== null, written);
  const fact = rule.read(node, { about: "a", say: (d) => said.push(d.id) });
  return { value: fact?.value, said };
}

test.each(valueForms)("$form: every example is read without a word", ({ rule, examples }) => {
  for (const written of examples) {
    const { value, said } = readBy(rule, written);
    assert.ok(value !== undefined, written);
    assert.deepEqual(said, [], written);
  }
});

test.each(Object.entries(quantityExamples))("%s: every example is read without a word", (dimension, examples) => {
  for (const written of examples) {
    const { value, said } = readBy(quantity(dimension as Dimension), written); // the names of the table are dimensions
    assert.ok(value !== undefined && value !== "unknown", written);
    assert.deepEqual(said, [], written);
  }
});

/** What was read, without how it was written. */
const plain = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (key, inner: unknown) => {
      if (key === "span" || key === "text") return undefined;
      if (typeof inner === "number") return Number(inner.toPrecision(12)); // 140 °F is 60 °C but for the last bit
      return typeof inner === "string" ? foldName(inner) : inner;
    }) ?? "null",
  );

test.each(spellings)("$what: the spellings of the table read alike", ({ rule, alike: [first = "", ...others] }) => {
  assert.ok(others.length > 0);
  for (const written of others) {
    // A hint may say which spelling is better; it is read all the same.
    expect(plain(readBy(rule, written).value), written).toEqual(plain(readBy(rule, first).value));
  }
});

const louder = (all: readonly Diagnostic[]): string[] =>
  all.filter((d) => d.level === "error" || d.level === "warning").map((d) => `${d.id}: ${d.message}`);

test.each(sectionDocs.filter((s) => s.example !== undefined))("$name: the example of the section holds", (section) => {
  const example = section.example ?? "";
  const text = example.startsWith("wireworthy") ? `${example}\n` : `wireworthy: 1\n${example}\n`;
  const plan = readPlan(text, kinds);
  assert.deepEqual(louder(plan.diagnostics), []);
  if (section.name === "rules") return; // of a system that the example does not define
  assert.deepEqual(louder(resolveSystem(plan.value, kinds).diagnostics), []);
});

test.each(Object.entries(kindExamples))("%s: the example of the kind holds", (name, example) => {
  const { value, diagnostics } = readPlan(`wireworthy: 1\nparts:\n  X: ${example}\n`, kinds);
  assert.deepEqual(louder(diagnostics), []);
  assert.equal(value.parts[0]?.kind, name);
});

const validate = new Ajv2020({ allowUnionTypes: true, strictRequired: false }).compile(planSchema());
const failsafe = (text: string): unknown => parse(text, { schema: "failsafe" });
const core = (text: string): unknown => parse(text);
const verdict = (value: unknown): string => (validate(value) ? "fine" : JSON.stringify(validate.errors?.slice(0, 3)));

const examples = readdirSync(join(root, "examples"), { recursive: true, encoding: "utf8" }).filter((f) =>
  f.endsWith(".yaml"),
);

test.each(examples)("examples/%s is a plan by the schema, read as text and as an editor reads it", (file) => {
  const text = readFileSync(join(root, "examples", file), "utf8");
  assert.equal(verdict(failsafe(text)), "fine");
  assert.equal(verdict(core(text)), "fine");
});

test("the schema takes what the page shows", () => {
  for (const { example = "" } of sectionDocs)
    if (example !== "") assert.equal(verdict(failsafe(example)), "fine", example);
  for (const [name, example] of Object.entries(kindExamples)) {
    assert.equal(verdict(failsafe(`parts:\n  X: ${example}\n`)), "fine", name);
  }
});

test("the schema refuses a key wherever the reader does", () => {
  for (const text of [
    "partz: {}",
    "systems: { DC: { volts: 12 V } }",
    "stock: { colour: red }",
    "zones: { a: { hot: yes } }",
    "parts: { a: { kind: load, runing: 4 A } }",
    "parts: { a: { kind: battery, running: 4 A } }",
    "parts: { a: { like: b, colour: red } }",
    "parts: { a: { kind: batery } }",
    "parts: { a: { name: no kind } }",
    "parts: { a: { kind: panel, main: { colour: red } } }",
    "circuits: { W1: { path: a → b, lenght: 3 m } }",
    "circuits: { W1: { path: a → b, ends: { a: { crimp: hex } } } }",
    "wireworthy: 2",
  ]) {
    assert.ok(!validate(failsafe(text)), text);
    const { diagnostics } = readPlan(text, kinds);
    assert.ok(
      diagnostics.some((d) => d.level === "error"),
      text,
    );
  }
  // A part like another may have the keys of any kind; a state may name any part.
  assert.equal(verdict(failsafe("parts: { a: { like: b, running: 4 A } }")), "fine");
  assert.equal(verdict(failsafe("states: { a: { SW1: off, on: [b] }, never together: [b, c] }")), "fine");
});
