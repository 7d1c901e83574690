import { test } from "vitest";
import assert from "node:assert/strict";
import { createPlanMemory, readPlan } from "../plan/index.ts";
import { routeRuns } from "../route/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { settleDesign } from "./make-design.ts";
import { studyEnds } from "./study-faults.ts";

const HEAD = `wireworthy: 1
name: test
rules: { DC: iso-small-craft 2020+A1:2022 }
systems: { DC: { kind: DC, nominal: 12 V, poles: ["+", "−"], return: BN } }
stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }
climate: { ambient: 30 °C }
parts:
  B1: { kind: battery, chemistry: LFP, nominal: 12.8 V, capacity: 200 Ah, short-circuit: 3 kA }
  B2: { like: B1 }
  BP: { kind: bus bar }
  BN: { kind: bus bar }
  BX: { kind: bus bar }
  windlass: { kind: load, running: 85 A, starting: 150 A, starts above: 9 V }
  fridge: { kind: load, running: 5 A }
circuits:
  W01: { path: B1 → BP, length: 1 m, wire: 70 mm² }
  W02: { path: B2 → BP, length: 1 m, wire: 70 mm² }
`;
const settled = (circuits: string) => {
  const { value: system } = resolveSystem(readPlan(HEAD + circuits, kinds, createPlanMemory()).value, kinds);
  return settleDesign(system, routeRuns(system).value);
};
const circuitsOf = (circuits: string) => {
  const { design } = settled(circuits);
  return new Map(design.circuits.map((c) => [c.id, c]));
};
const near = (a: number | null | undefined, b: number, within: number): void => {
  assert.ok(Math.abs((a ?? NaN) - b) < within, `${String(a)} is not ${b}`);
};

test("a metre more of its return costs a load what the return loses on it", () => {
  const dropAt = (metres: number): number =>
    circuitsOf(`  W40: { path: BP → windlass, length: 8 m, wire: 35 mm², return: none }
  W41: { path: windlass:− → BN, length: ${metres} m, wire: 35 mm² }`).get("W40")?.dropV ?? NaN;
  // IEC 60228 class 5, tinned: 0.565 mΩ/m at 20 °C; ISO 13297 lets 35 mm² carry 185 A, so 85 A warm it to 30 + 60 × (85 ÷ 185)² = 42.7 °C:
  // 0.565 × (1 + 0.00393 × 22.7) = 0.6153 mΩ/m, × 85 A = 52.3 mV. 0.1 mV: rounding of those figures.
  near(dropAt(9) - dropAt(8), 0.0523, 1e-4);
});

test("a thin return that is there makes the plus thicker, and its device is held against it", () => {
  const paired = circuitsOf("  W40: { path: BP → windlass, length: 4 m }").get("W40");
  const own = circuitsOf(`  W40: { path: BP → windlass, length: 4 m, return: none }
  W41: { path: windlass:− → BN, length: 4 m, wire: 16 mm² }`);
  assert.ok((own.get("W40")?.size?.areaMm2 ?? 0) > 0 && paired !== undefined);
  near(own.get("W41")?.steadyA, 85, 1e-9);
  const device = own.get("W41")?.constraints.find((c) => c.id === "device");
  // 16 mm² may have 100 A by the table; what starts with 150 A and runs with 85 A asks for more.
  assert.equal(device?.outcome, "not met");
  assert.match(own.get("W41")?.bareEnds[0]?.why ?? "", /^the return of W40; guarded by the device of W40, \d+ A$/);
});

test("a return that two loads share carries both, and the sum of what their devices let through", () => {
  const text = `  W40: { path: BP → windlass, length: 4 m, return: none }
  W41: { path: windlass:− → BX, length: 3 m }
  W50: { path: BP → fridge, length: 4 m, return: none }
  W51: { path: fridge:− → BX, length: 3 m }
  W60: { path: BX → BN, length: 1 m }`;
  const { design, settled: build } = settled(text);
  const found = new Map(design.circuits.map((c) => [c.id, c]));
  near(found.get("W60")?.steadyA, 90, 1e-9);
  const [a, b] = ["W40", "W50"].map((id) => found.get(id)?.devices[0]?.ratingA ?? NaN);
  near(
    build.devices.circuits[build.model.circuits.findIndex((c) => c.circuit.id === "W60")]?.answersFor,
    (a ?? 0) + (b ?? 0),
    1e-9,
  );
  assert.ok((found.get("W60")?.ampacityA ?? 0) >= (a ?? 0) + (b ?? 0));
  for (const [plus, back] of [
    ["W40", "W41"],
    ["W50", "W51"],
  ] as const)
    assert.equal(found.get(back)?.size?.label, found.get(plus)?.size?.label);
  // A short at the windlass comes back through both of its returns.
  const faults = studyEnds(build).circuits;
  for (const id of ["W41", "W60"]) {
    const own = faults.find((c) => c?.circuit === id);
    assert.ok((own?.conductors[0]?.greatest?.high ?? 0) > 0 && (own?.carries.length ?? 0) > 0, id);
  }
  assert.equal(design.leastCopperProved, true);
});
