import { readdirSync, readFileSync } from "node:fs";
import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../../src/compile.ts";
import { readExpectation, toldLines } from "./expected.ts";

const here = new URL("./", import.meta.url);
const examples = new URL("../../examples/", import.meta.url);
const plansIn = (folder: URL): string[] => readdirSync(folder).filter((name) => name.endsWith(".yaml"));

for (const name of plansIn(examples)) {
  test(`the example ${name} is read whole: nothing is wrong with it, and nothing is left unread`, () => {
    const { text, lines } = readExpectation(readFileSync(new URL(name, examples), "utf8"));
    assert.deepEqual(lines, [], "an example shows no expected mistakes");
    const { diagnostics, design } = compile(text);
    for (const state of design.states) assert.deepEqual([state.id, ...state.dead], [state.id]);
    // A rule set whose numbers are not carried is no fault of the plan.
    const told = toldLines(
      text,
      diagnostics.filter((d) => d.id !== "system/rule-set-remark"),
    );
    assert.deepEqual(told, []);
  });
}

for (const name of plansIn(here)) {
  test(`${name} is told exactly what its comments say`, () => {
    const { text, lines } = readExpectation(readFileSync(new URL(name, here), "utf8"));
    const { diagnostics, design } = compile(text);
    assert.deepEqual(toldLines(text, diagnostics), lines);
    // Where nothing is wrong with a plan every load that is on has its volts: no path was read past the part that it names.
    if (lines.length === 0) for (const state of design.states) assert.deepEqual([state.id, ...state.dead], [state.id]);
    for (const d of diagnostics) {
      assert.match(d.message, /^[^A-Z]/, `${d.id} starts in lower case`);
      assert.doesNotMatch(d.message, /\.$/, `${d.id} has no full stop`);
      if (d.level === "error") assert.ok(d.hint !== undefined, `${d.id} gives one next step: ${d.message}`);
    }
  });
}

test("a comment that expects a message is taken out of the plan without moving a line", () => {
  const { text, lines } = readExpectation("a: 1 #! error plan/x; note plan/y\nb: 2\n#! nowhere warning system/z");
  assert.equal(text, "a: 1\nb: 2\n");
  assert.deepEqual(lines, ["0 warning system/z", "1 error plan/x", "1 note plan/y"]);
});
