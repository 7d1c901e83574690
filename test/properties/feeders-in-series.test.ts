/** Feeders in series, as many as somebody may write: the answer comes in time, is exact as far as it can be, and says where it ends. */
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../src/compile.ts";

function chainOf(bars: number): string {
  const numbers = Array.from({ length: bars }, (_, i) => i);
  return [
    "wireworthy: 1",
    "rules: { DC: iso-small-craft }",
    "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
    "parts:",
    "  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 100 Ah }",
    "  BN: { kind: bus bar }",
    "  lamp: { kind: light, running: 1 A }",
    ...numbers.map((i) => `  bar${i}: { kind: bus bar }`),
    "circuits:",
    "  N: { path: B1:− → BN, length: 1 m }",
    "  W0: { path: B1 → bar0, length: 1 m }",
    ...numbers.slice(1).map((i) => `  W${i}: { path: bar${i - 1} → bar${i}, length: 0.3 m }`),
    `  last: { path: bar${bars - 1} → lamp, length: 1 m }`,
    "",
  ].join("\n");
}

test("a few feeders in series are settled by going through all that could be better", () => {
  const { design } = compile(chainOf(10));
  assert.equal(design.leastCopperProved, true);
  assert.equal(design.settled, true);
});

for (const bars of [14, 18, 30, 49]) {
  test(`${bars} feeders in series are settled in time`, () => {
    const from = process.cpuUsage();
    const { design } = compile(chainOf(bars));
    assert.ok(process.cpuUsage(from).user < 2e6, "under two seconds of the processor");
    assert.equal(design.circuits.length, bars + 2);
    assert.ok(design.circuits.every((c) => c.size !== null));
  });
}

test("what hangs too deep is said, and the rest is worked out", () => {
  const { design } = compile(chainOf(3000));
  const last = design.circuits.at(-1);
  assert.deepEqual(last?.cannotTell, ["more than 50 circuits in series stand before it"]);
  assert.equal(design.circuits.find((c) => c.id === "W3")?.outcome, "chosen");
});
