import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/oversized-device";
const of = (fragment: string) => judgePlain(fragment);
const way = (wire: string, rating: string, head = "") =>
  `${head}circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: ${wire}, breaker: ${rating} at PNL }`;
const US = "rules: { DC: us-small-craft ABYC E-11 }\nstock: { sizes: AWG, insulation: 105 °C }\n";

test("a fuse below 1.5 times the ampacity on 12 V fails the standard and is told that the law alone would pass it", () => {
  const feeders = `
  W01: { path: B1 → SW1, length: 0.8 m, wire: 1/0 AWG, sheathed: yes, fuse: 100 A at B1 }
  W04: { path: BP → PNL, length: 1.5 m, wire: 2 AWG, fuse: 80 A at BP }`;
  const found = of(way("12 AWG", "40 A", US) + feeders).judgement.findings.find((f) => f.rule === RULE);
  // Not bundled, 45 A × 0.70 for two in a sheath: 31.5 A; the next rating is 35 A, the law's 1.5 × 31.5 A.
  assert.deepEqual(found?.limit, { value: 35, unit: "A" });
  assert.match(found?.because ?? "", /the law alone would allow 47\.\d A/);
});

test("a rating that is a range is told where it decides", () => {
  // 1.5 mm² carries 21 A, ISO small craft.
  assert.equal(saidOf(of(way("1.5 mm²", "15…20 A")), RULE, "circuits.W10"), "pass");
  assert.equal(saidOf(of(way("1.5 mm²", "15…25 A")), RULE, "circuits.W10"), "cannot tell");
});

test("a smaller device behind it opens first", () => {
  const text = `circuits:
  W04: { path: BP → PNL, length: 1.5 m, wire: 10 mm², fuse: FUSE at BP }
  W10: { path: PNL:1 → lamp, length: 4 m, wire: 1.5 mm², breaker: 40 A at PNL }`;
  assert.equal(saidOf(of(text.replace("FUSE", "20 A")), RULE, "circuits.W10"), "pass");
  assert.equal(saidOf(of(text.replace("FUSE", "30 A")), RULE, "circuits.W10"), "fail");
});

test("a device that is a part of its own guards the conductors on both its sides", () => {
  const text = `parts:
  F1: { kind: fuse, rated: RATED, family: class T }
circuits:
  W01: { path: B1 → F1, length: 0.1 m, wire: 25 mm², fuse: none }
  W05: { path: F1 → SW1, length: 0.8 m, wire: 25 mm², fuse: none }`;
  const small = of(text.replace("RATED", "125 A"));
  const large = of(text.replace("RATED", "150 A"));
  // 25 mm² carries 140 A.
  for (const id of ["circuits.W01", "circuits.W05"]) {
    assert.equal(saidOf(small, RULE, id), "pass");
    assert.equal(saidOf(large, RULE, id), "fail");
  }
});

test("a small conductor of a cabin has its greatest device whatever it carries, as NFPA 70 240.4(D) says", () => {
  const rules = "rules: { DC: us-cabin NEC 2023 }\nstock: { sizes: AWG, insulation: 90 °C }\n";
  // 12 AWG carries 20 A by its terminals, and 25 A by those marked 75 °C; the device stays at 20 A.
  const breaker = (amps: number, more = "") =>
    saidOf(of(way(`12 AWG${more}`, `${amps} A`, rules)), RULE, "circuits.W10");
  assert.deepEqual([breaker(20), breaker(25)], ["pass", "fail"]);
  const marked = ", terminals: 75 °C";
  assert.deepEqual([breaker(20, marked), breaker(25, marked)], ["pass", "fail"]);
});

test("by the IEC sets a device is sure to open by 1.45 times the ampacity, or that cannot be told", () => {
  const head = "rules: { DC: iec-cabin 2009 }\n";
  const plan = (fuse: string) =>
    of(
      `${head}circuits:\n  W01: { path: B1 → SW1, length: 0.8 m, wire: 70 mm², sheathed: yes, fuse: 200 A class T at B1 }\n  W04: { path: BP → PNL, length: 1.5 m, wire: 25 mm², method: B1, fuse: ${fuse} at BP }`,
    );
  const said = (fuse: string) => saidOf(plan(fuse), RULE, "circuits.W04");
  // IEC 60364-5-52 Table B.52.2, 25 mm² in B1, 101 A at 70 °C. A strip fuse opens at 1.5 times its rating: 101 × 1.45 ÷ 1.5 = 97.6 A.
  assert.deepEqual(["100 A class T", "110 A class T", "80 A SF30", "100 A SF30"].map(said), [
    "pass",
    "fail",
    "pass",
    "fail",
  ]);
  assert.deepEqual(["50 A terminal fuse", "100 A ANL", "125 A ANL"].map(said), ["cannot tell", "cannot tell", "fail"]);
});
