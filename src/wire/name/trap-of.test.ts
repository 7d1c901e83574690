import { test } from "vitest";
import assert from "node:assert/strict";
import { printAwg, printMetric, printSae, printVehicleDiameter } from "../label/print-size.ts";
import { emptyMake, type CableCores, type PrintedSize, type WireMake } from "../make/wire-make.ts";
import { spokenTrap, trapOf } from "./trap-of.ts";
import type { NameDialect, NameUse } from "./wire-name.ts";

const cores = (insulated: number, ground: CableCores["ground"]): CableCores => ({
  insulated,
  total: ground === "bare" ? insulated + 1 : insulated,
  ground,
  groundSize: null,
  others: [],
  paired: false,
});

function trap(size: PrintedSize | null, dialect: NameDialect, use: NameUse, more: Partial<WireMake> = {}): string {
  assert.ok(size !== null);
  const make = { ...emptyMake, size, ...more };
  return (use === "spoken" ? spokenTrap(make, size, dialect) : trapOf(make, size, { dialect, use })) ?? "";
}

test("a lost stroke halves the copper of 2/0", () => {
  // ASTM B258: three numbers are a factor of 2.005 in area.
  assert.match(trap(printAwg("2/0"), "boat", "sleeve"), /`2\/0` is read as 2 AWG, which has 50 % less copper/);
});

test("vehicle sizes tell what they lack", () => {
  // SAE 12 has 2.96 mm² against 3.31: tables of small craft carry both.
  assert.match(trap(printSae("12"), "vehicle", "order"), /11 % less copper than 12 AWG/);
  assert.match(trap(printVehicleDiameter(6), "australian", "sleeve"), /4\.59 mm² of copper in it, not 6 mm²/);
});

test("a size from elsewhere tells both neighbours, since either may be sent", () => {
  assert.match(trap(printAwg("12"), "european", "order"), /2\.5 mm² is 24 % thinner, 4 mm² 21 % thicker/);
  assert.match(trap(printMetric(2.5), "north american", "order"), /14 AWG is 17 % thinner, 12 AWG 32 % thicker/);
});

test("what the number does not count is counted", () => {
  const house = { family: "building cable", cores: cores(2, "bare") } as const;
  assert.match(trap(printAwg("12"), "north american", "order", house), /the bare ground makes 3/);
  const boat = { family: "boat cable", cores: cores(3, "insulated") } as const;
  assert.match(trap(printAwg("14"), "boat", "sleeve", boat), /`14\/3` without its kind is 3 wires here, and 4/);
  assert.match(trap(printMetric(2.5), "british", "order", { cores: cores(3, "insulated") }), /3X2\.5 has none/);
});

test("what is heard is told apart", () => {
  assert.match(trap(printMetric(6), "australian", "spoken"), /`mil` is mm² here.*millimetres outside/);
  assert.match(trap(printAwg("12"), "north american", "spoken"), /12 gauge SAE has less copper/);
});
