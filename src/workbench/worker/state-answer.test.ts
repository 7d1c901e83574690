import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { answerState } from "./state-answer.ts";

const { design, system } = compile(readFileSync(join(import.meta.dirname, "../../../examples/sloop.yaml"), "utf8"));
const answerIn = (id: string) => {
  const given = system.states.find((s) => s.id === id);
  assert.ok(given);
  return answerState(
    design.states.find((s) => s.id === id),
    given,
    system,
  );
};

test("hours are charge over current: amp-hours above the lowest charge, divided by what the bank gives", () => {
  const { bankA, hours, downTo, charge } = answerIn("at anchor");
  assert.ok(bankA !== null && hours !== null);
  assert.equal(downTo, 0.2);
  assert.equal(charge, 0.4);
  // Two batteries of 150 Ah at 40 %: 0.2 × 300 Ah, shared evenly by equal leads.
  assert.ok(Math.abs(hours - (0.2 * 300) / bankA) < 1e-6);
});

test("where the bank is being charged no hours are told", () => {
  const { bankA, hours } = answerIn("motoring");
  assert.ok(bankA !== null && bankA < 0);
  assert.equal(hours, null);
});

test("a state without a solution tells no figures", () => {
  const [given] = system.states;
  assert.ok(given);
  const { bankA, bankV, hours } = answerState(undefined, given, system);
  assert.deepEqual([bankA, bankV, hours], [null, null, null]);
});
