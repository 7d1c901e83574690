import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain } from "../../test/rules/judge-plain.ts";

/** What is said of cables where a lamp and a fridge share one. */
const said = (lamp: string, fridge: string): string[] =>
  judgePlain(`circuits:
  W10: { path: PNL:1 → lamp, length: 4 m, in cable: C1${lamp} }
  W11: { path: PNL:2 → fridge, length: 5 m, in cable: C1${fridge} }`)
    .diagnostics.filter(({ level }) => level === "warning")
    .map(({ id, about }) => `${id} ${about}`);

test("a circuit in the cable of another takes what its label says, and a difference is told", () => {
  const label = ", cable: 4x1.5 mm² H07RN-F";
  assert.deepEqual(said(label, ""), []);
  assert.deepEqual(said(label, ", wire: 1.5 mm²"), []);
  assert.deepEqual(said(label, ", wire: 10 mm²"), ["system/differs-from-its-cable circuits.W11.wire"]);
  assert.deepEqual(said(label, ", insulation: 105 °C"), ["system/differs-from-its-cable circuits.W11.insulation"]);
});

test("two labels for one cable: the first counts, and the other is told", () => {
  const label = ", cable: 4x1.5 mm² H07RN-F";
  assert.deepEqual(said(label, label), []);
  assert.deepEqual(said(label, ", cable: 4x2.5 mm² H07RN-F"), ["system/cable-disagrees circuits.W11.cable"]);
});
