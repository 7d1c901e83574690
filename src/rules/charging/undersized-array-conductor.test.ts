import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain } from "../../../test/rules/judge-plain.ts";
import { ruleSets } from "../../ruleset/index.ts";

const RULE = "charging/undersized-array-conductor";

const array = (set: string, strings: number, ambient: number): string => `rules: { DC: ${set} }
climate: { ambient: ${ambient} °C, lowest: -10 °C }
parts:
  MPPT: { kind: solar controller, output: 30 A }
  PV: { kind: solar module, rated: 200 W, Voc: 24.3 V, Vmp: 20.4 V, Isc: 10 A, strings in parallel: ${strings} }
circuits:
  W20: { path: PV → MPPT:in, length: 0.5 m, drop: 10 % }
  W21: { path: MPPT:out → BP, length: 1 m }`;

test("a wire that is chosen for an array passes the rule of its own set, at any heat", () => {
  for (const { id } of ruleSets) {
    for (const [strings, ambient] of [
      [1, 30],
      [2, 30],
      [3, 55],
    ] as const) {
      const { judgement, design } = judgePlain(array(id, strings, ambient));
      const size = design.circuits.find((c) => c.id === "W20")?.size?.label;
      const found = judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W20");
      assert.equal(found?.because, undefined, `${id}, ${strings} strings at ${ambient} °C on ${size}`);
    }
  }
});
