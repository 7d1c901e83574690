import { readFileSync } from "node:fs";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { viewBuild } from "../build.ts";
import { judgePlain } from "../../../test/rules/judge-plain.ts";
import { banksOf } from "./banks.ts";

const banksIn = (compiled: ReturnType<typeof compile>): { units: string; abreast: string; inner: number }[] =>
  banksOf(viewBuild(compiled)).list.map((b) => ({
    units: b.parts.map((p) => p.id).join(" "),
    abreast: b.abreast.join(" "),
    inner: b.inner.size,
  }));
const planNamed = (name: string): string =>
  readFileSync(new URL(`../../../test/plans/${name}.yaml`, import.meta.url), "utf8");
const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8");

test("two units on one switch are a bank, the start battery another", () => {
  assert.deepEqual(banksIn(compile(example("sloop"))), [
    { units: "B1 B2", abreast: "2 2", inner: 0 },
    { units: "B3", abreast: "1", inner: 0 },
  ]);
});

test("two strings of two, not joined in the middle, are one bank", () => {
  assert.deepEqual(banksIn(compile(planNamed("series-bank"))), [
    { units: "B1 B2 B3 B4", abreast: "2 2 2 2", inner: 2 },
  ]);
});

test("one string is one unit abreast", () => {
  assert.deepEqual(banksIn(compile(planNamed("midpoint-tap"))), [{ units: "B1 B2", abreast: "1 1", inner: 1 }]);
});

const twoBanks = (positions: string): string => `parts:
  S1: { kind: battery, chemistry: AGM, capacity: 80 Ah }
  SEL: { kind: selector switch, rated: 300 A }
circuits:
  W01: { path: B1 → SEL:1, length: 0.8 m }
  W05: { path: S1 → SEL:2, length: 0.8 m }
  W02: { path: SEL:out → BP, length: 0.4 m }
states:
${positions}`;

test("batteries on two positions of a selector are banks of their own, until a state stands at both", () => {
  const apart = judgePlain(twoBanks("  at anchor: { on: [lamp], SEL: 1 }\n  second: { on: [lamp], SEL: 2 }"));
  assert.deepEqual(
    banksIn(apart).map((b) => b.units),
    ["B1", "S1"],
  );
  const joined = judgePlain(twoBanks("  at anchor: { on: [lamp], SEL: both }"));
  assert.deepEqual(
    banksIn(joined).map((b) => b.units),
    ["B1 S1"],
  );
});
