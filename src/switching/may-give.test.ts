import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import { readPlan } from "../plan/index.ts";
import { kinds, resolveSystem } from "../system/index.ts";
import { stateAt, studySwitching } from "./index.ts";

test("the hut: while the management of its bank is open, its solar controllers may keep the inverter up", () => {
  const text = readFileSync(join(import.meta.dirname, "../../examples/hut.yaml"), "utf8");
  const { problem } = studySwitching(resolveSystem(readPlan(text, kinds).value, kinds).value);
  const open = stateAt(problem, { INV: "on", "B:management": "open" });
  assert.deepEqual(open.gives, []);
  // Its own charger makes direct current on the same bars, and has no supply here.
  assert.deepEqual(
    open.mayGive.map(({ source, by }) => [source, by]),
    [["INV:inverting", ["MA", "MB"]]],
  );
  assert.ok(open.mayGive[0]?.takers.includes("kitchen"));
  assert.deepEqual(stateAt(problem, { INV: "off", "B:management": "open" }).mayGive, []);
  assert.deepEqual(stateAt(problem, { INV: "on" }).mayGive, []);
});
