import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "protection/low-voltage-rating";
const at = (nominal: string, battery: string, fuse: string) => `systems:
  DC: { kind: DC, nominal: ${nominal}, return: BN }
parts:
  B1: { kind: battery, chemistry: LFP, nominal: ${battery}, capacity: 100 Ah, short-circuit: 3 kA }
  F1: { kind: fuse, rated: 5 A, family: blade, DC volts: 80 V }
circuits:
  W10: { path: BP → lamp, length: 4 m, fuse: ${fuse} }`;
const outcome = (text: string) => saidOf(judgePlain(text), RULE, "circuits.W10");

test("parts for 32 V end at 24 V systems", () => {
  assert.equal(outcome(at("24 V", "25.6 V", "5 A blade at BP")), "pass");
  assert.equal(outcome(at("48 V", "51.2 V", "5 A blade at BP")), "fail");
});

test("what stands on the part wins over its family", () => {
  assert.equal(outcome(at("48 V", "51.2 V", "F1")), "pass");
});

test("a fuse of a kind that is not named may be any that is on sale", () => {
  assert.equal(outcome(at("24 V", "25.6 V", "5 A at BP")), "pass");
  assert.equal(outcome(at("48 V", "51.2 V", "5 A at BP")), "cannot tell");
});

test("a solar module gives more in the cold", () => {
  // 25 V at 25 °C, −0.3 % for each of 55 K: 29.1 V in two in series 58.3 V; a class T fuse opens 125 V, one for 58 V not this.
  const solar = (volts: string, more: string, lowest: string) => `climate: { ambient: 30 °C${lowest} }
parts:
  PV1: { kind: solar module, rated: 175 W, Voc: 25 V, Vmp: 20 V, Isc: 9 A, in series: 2${more} }
  MPPT: { kind: solar controller, output: 30 A }
  F1: { kind: fuse, rated: 15 A, DC volts: ${volts} }
circuits:
  W20: { path: PV1 → MPPT:in, length: 7 m, wire: 6 mm², fuse: F1 }
  W21: { path: MPPT:out → BP, length: 1 m }`;
  const of = (text: string) => saidOf(judgePlain(text), RULE, "circuits.W20");
  assert.equal(of(solar("58 V", ", Voc per kelvin: -0.3 %", ", lowest: -30 °C")), "fail");
  assert.equal(of(solar("59 V", ", Voc per kelvin: -0.3 %", ", lowest: -30 °C")), "pass");
  assert.equal(of(solar("58 V", "", "")), "cannot tell");
  assert.equal(of(solar("80 V", "", "")), "pass");
  assert.equal(of(solar("32 V", "", "")), "fail");
});

test("a rating that nobody lists has the volts of its family", () => {
  const at = (nominal: number, battery: number, fuse: string) =>
    saidOf(
      judgePlain(
        `systems:\n  DC: { kind: DC, nominal: ${String(nominal)} V, return: BN }\nparts:\n  B1: { kind: battery, chemistry: LFP, nominal: ${String(battery)} V, capacity: 100 Ah, short-circuit: 3 kA }\ncircuits:\n  W10: { path: BP → lamp, length: 4 m, fuse: ${fuse} at BP }`,
      ),
      "protection/low-voltage-rating",
      "circuits.W10",
    );
  // ISO 8820-3: standard blades end at 40 A and 32 V.
  assert.deepEqual([at(48, 51.2, "45 A blade"), at(12, 12.8, "45 A blade")], ["fail", "pass"]);
});
