import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { oneSource, shoreAndInverter } from "../../src/rules/ac/example-plans.ts";
import { judgePlain, saidOf } from "./judge-plain.ts";

const JOIN = "ac/missing-neutral-earth-join";
const GUARD = "ac/missing-residual-device";
const CORES = "ac/missing-protective-conductor";

const outlet = { sockets: "kind: outlet, running: 3 A" };
const never = "kind: inverter, rated: 1200 VA, neutral–earth join: never";
const alone = (parts: Record<string, string>, circuits: Record<string, string>): string =>
  oneSource({
    parts: { CU: null, INV: never, ...outlet, ...parts },
    circuits: { W20: null, W23: "path: INV:out → sockets, length: 3 m", ...circuits },
  });

describe("an inverter lives by whatever makes direct current", () => {
  const ways: readonly (readonly [string, string])[] = [
    [
      "a converter from a battery of other volts",
      alone(
        {
          B24: "kind: battery, chemistry: LFP, nominal: 25.6 V, capacity: 100 Ah, short-circuit: 2 kA",
          DD: "kind: DC-DC charger, output: 60 A",
          XP: "kind: bus bar",
        },
        {
          W30: "path: B24 → DD:in, length: 1 m",
          W31: "path: DD:out → XP, length: 1 m",
          W32: "path: XP → INV, length: 1 m",
        },
      ),
    ],
    [
      "an alternator",
      alone(
        { ALT: "kind: alternator, rated: 100 A", XP: "kind: bus bar" },
        { W31: "path: ALT → XP, length: 1 m", W32: "path: XP → INV, length: 1 m" },
      ),
    ],
  ];
  for (const [says, plan] of ways)
    test(says, () => {
      const judged = judgePlain(plan);
      assert.equal(saidOf(judged, JOIN, "parts.INV"), "fail");
      assert.equal(saidOf(judged, GUARD, "parts.sockets"), "fail");
    });
  test("one that nothing feeds passes nothing", () => {
    const judged = judgePlain(alone({ XP: "kind: bus bar" }, { W32: "path: XP → INV, length: 1 m" }));
    assert.equal(saidOf(judged, JOIN, "parts.INV"), "cannot tell");
    assert.equal(saidOf(judged, GUARD, "parts.sockets"), "cannot tell");
    assert.equal(saidOf(judged, CORES, "parts.sockets"), "cannot tell");
  });
});

test("a source whose states cannot be followed is not passed over", () => {
  const many = Array.from({ length: 31 }, (_, i) => [
    `G${String(i)}`,
    "kind: generator, rated: 2 kVA, neutral: floating",
  ]);
  const judged = judgePlain(shoreAndInverter({ parts: Object.fromEntries(many) }));
  assert.equal(saidOf(judged, JOIN, "parts.INV"), "cannot tell");
});

test("a device may be blind where nobody knows of a join behind it", () => {
  const plan = (join: string): string =>
    oneSource({
      parts: {
        INL: "kind: shore inlet, rated: 16 A",
        CU: "kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 16 A }, ways: { 1: breaker 10 A 2-pole }",
        P2: `kind: panel, neutral–earth join: ${join}, ways: { 1: breaker 10 A 2-pole }`,
      },
      circuits: { W21: "path: CU:1 → P2:in, length: 1 m", W23: "path: P2:1 → sockets, length: 3 m" },
    });
  assert.equal(saidOf(judgePlain(plan("never")), GUARD, "parts.sockets"), "pass");
  assert.equal(saidOf(judgePlain(plan("unknown")), GUARD, "parts.sockets"), "cannot tell");
  assert.equal(saidOf(judgePlain(plan("always")), GUARD, "parts.sockets"), "fail");
});
