import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "vitest";
import { layOver } from "../../../test/rules/lay-over.ts";
import { compile } from "../../compile.ts";
import { oneSource } from "./example-plans.ts";

const plain = readFileSync(new URL("../../../test/rules/plain-boat.yaml", import.meta.url), "utf8");
const RULE = "ac/wire-burnt-by-a-short";

/** Shore power of so many amps into a short, on a way of a breaker, through 10 mm² and a wire of PVC that bears 70 °C. */
function judged(prospective: string, way: string, wire: string, metres = 3) {
  const plan = oneSource({
    set: "iec-cabin 2009",
    parts: {
      INL: `kind: shore inlet, rated: 32 A, prospective current: ${prospective}`,
      CU: `kind: consumer unit, main: { residual device: 30 mA, poles: 2, rated: 40 A }, ways: { 1: breaker ${way} 2-pole }`,
    },
    circuits: {
      W20: "path: INL → CU:in, length: 1 m, wire: 10 mm²",
      W23: `path: CU:1 → sockets, length: ${metres} m, wire: ${wire}`,
    },
    more: "stock: { sizes: mm², metal: copper, strands: class 5, insulation: 70 °C }",
  });
  const { judgement } = compile(layOver(plain, plan));
  return {
    pass: judgement.passes.find((p) => p.rule === RULE && p.about === "circuits.W23"),
    found: judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W23"),
  };
}

test("600 A ashore for the 0.1 s of IEC 60898 are three sevenths of what 2.5 mm² of PVC bears", () => {
  // by hand: 230 V / 600 A + 2 × 1 m × 1.91 mΩ/m (10 mm² of class 5, IEC 60228) = 0.3872 Ω, 594 A; 594² × 0.1 = 35 290 A²s; k²S² = 115² × 2.5² = 82 656 A²s (BS 7671 Table 43.1)
  const { pass } = judged("0.5…0.6 kA", "16 A", "2.5 mm²");
  assert.ok(Math.abs((pass?.margin ?? 0) - (1 - 35290 / 82656)) < 0.005, `${pass?.margin}`);
});

test("a breaker of 40 A may leave 1 mm² in a short of less than 200 A for 5 s, and it bears that for 0.33 s", () => {
  // by hand: B 40 A has to open at once from 5 × 40 = 200 A (IEC 60898); k²S² = 115² × 1² = 13 225 A²s, 13 225 / 199.8² = 0.331 s
  const { found } = judged("0.5…0.7 kA", "40 A", "1 mm²", 20);
  assert.equal(found?.outcome, "fail");
  assert.equal(found?.severity, "must");
  assert.equal(found?.measured?.value, 5);
  assert.ok(Math.abs((found?.limit?.value ?? 0) - 0.331) < 0.001, `${found?.limit?.value}`);
});

test("a breaker that guards against overload and breaks the short passes by its own clause, without a figure of heat", () => {
  // IEC 60364-4-43 435.1
  const { pass, found } = judged("3 kA", "10 A", "1.5 mm²");
  assert.equal(found, undefined);
  assert.equal(pass?.margin, null);
});
