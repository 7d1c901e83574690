import assert from "node:assert/strict";
import { test } from "vitest";
import { sayMover, saySteps } from "./say-steps.ts";
import type { Step } from "./study.ts";

const step = (mover: string, from: string, to: string, by: Step["by"] = "hand", after = 0): Step => ({
  mover,
  from,
  to,
  by,
  ...(after > 0 ? { after } : {}),
});

test("alike things that follow each other are said together, others in their order", () => {
  assert.equal(
    saySteps([step("SW1", "off", "on"), step("TS", "off", "inverter"), step("INV", "off", "on")]),
    "switch SW1 on, set TS to inverter, switch INV on",
  );
  assert.equal(
    saySteps([step("SW1", "off", "on"), step("CU:main", "off", "on"), step("CU:3", "off", "on")]),
    "switch SW1, the main of CU and CU:3 on",
  );
});

test("plugs, engines and what moves by itself have words of their own", () => {
  assert.equal(saySteps([step("INL", "out", "in", "outside")]), "plug in at INL");
  assert.equal(saySteps([step("INL", "in", "out", "outside")]), "unplug INL");
  assert.equal(saySteps([step("GEN", "off", "running"), step("GEN", "running", "off")]), "start GEN, stop GEN");
  assert.equal(
    saySteps([step("INV:relay", "resting", "passing", "itself", 20.004)]),
    "the relay of INV goes to passing by itself after 20 s",
  );
  assert.equal(saySteps([step("B1:management", "closed", "open", "outside")]), "the management of B1 goes to open");
});

test("a name that looks like a role and has no part stays as it is", () => {
  assert.equal(sayMover("main"), "main");
  assert.equal(sayMover("a:b:main"), "the main of a:b");
});
