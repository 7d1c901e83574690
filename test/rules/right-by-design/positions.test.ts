import assert from "node:assert/strict";
import { describe, test } from "vitest";
import { rules } from "../../../src/rules/index.ts";
import { judgePlain, saidOf } from "../judge-plain.ts";
import { examplesOf } from "../../../src/rules/rule.ts";

/** Builds of alternating current that are right and that a naive check would fault: the rule, its example, the thing, and what it says instead. */
const list: readonly (readonly [rule: string, example: string, about: string, said: string])[] = [
  ["ac/missing-neutral-earth-join", "no join aboard on shore power: the one ashore is counted", "parts.INL", "pass"],
  ["ac/missing-neutral-earth-join", "a floating generator behind a board that has its own join", "parts.GEN", "pass"],
  [
    "ac/missing-neutral-earth-join",
    "a floating generator with one tool of class II",
    "parts.GEN",
    "a floating generator that feeds one load of class II",
  ],
  [
    "ac/doubled-neutral-earth-join",
    "a relay in the inverter/charger that is closed while it inverts, and open on shore power",
    "parts.INV",
    "pass",
  ],
  ["ac/doubled-neutral-earth-join", "a join on the far side of an isolation transformer", "parts.T1", "pass"],
  ["ac/unswitched-neutral", "the neutral stays, and the inverter never joins its own", "parts.TS", "pass"],
  [
    "ac/missing-residual-device",
    "an American cabin, which asks by place",
    "parts.sockets",
    "its rule set does not ask for it, or asks by place",
  ],
  ["ac/unguarded-outlet", "a water heater that is wired fast", "parts.sockets", "it is no outlet"],
  ["ac/missing-polarity-guard", "an indicator", "parts.INL", "pass"],
  [
    "ac/overlapping-transfer",
    "an inverter/charger that moves both sources in 8 ms",
    "parts.INV",
    "it moves inside an inverter/charger",
  ],
  ["ac/parallel-sources", "an inverter/charger that moves both by its own relay", "parts.INV", "pass"],
];

describe("alternating current that is right is left in peace", () => {
  for (const [id, says, about, said] of list) {
    test(`${id}: ${says}`, () => {
      const plan = rules.flatMap((r) => (r.id === id ? examplesOf(r).good : [])).find((g) => g.says === says)?.plan;
      assert.ok(plan !== undefined, "there is such an example");
      assert.equal(saidOf(judgePlain(plan), id, about), said);
    });
  }
});
