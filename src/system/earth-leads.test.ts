import assert from "node:assert/strict";
import { test } from "vitest";
import { createPlanMemory, readPlan } from "../plan/index.ts";
import { findEarthLeads } from "./earth-leads.ts";
import { kinds } from "./kinds/index.ts";
import { resolveSystem } from "./resolve-system.ts";

/** Leads of a build on 12 V with `B1`, `BP`, `BN` and whatever a case adds. */
function leadsOf(
  more: string,
  { returnTo = "BN", negative = "W2: { path: 'B1:− → BN', length: 1 m }" } = {},
): string[] {
  const [parts = "", circuits = ""] = more.split("---");
  const text = [
    "wireworthy: 1",
    "rules: { DC: us-small-craft, AC: us-small-craft }",
    "systems:",
    `  DC: { kind: DC, nominal: 12 V, return: ${returnTo} }`,
    "  AC: { kind: AC, nominal: 120 V, cores: [L, N, PE] }",
    "parts:",
    "  B1: { kind: battery, chemistry: AGM, capacity: 100 Ah }",
    "  BP: { kind: bus bar }",
    "  BN: { kind: bus bar }",
    "  HULL: { kind: structure, is: bonding, joints: [a, b] }",
    "  lamp: { kind: light, running: 2 A }",
    ...parts.split("\n").map((line) => `  ${line.trim()}`),
    "circuits:",
    "  W1: { path: B1 → BP, length: 1 m }",
    `  ${negative}`,
    "  W3: { path: BP → lamp, length: 3 m }",
    ...circuits.split("\n").map((line) => `  ${line.trim()}`),
    "",
  ].join("\n");
  const { value, diagnostics } = resolveSystem(readPlan(text, kinds, createPlanMemory()).value, kinds);
  assert.deepEqual(
    diagnostics.filter((d) => d.level === "error").map((d) => d.message),
    [],
  );
  return findEarthLeads(value).map(
    ({ index, to, part, onMinus, onProtective }) =>
      `${value.circuits[index]?.id ?? ""} ${to} ${part}${onMinus ? " minus" : ""}${onProtective ? " PE" : ""}`,
  );
}

test("a bond to the hull is found, whichever way it is written, and a bar on the way to it", () => {
  assert.deepEqual(leadsOf("---W9: { path: BN → HULL, length: 1 m }"), ["W9 metal HULL minus"]);
  assert.deepEqual(leadsOf("---W9: { path: HULL → BN, length: 1 m }"), ["W9 metal HULL minus"]);
  assert.deepEqual(leadsOf("---W9: { path: 'B1:− → HULL', length: 1 m }"), ["W9 metal HULL minus"]);
  assert.deepEqual(
    leadsOf("BE: { kind: bus bar }---W8: { path: BN → BE, length: 1 m }\nW9: { path: BE → HULL:a, length: 1 m }"),
    ["W8 bar BE minus", "W9 metal HULL minus"],
  );
});

test("two bonds of one hull are bonds, though a share of every return comes by them", () => {
  assert.deepEqual(leadsOf("---W8: { path: BN → HULL:a, length: 1 m }\nW9: { path: 'B1:− → HULL:b', length: 1 m }"), [
    "W8 metal HULL minus",
    "W9 metal HULL minus",
  ]);
});

test("a hull that brings the current of loads back has no bonds", () => {
  // Every return lands on it.
  assert.deepEqual(leadsOf("---", { returnTo: "HULL", negative: "W2: { path: 'B1:− → HULL', length: 1 m }" }), []);
  // One load alone does.
  assert.deepEqual(
    leadsOf(
      "pump: { kind: load, running: 5 A }---W8: { path: BN → HULL:a, length: 1 m }\nW9: { path: BP → pump, length: 1 m, return: HULL:b }",
    ),
    [],
  );
  // The battery lands on it, and the bar of the returns.
  assert.deepEqual(
    leadsOf("---W9: { path: BN → HULL:b, length: 1 m }", { negative: "W2: { path: 'B1:− → HULL:a', length: 1 m }" }),
    [],
  );
});

test("two banks, each with what it feeds, may meet at the hull by bonds", () => {
  assert.deepEqual(
    leadsOf(
      "B2: { kind: battery, chemistry: AGM, capacity: 50 Ah }\nhorn: { kind: load, running: 2 A }---W7: { path: B2 → horn, length: 1 m, return: 'B2:−' }\nW8: { path: 'B2:− → HULL:a', length: 1 m }\nW9: { path: BN → HULL:b, length: 1 m }",
    ),
    ["W8 metal HULL minus", "W9 metal HULL minus"],
  );
});

test("an engine whose alternator returns through the block is no bond", () => {
  assert.deepEqual(
    leadsOf(
      "ENG: { kind: structure, is: engine }\nALT: { kind: alternator, rated: 50 A }---W8: { path: ALT → B1, length: 1 m, return: ENG }\nW9: { path: ENG → BN, length: 1 m }",
    ),
    [],
  );
});

test("a spare bar on the plus is none, and neither is a negative bar that nothing hangs on", () => {
  assert.deepEqual(
    leadsOf(
      "BX: { kind: bus bar }\nBY: { kind: bus bar }---W8: { path: BP → BX, length: 1 m }\nW9: { path: BN → BY, length: 1 m }",
    ),
    [],
  );
});

test("conductors of earth alone: to a rod, an anode, a frame, a case, between bars, and where neutral meets earth", () => {
  const AC =
    "INL: { kind: shore inlet, rated: 30 A }\nCU: { kind: consumer unit, ways: { 1: breaker 15 A } }\nheater: { kind: load, rated: 1 kW, case: metal }\nROD: { kind: earth electrode, is: rod }\nzinc: { kind: hull anode, is: anode }\nBE: { kind: bus bar }";
  assert.deepEqual(
    leadsOf(
      `${AC}---V1: { path: INL → CU:in, length: 1 m }\nV2: { path: CU:1 → heater, length: 2 m, cores: [L, N] }\nV3: { path: heater:case → BE, length: 1 m, cores: [PE] }\nV4: { path: CU:PE → BE, length: 1 m, cores: [PE] }\nV5: { path: BE → ROD, length: 1 m, cores: [PE] }\nV6: { path: BE → zinc, length: 1 m, cores: [PE] }\nV7: { path: BE → HULL, length: 1 m, cores: [PE] }\nV8: { path: CU:N → CU:PE, length: 0.1 m }\nV9: { path: BE → BN, length: 1 m, cores: [PE], return: none }`,
    ).map((lead) => lead.replace(/ (?:minus|PE)/g, "")),
    ["V3 case heater", "V4 bar BE", "V5 electrode ROD", "V6 metal zinc", "V7 metal HULL", "V8 neutral CU", "V9 bar BN"],
  );
});
