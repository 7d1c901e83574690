import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";
import type { Compiled } from "../../compile.ts";

const RULE = "protection/cable-burnt-before-clearing";
const answerOf = ({ design }: Compiled, id: string) =>
  design.circuits.find((c) => c.id === id)?.constraints.find((k) => k.id === "withstand");

const lampOn = (wire: string, device: string): Compiled =>
  judgePlain(
    `circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 70 mm², sheathed: yes, fuse: 250 A class T at B1 }\n  W10: { path: BP → lamp, length: 3 m, wire: ${wire}, fuse: ${device} at BP }`,
  );

test("a wire that is burnt before its fuse clears asks for the size that bears it", () => {
  const answer = answerOf(lampOn("2.5 mm²", "100 A strip fuse 30 mm"), "W10");
  assert.equal(answer?.outcome, "not met");
  // By hand: the strip fuse may take 3 s at five times its rating, 500² × 3 = 750 000 A²s. Copper from 90 °C to 160 °C, the end of usual insulation: k = 226 √ln((234.5 + 160) ÷
  // (234.5 + 90)) = 99.9, so the area is √750 000 ÷ 99.9 = 8.7 mm², and 10 mm² is on sale (k: IEC 60364-5-54 annex A, read).
  assert.equal(answer.alone?.label, "10 mm²");
  assert.match(answer.source, /434\.5\.2/);
});

test("the size that is asked for is borne, by the rule itself", () => {
  const compiled = lampOn("10 mm²", "100 A strip fuse 30 mm");
  assert.notEqual(saidOf(compiled, RULE, "circuits.W10"), "fail");
  assert.notEqual(answerOf(compiled, "W10")?.outcome, "not met");
});

test("a wire that bears its shorts is met, and alone asks for no more than it has", () => {
  const compiled = lampOn("1.5 mm²", "5 A blade");
  const answer = answerOf(compiled, "W10");
  assert.equal(answer?.outcome, "met");
  assert.ok((answer.alone?.areaMm2 ?? 9) <= 1.5);
  assert.equal(saidOf(compiled, RULE, "circuits.W10"), "pass");
});

test("of a device of which no opening time is published nothing is proven, and no size is asked", () => {
  const answer = answerOf(judgePlain(""), "W11");
  assert.equal(answer?.outcome, "cannot tell");
  assert.equal(answer.alone, null);
});

test("no size is chosen for it", () => {
  for (const circuit of judgePlain("").design.circuits) assert.notEqual(circuit.decidedBy, "withstand");
});
