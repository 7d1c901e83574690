import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/undersized-device";
const fridge = (rating: string, duty = "") => `parts:
  fridge: { kind: load, running: 9 A${duty} }
circuits:
  W11: { path: PNL:2 → fridge, length: 5 m, wire: 6 mm², breaker: ${rating} at PNL }`;
const of = (text: string) =>
  judgePlain(text).judgement.findings.find((f) => f.rule === RULE && f.about === "circuits.W11");

test("beyond the rating is a must, between 80 % and the rating is advice", () => {
  assert.equal(of(fridge("7.5 A"))?.severity, "must");
  assert.equal(of(fridge("10 A"))?.severity, "should");
  assert.equal(of(fridge("15 A")), undefined);
});

test("what runs for minutes may use the whole rating, and no more", () => {
  assert.equal(of(fridge("10 A", ", duty: intermittent")), undefined);
  assert.equal(of(fridge("7.5 A", ", duty: intermittent"))?.severity, "must");
});

test("a fuse for less than the wire carries is no mismatch", () => {
  const text = "circuits:\n  W11: { path: BP → fridge, length: 5 m, wire: 70 mm², fuse: 50 A at BP }";
  assert.equal(saidOf(judgePlain(text), RULE, "circuits.W11"), "pass");
});

test("an alternator gives for hours what it gives hot, and no device may open at what it gives cold", () => {
  const charged = (fuse: string, hot = "") =>
    judgePlain(
      `parts:\n  ALT: { kind: alternator, rated: 100 A, self-limited: no${hot} }\ncircuits:\n  W20: { path: ALT → B1, length: 1 m, wire: 50 mm², fuse: ${fuse} class T at B1, return: B1 }`,
    );
  assert.equal(saidOf(charged("110 A"), RULE, "circuits.W20"), "pass");
  assert.equal(saidOf(charged("90 A"), RULE, "circuits.W20"), "fail");
  // 95 A for hours, 88 A of 110 A.
  assert.equal(saidOf(charged("110 A", ", hot: 95 A"), RULE, "circuits.W20"), "fail");
});
