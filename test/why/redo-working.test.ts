import { test } from "vitest";
import assert from "node:assert/strict";
import { redoWorking } from "./redo-working.ts";

test("a printed sum is done again by the rules of arithmetic", () => {
  const redo = (working: string, equation = ""): number => redoWorking({ working, equation }).value;
  assert.equal(redo("2 + 3 · 4"), 14);
  assert.equal(redo("12 V − (3 V − 1 V)²"), 8);
  assert.equal(redo("√((105 °C − 60 °C) / (105 °C − 25 °C))"), 0.75);
  assert.equal(redo("max(106.25 A, 80 A)"), 106.25);
  assert.equal(redo("−2 A · 3 mΩ"), -0.006);
  assert.throws(() => redo("loads behind it"));
  assert.throws(() => redo("2 + "));
});

test("only what was rounded in print gives slack", () => {
  // 4.683 A may be 4.6825 to 4.6835 A, 2 Ω 1.9995 to 2.0005 Ω
  const { slack } = redoWorking({ working: "4.683 A · 2 Ω", equation: "ΔU = I · R" });
  assert.ok(Math.abs(slack - (0.0005 * 2 + 4.683 * 0.0005)) < 1e-6, String(slack));
  assert.ok(redoWorking({ working: "100 · 0.5", equation: "u = 100 · x" }).slack < 0.0051);
});
