import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";

/** 60 A for hours in a cabin: 4 AWG of the 60 °C column carries 70 A (NFPA 70 table 310.16), 6 AWG 55 A; 6 AWG of the 75 °C column 65 A. */
const plan = (set: string, more: string): string => `wireworthy: 1
rules: { DC: ${set} }
systems: { DC: { kind: DC, nominal: 48 V, return: B1 } }
stock: { sizes: AWG, metal: copper, insulation: 90 °C }
parts:
  B1: { kind: battery, chemistry: LFP, nominal: 51.2 V, capacity: 100 Ah, short-circuit: 2 kA }
  heater: { kind: load, running: 48 A }
circuits:
  W1: { path: B1 → heater, length: 1 m${more} }
`;
const terminal = (set: string, more = "") => {
  const [circuit] = compile(plan(set, more)).design.circuits;
  return circuit?.constraints.find(({ id }) => id === "terminal");
};

test("terminals alone ask for the size whose column is as cool as they are", () => {
  const usual = terminal("us-cabin");
  assert.deepEqual([usual?.outcome, usual?.alone?.label], ["met", "6 AWG"]);
  assert.match(usual?.source ?? "", /110\.14/);
  // Of 75 °C: 8 AWG carries 50 A.
  assert.equal(terminal("us-cabin", ", terminals: 75 °C")?.alone?.label, "8 AWG");
});

test("where terminals ask for nothing that is said, and on a boat only a marked one does", () => {
  assert.deepEqual([terminal("us-small-craft")?.outcome, terminal("us-small-craft")?.alone], ["not stated", null]);
  assert.equal(terminal("us-small-craft", ", terminals: 75 °C")?.outcome, "met");
});
