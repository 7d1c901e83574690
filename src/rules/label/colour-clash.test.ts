import { test } from "vitest";
import assert from "node:assert/strict";
import { judgePlain, saidOf } from "../../../test/rules/judge-plain.ts";

const RULE = "label/colour-clash";
const boat = (dc: string, ac: string, more = "") =>
  judgePlain(`systems:
  AC: { kind: AC, nominal: 230 V, cores: [L, N, PE] }
parts:
  INL: { kind: shore inlet, rated: 16 A }
  CHG: { kind: battery charger, output: 20 A }
circuits:
  W10: { path: PNL:1 → lamp, length: 4 m, colour: ${dc} }
  W50: { path: INL → CHG:in, length: 2 m, colour: ${ac} }
${more}`);

test("the schemes as they are published meet without a clash where the minus is yellow", () => {
  // ABYC and ISO: red and yellow beside black or brown, white, green(-yellow)
  for (const ac of ["[black, white, green]", "[brown, light blue, GNYE]"])
    assert.equal(saidOf(boat("[red, yellow]", ac), RULE, "plan"), "pass", ac);
});

test("one colour with two meanings in one build, one of them mains: the pairs that the trade warns of", () => {
  for (const [dc, ac] of [
    ["[red, black]", "[black, white, green]"], // black: minus and live
    ["[red, white]", "[brown, white, GNYE]"], // white: minus and neutral
    ["[red, brown]", "[brown, blue, GNYE]"], // brown: ground of a car and line
    ["[red, blue]", "[brown, blue, GNYE]"], // blue: old minus and neutral
  ] as const) {
    const { findings } = boat(dc, ac).judgement;
    const found = findings.find((f) => f.rule === RULE);
    assert.deepEqual([found?.about, found?.outcome, found?.severity], ["plan", "fail", "should"], `${dc} ${ac}`);
  }
});

test("in one enclosure it is a must", () => {
  const { findings } = boat(
    "[red, yellow]",
    "[black, white, green]",
    "  W51: { path: CHG:out → BP, length: 1 m, colour: black }",
  ).judgement;
  const found = findings.filter((f) => f.rule === RULE);
  assert.deepEqual(
    found.map((f) => [f.about, f.severity]),
    [["parts.CHG", "must"]],
  );
});

test("what is only proposed is not judged, and what gives no colours is not asked", () => {
  assert.equal(saidOf(judgePlain("circuits: {}"), RULE, "plan"), "the plan gives no colours");
});
