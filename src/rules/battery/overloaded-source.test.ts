import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "battery/overloaded-source";
const galley = (states: string): string => `systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
rules: { DC: iso-small-craft 2020+A1:2022, AC: iso-small-craft 2020+A1:2022 }
parts:
  INV: { kind: inverter, rated: 2 kVA, efficiency: 90 % }
  PNA: { kind: panel, ways: 2 }
  kettle: { kind: load, running: 1.8 kW }
  oven: { kind: load, running: 1.6 kW }
circuits:
  W20: { path: BP → INV:in, length: 1 m }
  W21: { path: INV:out → PNA:in, length: 1 m }
  W22: { path: PNA:1 → kettle, length: 3 m }
  W23: { path: PNA:2 → oven, length: 3 m }
states:
${states}`;

test("loads that are never on together are counted one by one", () => {
  const apart = judgePlain(
    galley(
      "  tea: { on: [INV, kettle], charge: 40 % }\n  cake: { on: [INV, oven], charge: 40 % }\n  never together: [kettle, oven]",
    ),
  );
  assert.equal(saidOf(apart, RULE, "parts.INV"), "pass");
  const together = judgePlain(galley("  party: { on: [INV, kettle, oven], charge: 40 % }"));
  const finding = together.judgement.findings.find((f) => f.rule === RULE);
  assert.equal(finding?.outcome, "fail");
  assert.equal(finding.measured?.value, 3400);
});

test("a converter gives no more than its rating, at a start either", () => {
  const alone = (running: string): string =>
    `parts:
  CONV: { kind: DC-DC converter, nominal: 24 V, output: 10 A }
  pump: { kind: load, ${running} }
systems:
  DC: { kind: DC, nominal: 12 V, return: BN }
  DC24: { kind: DC, nominal: 24 V, return: BN }
rules: { DC: iso-small-craft 2020+A1:2022, DC24: iso-small-craft 2020+A1:2022 }
circuits:
  W20: { path: BP → CONV:in, length: 1 m }
  W21: { path: CONV:out → pump, length: 3 m }`;
  assert.equal(saidOf(judgePlain(alone("running: 10 A")), RULE, "parts.CONV"), "pass");
  const starting = judgePlain(alone("running: 4 A, starting: 12 A")).judgement.findings.find((f) => f.rule === RULE);
  assert.match(starting?.because ?? "", /while something starts/);
});

test("an inverter that states no rating cannot be told", () => {
  const unknown = judgePlain(
    galley("  tea: { on: [INV, kettle], charge: 40 % }").replace("rated: 2 kVA", "rated: unknown"),
  );
  assert.equal(saidOf(unknown, RULE, "parts.INV"), "cannot tell");
});
