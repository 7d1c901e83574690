import assert from "node:assert/strict";
import { describe, test } from "vitest";
import fc from "fast-check";
import { celsius } from "../quantity/index.ts";
import { ruleSets, type RuleSet } from "../ruleset/index.ts";
import { awgSize, type ConductorMake } from "../wire/index.ts";
import { ampacity, ampacityAmps, leastCounted, type Stretch } from "./index.ts";

const named = (id: string): RuleSet => {
  const found = ruleSets.find((set) => set.id === id);
  assert.ok(found !== undefined);
  return found;
};
const cabin = named("us-cabin");
const rule = cabin.ampacity.shortStretch;
const wire = (name: string): ConductorMake => {
  const size = awgSize(name);
  assert.ok(size !== null);
  return { size, metal: "copper", plating: "plain", strands: "class B" };
};

/** A run of 12 AWG at 90 °C of which some metres lie in air of 60 °C: 30 × 0.71 = 21.3 A there, 30 A in the rest. */
const through = (hotM: number, restM: number, set = cabin) => {
  const stretch = (ambientC: number, high: number): Stretch & { ambientC: ReturnType<typeof celsius> } => ({
    engineSpace: false,
    ambientC: celsius(ambientC),
    ambientStated: true,
    bundle: 2,
    lengthM: { high },
  });
  const stretches = [stretch(60, hotM), stretch(30, restM)];
  const installed = { terminalsC: celsius(90) };
  const full = ampacity({ ruleSet: set, make: wire("12"), insulationC: celsius(90), installed, stretches });
  assert.equal(ampacityAmps(set.ampacity, wire("12"), 90, stretches, installed), full.amps);
  return full;
};

describe("310.14(A)(2): a short stretch that carries less is passed over", () => {
  test("up to 10 % of the run, and up to 3 m", () => {
    assert.equal(through(1, 9).amps, 30);
    assert.equal(Number(through(1.01, 8.99).amps?.toFixed(2)), 21.3);
    assert.equal(through(3, 40).amps, 30);
    assert.equal(Number(through(3.1, 40).amps?.toFixed(2)), 21.3);
  });

  test("it is said, with its clause", () => {
    assert.ok(through(1, 9).notes.some((note) => note.includes("310.14(A)(2)") && note.includes("21.3 A")));
    assert.ok(through(2, 8).notes.every((note) => !note.includes("310.14(A)(2)")));
  });

  test("no other set does so", () => {
    for (const set of ruleSets) {
      if (set.ampacity.shortStretch !== null) assert.equal(set.id, "us-cabin");
    }
  });
});

test("the longer the poor stretch, the less; never below the least, never above the most", () => {
  const any = fc.array(fc.tuple(fc.integer({ min: 1, max: 50 }), fc.double({ min: 0.1, max: 30, noNaN: true })), {
    minLength: 1,
    maxLength: 6,
  });
  fc.assert(
    fc.property(any, fc.double({ min: 0, max: 20, noNaN: true }), (list, more) => {
      const values = list.map(([amps]) => amps);
      const counted = (first: number): number =>
        leastCounted(
          rule,
          values,
          list.map(([, high], i) => ({ lengthM: { high: i === first ? high + more : high } })),
        );
      const poorest = values.indexOf(Math.min(...values));
      const now = counted(-1);
      assert.ok(values.includes(now));
      assert.ok(counted(poorest) <= now);
      assert.equal(leastCounted(null, values, []), Math.min(...values));
    }),
  );
});

test("a thin wire whose cooler column is blank carries no more than the next size that has a value there", () => {
  // Table 310.16 has 18 A for 16 AWG at 90 °C and begins with 15 A of 14 AWG at 60 °C, which unmarked terminals are.
  const calm: Stretch = { engineSpace: false, ambientC: 30, ambientStated: true, bundle: 2 };
  assert.equal(ampacityAmps(cabin.ampacity, wire("16"), 90, [calm]), 15);
  assert.equal(ampacityAmps(cabin.ampacity, wire("14"), 90, [calm]), 15);
  assert.equal(ampacityAmps(cabin.ampacity, wire("18"), 90, [calm]), 14);
});
