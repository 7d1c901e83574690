import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const AC = `systems:
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  kettle: { kind: load, rated: 900 W }
`;

const alternating = (cable: string) =>
  saidOf(
    judgePlain(`${AC}circuits:\n  W50: { path: INL → kettle, length: 2 m, cable: ${cable} }`),
    "cable/missing-core",
    "circuits.W50",
  );
const direct = (more: string) =>
  saidOf(
    judgePlain(`circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ${more} }`),
    "cable/missing-core",
    "circuits.W10",
  );

test("cores are counted by what they do, never by the second figure of a name", () => {
  // US building cable: two insulated conductors and a bare ground, which is not counted in its name
  assert.equal(alternating("12/2 w/G NM-B"), "pass");
  // Flexible cord counts its green conductor
  assert.equal(alternating("12/3 SOOW"), "pass");
  assert.equal(alternating("12/2 SOOW"), "fail");
  // HD 361: G has a green-yellow core, X has none
  assert.equal(alternating("3G2.5 H07RN-F"), "pass");
  assert.equal(alternating("3X2.5 H07RN-F"), "fail");
  // British flat cable: two cores and a bare earth
  assert.equal(alternating("2.5 T&E"), "pass");
});

test("a green core carries no current", () => {
  // of three cores one is green-yellow: two are left for plus and minus
  assert.equal(direct("cable: 3G1.5 H07RN-F"), "pass");
  assert.equal(
    saidOf(
      judgePlain(
        "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, cable: 4G1.5 H07RN-F, in cable: C1 }\n  W11: { path: PNL:2 → fridge, length: 4 m, in cable: C1 }",
      ),
      "cable/missing-core",
      "circuits.W10",
    ),
    "fail",
  );
});

test("it is silent without a cable, for single cores, and for what shares a cable", () => {
  assert.equal(direct("wire: 2.5 mm²"), "the plan names no cable");
  assert.equal(direct("cable: 1x16 mm² H07RN-F"), "each of its conductors is a cable of one core");
  assert.equal(direct("cable: 12/3"), "its cable is asked back where it is written");
  assert.equal(direct("in cable: C9"), "cannot tell");
});
