import assert from "node:assert/strict";
import { test } from "vitest";
import { residualProblem } from "./residual-current.ts";

test("residual devices open between 4 mA (UL 943, class A) and 3 A; a load current in its place is refused with what to write", () => {
  for (const amps of [0.004, 0.03, 0.3, 3]) assert.equal(residualProblem({ low: amps, high: amps }, ""), null);
  for (const amps of [0, 0.0001, 16, 30]) {
    const problem = residualProblem({ low: amps, high: amps }, `${amps} A`);
    assert.match(problem?.message ?? "", /^no residual device opens at `[\d.]+ A`: .* 4 mA to 3 A$/);
    assert.match(problem?.hint ?? "", /`30 mA`/);
  }
});
