import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";
import { findSensitivity } from "./sensitivity.ts";

const plan = (bundle: string, drop: string, charge: string, air: string): string =>
  [
    "wireworthy: 1",
    "rules: { DC: iso-small-craft }",
    "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
    "stock: { sizes: mm², metal: tinned copper, strands: class 5, insulation: 90 °C }",
    "parts:",
    `  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 3 kA, lowest charge: ${charge} }`,
    "  BP: { kind: bus bar }",
    "  BN: { kind: bus bar }",
    "  pump: { kind: load, running: 25 A, runs above: 11.5 V }",
    "circuits:",
    "  W1: { path: B1 → BP, length: 1 m }",
    `  W2: { path: BP → pump, length: 6 m, bundle: ${bundle}, drop: ${drop}, ambient: ${air} }`,
    "",
  ].join("\n");
const NOW = ["2", "8 %", "20 %", "30 °C"] as const;
const sizeOf = (text: string): string | null => {
  const c = compile(text).design.circuits[1];
  return c?.nothingIsEnough === true ? null : (c?.size?.label ?? null);
};

test("what changes a size does so in the edited plan at the value told, and not at the one before", () => {
  const { system, runs, settled } = compile(plan(...NOW));
  const { size, changes, nothing, held } = findSensitivity(system, runs, settled, 1);
  assert.equal(size, sizeOf(plan(...NOW)));
  assert.match(held, /one input is moved at a time/);
  const at = { bundle: 0, drop: 1, charge: 2, ambient: 3 };
  const unit = { bundle: "", drop: " %", charge: " %", ambient: " °C" };
  let seen = 0;
  for (const change of changes) {
    const { input, changesAt, until, to } = change;
    if (!(input in at)) continue;
    const which = input as keyof typeof at; // asked just above
    const edited = (value: number): string => {
      const facts: [string, string, string, string] = [...NOW];
      facts[at[which]] = `${value}${unit[which]}`;
      return plan(...facts);
    };
    seen++;
    assert.equal(sizeOf(edited(changesAt)), to, change.when);
    assert.equal(sizeOf(edited(until)), size, `${change.when}, until ${until}`);
  }
  assert.ok(seen >= 3, JSON.stringify(changes));
  // What was moved and changed nothing is told with how far it went.
  for (const { fact, to } of nothing) assert.ok(Number.isFinite(to), fact);
});
