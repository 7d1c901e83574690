import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import { createPlanMemory, readPlan } from "../plan/index.ts";
import { routeRuns } from "../route/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { settleDesign, type SettledDesign } from "./make-design.ts";
import { whyMoved } from "./why-moved.ts";

const SLOOP = readFileSync(join(import.meta.dirname, "../../examples/sloop.yaml"), "utf8");
const stand = (text: string): SettledDesign => {
  const system = resolveSystem(readPlan(text, kinds, createPlanMemory()).value, kinds).value;
  return settleDesign(system, routeRuns(system).value);
};

test("a wire that moved says which constraint of what holds it, and a trade names the wires that moved along", () => {
  const before = stand(SLOOP);
  // Shorter moves nothing: its fuse of 150 A holds it at 35 mm².
  for (const length of ["9.4 m", "12 m", "14 m", "17 m"]) {
    const after = stand(SLOOP.replace("windlass, length: 8.6 m", `windlass, length: ${length}`));
    const moved = whyMoved(before, after);
    const differ = after.design.circuits.filter((c, i) => c.size?.label !== before.design.circuits[i]?.size?.label);
    assert.deepEqual(
      moved.map((m) => m.circuit),
      differ.map((c) => c.id),
    );
    assert.ok(moved.length > 0, length);
    for (const { because, beside, says } of moved) assert.ok(because.length > 0 || beside.length > 0, says);
    // And back: what holds a wire at its thicker size is the same, seen from either stand.
    const back = whyMoved(after, before);
    assert.deepEqual(
      back.map((m) => m.because),
      moved.map((m) => m.because),
    );
  }
});

test("where nothing moved there is nothing to tell", () => {
  const one = stand(SLOOP);
  assert.deepEqual(whyMoved(one, stand(SLOOP)), []);
});
