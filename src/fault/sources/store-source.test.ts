import assert from "node:assert/strict";
import { test } from "vitest";
import type { Store } from "../../system/element.ts";
import { exactly } from "../../system/value.ts";
import { storeSource } from "./store-source.ts";

const lead: Store = {
  is: "store",
  id: "B1",
  part: "B1",
  plus: "B1:+",
  minus: "B1:−",
  curve: "lead",
  nominalVolts: 12,
  ohms: exactly(0.008, "default"),
  lowestCharge: exactly(0.2, "default"),
  shortCircuitAmps: { low: 0, high: 2000, origin: "default" },
  strings: 1,
  unit: { capacityCoulombs: exactly(100 * 3600, "given") },
};

test("what a maker declares stands, whatever else is said; cold and aged it has one and a half to three times the resistance", () => {
  const source = storeSource({ ...lead, shortCircuitAmps: exactly(2000, "given"), ohms: exactly(0.006, "derived") });
  assert.equal(source.basis, "short-circuit current");
  assert.equal(source.best.amps.high, 2000);
  // 12 V ÷ 2 kA = 6 mΩ.
  assert.ok(Math.abs(source.worst.ohms.low - 0.009) < 1e-12 && Math.abs(source.worst.ohms.high - 0.018) < 1e-12);
  assert.equal(source.opens, null);
});

test("a lead battery that states its capacity alone gives 10 to 20 A for each ampere-hour", () => {
  const source = storeSource(lead);
  assert.deepEqual([source.best.amps.low, source.best.amps.high], [1000, 2000]);
  assert.equal(storeSource({ ...lead, unit: { capacityCoulombs: "unknown" } }).trust, "missing");
});

test("a starting battery of 720 A cold cranking: cold 5.4 V ÷ 720 A, warm up to 12.6 V ÷ 3.0 V of it", () => {
  const source = storeSource({
    ...lead,
    ohms: exactly(5.4 / 720, "derived"),
    shortCircuitAmps: { low: 720, high: 2.73 * 720, origin: "derived" },
    unit: { ...lead.unit, crankingAmps: exactly(720, "given") },
  });
  assert.equal(source.basis, "cranking current");
  assert.ok(Math.abs(source.best.amps.high - (12.6 / 3) * 720) < 1e-9);
  assert.ok(Math.abs(source.worst.ohms.high - (1.5 * 5.4) / 720) < 1e-12);
});

test("a management may open above its peak; a lithium battery has one, whether or not it is spoken of", () => {
  const stated = { ...lead, strings: 2, unit: { ...lead.unit, peakAmps: exactly(300, "given") } };
  assert.deepEqual(storeSource(stated).opens, { aboveAmps: 600, seconds: null });
  assert.deepEqual(storeSource({ ...lead, curve: "LFP" }).opens, { aboveAmps: null, seconds: null });
});
