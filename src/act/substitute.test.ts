import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, test } from "vitest";
import { layOver } from "../../test/rules/lay-over.ts";
import { compile } from "../compile.ts";
import { substitute, type Substitution } from "./substitute.ts";

const text = readFileSync(new URL("../../examples/sloop.yaml", import.meta.url), "utf8");
const plain = readFileSync(new URL("../../test/rules/plain-boat.yaml", import.meta.url), "utf8");
const compiled = compile(text);
const put = (circuit: string, label: string): Substitution => {
  const result = substitute(text, compiled, circuit, label, compile);
  assert.ok(result.ok, result.ok ? "" : result.message);
  return result;
};
const sized = compiled.design.circuits.filter(({ size, outcome }) => size !== null && outcome === "chosen");
const one = sized.find(({ loads }) => loads.length > 0) ?? assert.fail("no circuit with a load");

describe("another wire in the place of the drawn one", () => {
  test("the same size changes nothing", () => {
    const same = put(one.id, one.size?.label ?? "");
    assert.equal(same.resistanceChange, 0);
    assert.ok(same.does);
    assert.deepEqual([same.comparison.raises, same.comparison.clears, same.lookAt], [[], [], []]);
  });

  test("a thicker wire can stand in, and the ends are to be looked at", () => {
    const thicker = put(one.id, "120 mm²");
    assert.ok(thicker.does && (thicker.resistanceChange ?? 0) < 0, thicker.says);
    assert.ok(thicker.lookAt.length > 0);
    const drop = thicker.comparison.rows.find(({ id }) => id === "drop");
    assert.ok(drop !== undefined && (drop.thenValue ?? 1) < (drop.nowValue ?? 0));
  });

  test("a thinner one does not, and the figures say why", () => {
    const thinner = put(one.id, "0.5 mm²");
    assert.ok(!thinner.does, thinner.says);
    assert.ok((thinner.resistanceChange ?? 0) > 0);
    const carries = thinner.comparison.rows.find(({ id }) => id === "ampacity");
    assert.ok(carries?.nowValue == null || carries.thenValue == null || carries.thenValue <= carries.nowValue);
  });

  test("the gauge next below in name is not the metric size: 6 AWG for 16 mm² has more resistance", () => {
    // 6 AWG is 13.3 mm² of copper (ASTM B258) against the 1.21 Ω/km of 16 mm² class 5 (IEC 60228 Table 3): 9 % more.
    const base = substitute(text, compiled, one.id, "16 mm²", compile);
    assert.ok(base.ok);
    const pinned = base.acted.text;
    const result = substitute(pinned, compile(pinned), one.id, "6 AWG", compile);
    assert.ok(result.ok);
    assert.equal(result.drawn, "16 mm²");
    assert.ok((result.resistanceChange ?? 0) > 0.05, result.says);
    assert.ok(!result.does);
  });

  test("what the plan says of the metal does not hide what the label says", () => {
    const inPlace = (facts: string, label: string) => {
      const plan = layOver(plain, `circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm²${facts} }`);
      return substitute(plan, compile(plan), "W10", label, compile);
    };
    for (const label of ["8 AWG CCA", "10 mm² aluminium"]) {
      const stated = inPlace(", metal: tinned copper", label);
      assert.ok(!stated.ok && stated.message.includes("`metal` says something else"), label);
      const stocked = inPlace("", label);
      assert.ok(stocked.ok && !stocked.does, label);
    }
    assert.ok(!inPlace(", insulation: 105 °C", "6 mm² 60 °C").ok);
    const solid = inPlace("", "6 mm² solid");
    assert.ok(solid.ok && !solid.does);
    assert.ok(solid.comparison.raises.some(({ rule }) => rule === "conductor/solid-wire-where-it-moves"));
  });

  test("the verdict gives its reason, and what the label leaves open is told", () => {
    const plan = layOver(plain, "circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, wire: 6 mm² }");
    const result = substitute(plan, compile(plan), "W10", "10 AWG", compile);
    assert.ok(result.ok);
    assert.match(result.says, /more resistance than the drawn wire, so it does not stand in; no finding is raised/);
    assert.match(result.lookAt.at(-1) ?? "", /taken as tinned copper, class 5, rated 90 °C.*the label does not say it/);
  });

  test("a cable stands in for a cable, and for nothing else", () => {
    const inPlace = (drawn: string, label: string) => {
      const plan = layOver(plain, `circuits:\n  W10: { path: PNL:1 → lamp, length: 4 m, ${drawn} }`);
      return substitute(plan, compile(plan), "W10", label, compile);
    };
    const cord = inPlace("cable: 2x2.5 mm²", "12/3 SOOW");
    assert.ok(cord.ok, cord.ok ? "" : cord.message);
    assert.match(cord.acted.text, /cable: 12\/3 SOOW/);
    assert.deepEqual([cord.drawn, cord.bought], ["2.5 mm²", "12 AWG"]);
    const single = inPlace("wire: 2.5 mm²", "12/3 SOOW");
    assert.ok(!single.ok && single.message.includes("is the label of a cable"));
    assert.ok(!inPlace("cable: 2x2.5 mm²", "12/3").ok);
  });

  test("all other copper stays as it lies", () => {
    const { comparison } = put(one.id, "120 mm²");
    assert.deepEqual(
      comparison.others.filter(({ id }) => id === "size"),
      [],
    );
  });

  test("no such circuit, no such wire: asked back", () => {
    for (const [circuit, label] of [
      ["W999", "6 mm²"],
      [one.id, "banana"],
      [one.id, ""],
    ] as const) {
      const result = substitute(text, compiled, circuit, label, compile);
      assert.ok(!result.ok || result.acted.splices.length === 0, `${circuit} ${label}`);
    }
  });
});
