import assert from "node:assert/strict";
import { test } from "vitest";
import { createPlanMemory, readPlan } from "../plan/index.ts";
import { routeRuns } from "../route/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { runToEnd } from "./run-to-end.ts";
import { settle, settleInRounds, type AskMore } from "./settle.ts";

const TEXT = [
  "wireworthy: 1",
  "rules: { DC: iso-small-craft }",
  "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
  "parts:",
  "  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 3 kA }",
  "  BP: { kind: bus bar }",
  "  BN: { kind: bus bar }",
  "  lamp: { kind: light, running: 2 A }",
  "  pump: { kind: load, running: 12 A }",
  "circuits:",
  "  W1: { path: B1 → BP, length: 1 m }",
  "  W2: { path: BP → lamp, length: 3 m }",
  "  W3: { path: BP → pump, length: 5 m, wire: 4 mm² }",
  "",
].join("\n");
const system = resolveSystem(readPlan(TEXT, kinds, createPlanMemory()).value, kinds).value;
const runs = routeRuns(system).value;
const plain = settle(system, runs);
const settleWith = (askMore: AskMore) => runToEnd(settleInRounds(system, runs, { evaluations: 1500 }, askMore));

test("what is studied on a settled build raises a size, and a pinned one stays", () => {
  const now = plain.chosen.rungs;
  const found = settleWith(() => [...now].map((r) => r + 2));
  assert.deepEqual([...found.chosen.rungs], [(now[0] ?? 0) + 2, (now[1] ?? 0) + 2, now[2]]);
  assert.deepEqual([...settleWith(() => [0, 0, 0]).chosen.rungs], [...now]);
});

test("settling ends whatever is asked: what asks for more each time comes to the end of the shelf", () => {
  let calls = 0;
  const found = settleWith(({ chosen }) => {
    calls++;
    return [...chosen.rungs].map((r) => r + 1);
  });
  const lengths = found.model.circuits.map((c) => c.rungs?.ladder.makes.length ?? 0);
  assert.equal(found.chosen.short[1], 1);
  assert.ok(calls <= lengths.reduce((a, b) => a + b, 0) + 1, String(calls));
  // And one that changes its mind.
  let flip = 0;
  settleWith(() => [flip++ % 2 === 0 ? 9 : 0, flip % 3, 0]);
  assert.ok(flip < 100);
});
