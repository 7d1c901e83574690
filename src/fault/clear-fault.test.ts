import assert from "node:assert/strict";
import { test } from "vitest";
import { clearFault } from "./clear-fault.ts";
import type { Guard } from "./sights.ts";
import { prepareFaults } from "./lay-faults.ts";
import { timeConstant } from "./loop-inductance.ts";

/** A fuse that opens within these seconds at twice its rating and more, and stays closed below. */
const fuse = (edge: number, at: "a" | "b", rating: number, least: number, most: number): Guard => ({
  edge,
  at,
  opens: (amps) =>
    amps >= 2 * rating
      ? { least, most, why: "opens" }
      : amps > rating
        ? { least, most: null, why: "may stay closed" }
        : { least: Infinity, most: null, why: "within its rating" },
});

/**
 * Two batteries on one bar, each with its lead; a branch hangs on the bar. Nodes: 0 and 1 plus of the batteries, 2 bar, 3 load, 4 minus of all.
 * Edges: 0 lead of the first, 1 lead of the second, 2 branch, 3 its return.
 */
function bar(limitedAmps = 0) {
  const edges = [
    { a: 0, b: 2 },
    { a: 1, b: 2 },
    { a: 2, b: 3 },
    { a: 5, b: 4 },
  ];
  const prepared = prepareFaults(
    { nodeCount: 6, edges, at: [[0], [1], [0, 1, 2], [2], [3], [3]] },
    {
      stores: [
        { plus: 0, minus: 4 },
        { plus: 1, minus: 4 },
      ],
      limited: [{ plus: 2, minus: 4 }],
    },
  );
  return prepared.lay({
    ohms: Float64Array.of(0.01, 0.01, 0.05, 0.05),
    storeVolts: Float64Array.of(13, 13),
    storeOhms: Float64Array.of(0.01, 0.01),
    limitedVolts: Float64Array.of(14.4),
    limitedAmps: Float64Array.of(limitedAmps),
  });
}
const atLoad = { plus: { node: 3 }, minus: { node: 5 } };
const near = (a: number | undefined, b: number): void => {
  assert.ok(a !== undefined && Math.abs(a - b) < 1e-9, `${String(a)} is not ${b}`);
};

test("a fuse in the branch ends a fault behind it, and those of the batteries, which see half each, stay", () => {
  // 13 V ÷ (0.1 Ω of branch and return + (0.01 + 0.01) ÷ 2)
  const guards = [fuse(0, "a", 200, 1, 2), fuse(1, "a", 200, 1, 2), fuse(2, "a", 20, 0.1, 0.5)];
  const cleared = clearFault(bar(), atLoad, guards, [[0], [1], [2]]);
  near(cleared.fault.amps, 13 / 0.11);
  assert.equal(cleared.outcome, "cleared");
  assert.deepEqual(
    cleared.opened.map((o) => [o.device, o.isSure]),
    [[2, true]],
  );
  assert.deepEqual(cleared.seconds, { low: 0.1, high: 0.5 });
  assert.deepEqual(cleared.sees.map((s) => s.device).sort(), [0, 1, 2]);
});

test("when one battery's fuse has opened, the other feeds the fault until its own opens: times add", () => {
  // Without a fuse in the branch. First 59 A each; then 13 V ÷ 0.12 Ω through the second alone.
  const guards = [fuse(0, "a", 20, 1, 2), fuse(1, "a", 25, 2, 4)];
  const phases: [number, number | null][] = [];
  const cleared = clearFault(bar(), atLoad, guards, [[0], [1]], (flows, _, seconds) =>
    phases.push([Math.abs(flows.find((f) => f.edge === 1)?.atA ?? 0), seconds]),
  );
  assert.equal(cleared.outcome, "cleared");
  assert.deepEqual(
    cleared.opened.map((o) => o.device),
    [0, 1],
  );
  near(cleared.opened[1]?.amps, 13 / 0.12);
  assert.deepEqual(cleared.seconds, { low: 2, high: 6 });
  near(phases[0]?.[0], 13 / 0.11 / 2);
  near(phases[1]?.[0], 13 / 0.12);
});

test("a battery without a fuse goes on: not seen; a charger goes on: limited; a fuse too large: too small", () => {
  assert.equal(clearFault(bar(), atLoad, [fuse(0, "a", 20, 1, 2)], [[0]]).outcome, "not seen");
  const both = [fuse(0, "a", 20, 1, 2), fuse(1, "a", 20, 1, 2)];
  const charged = clearFault(bar(30), atLoad, both, [[0], [1]]);
  assert.equal(charged.outcome, "limited");
  near(charged.left?.amps, 30);
  assert.equal(clearFault(bar(), atLoad, [fuse(2, "a", 100, 1, 2)], [, , [0]]).outcome, "too small");
});

test("a lead fed from both ends: what its own device does not cut comes from the other side", () => {
  // A fault within the first lead, half-way, between its fuse at the battery and the bar.
  const place = { plus: { edge: 0, share: 0.5 }, minus: { node: 4 } };
  const [own, other] = [fuse(0, "a", 50, 0.1, 0.2), fuse(1, "a", 50, 0.3, 0.4)];
  // From its own side 13 ÷ (0.01 + 0.005), from the other 13 ÷ (0.01 + 0.01 + 0.005).
  const cleared = clearFault(bar(), place, [own, other], [[0], [1]]);
  near(cleared.fault.amps, 13 / 0.015 + 13 / 0.025);
  assert.deepEqual(
    cleared.opened.map((o) => [o.device, o.from]),
    [
      [0, "a"],
      [1, "a"],
    ],
  );
  near(cleared.opened[1]?.amps, 13 / 0.025);
  // With a device at each end of the lead the other battery keeps its fuse.
  const ends = clearFault(bar(), place, [own, other, fuse(0, "b", 50, 0.1, 0.2)], [[0, 2], [1]]);
  assert.deepEqual(ends.opened.map((o) => o.device).sort(), [0, 2]);
  assert.equal(ends.outcome, "cleared");
});

test("the time constant of a loop of 2 m out and 2 m back is that of 2 m of pair", () => {
  const { fault } = clearFault(bar(), atLoad, [], []);
  const tau = timeConstant(fault, Float64Array.of(0, 0, 2, 2));
  // 2 m × 0.4 to 1.0 µH/m over 0.11 Ω.
  near(tau.low, (2 * 0.4e-6) / 0.11);
  near(tau.high, (2 * 1e-6) / 0.11);
});

test("where another device may open first, the greatest time is that of the slowest order, or none is proven", () => {
  // The branch fuse opens within 0.5 s at 118 A; that of a battery may open before, and at what the other gives then the branch fuse takes 3 s.
  const slower: Guard = {
    edge: 2,
    at: "a",
    opens: (amps) => ({ least: 0.1, most: amps > 115 ? 0.5 : 3, why: "opens" }),
  };
  const guards = [fuse(0, "a", 20, 0.2, 2), fuse(1, "a", 200, 1, 2), slower];
  const cleared = clearFault(bar(), atLoad, guards, [[0], [1], [2]]);
  assert.deepEqual(
    cleared.opened.map((o) => [o.device, o.isSure]),
    [[2, false]],
  );
  assert.deepEqual(cleared.seconds, { low: 0.1, high: 3.5 });
  // It may stay closed then: no time is a bound.
  const small: Guard = {
    edge: 2,
    at: "a",
    opens: (amps) =>
      amps > 115 ? { least: 0.1, most: 0.5, why: "opens" } : { least: 0.1, most: null, why: "may stay closed" },
  };
  assert.equal(clearFault(bar(), atLoad, [fuse(0, "a", 20, 0.2, 2), small], [[0], , [1]]).seconds.high, null);
  // In a tree whichever opens ends it.
  const tree = clearFault(bar(), atLoad, [slower, { ...slower, at: "b" }], [, , [0, 1]]);
  assert.deepEqual(tree.seconds, { low: 0.1, high: 0.5 });
});
