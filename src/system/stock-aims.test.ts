import assert from "node:assert/strict";
import { test } from "vitest";
import { compile } from "../compile.ts";

const plan = (stock: string, w2 = "", w3 = ""): string =>
  [
    "wireworthy: 1",
    "rules: { DC: iso-small-craft }",
    "systems: { DC: { kind: DC, nominal: 12 V, return: BN } }",
    `stock: { sizes: mm², ${stock} }`,
    "parts:",
    "  B1: { kind: battery, chemistry: LFP, capacity: 100 Ah, short-circuit: 3 kA }",
    "  BP: { kind: bus bar }",
    "  BN: { kind: bus bar }",
    "  lamp: { kind: light, running: 2 A }",
    "  pump: { kind: load, running: 12 A }",
    "circuits:",
    "  W1: { path: B1 → BP, length: 1 m }",
    `  W2: { path: BP → lamp, length: 3 m${w2} }`,
    `  W3: { path: BP → pump, length: 5 m${w3} }`,
    "",
  ].join("\n");
const said = (text: string): string[] => compile(text).diagnostics.map((d) => `${d.id}: ${d.message}`);

test("least cost needs a price for every size on the shelf, and says which are missing", () => {
  const stock = "sizes kept: [2.5 mm², 6 mm², 10 mm²], choose: least cost";
  const some = plan(`${stock}, price per metre: { 2.5 mm2: 1.10, 6 mm²: 2 }`);
  assert.match(said(some).join("\n"), /prices-missing: .* that of 10 mm² is missing, so the least copper is chosen/);
  assert.equal(compile(some).design.aim, "least copper");
  assert.match(said(plan(stock)).join("\n"), /none is given/);
  const all = compile(plan(`${stock}, price per metre: { 2.5 mm2: 1.10, 6 mm²: 2, 10 mm²: 3.5 }`));
  assert.equal(all.design.aim, "least cost");
  assert.ok((all.design.price ?? 0) > 0);
  assert.match(said(plan(`${stock}, price per metre: { 3 mm²: 1 }`)).join("\n"), /`3 mm²` is no size on the shelf/);
  assert.match(said(plan(`${stock}, price per metre: { 6 mm²: 2 EUR }`)).join("\n"), /expected a figure above 0/);
});

test("the shelf is in order whatever order it is written in", () => {
  const sizes = (kept: string): string[] =>
    compile(plan(`sizes kept: [${kept}]`)).design.circuits.map((c) => c.size?.label ?? "");
  assert.deepEqual(sizes("10 mm², 2.5 mm², 6 mm², 2.5 mm²"), sizes("2.5 mm², 6 mm², 10 mm²"));
});

test("a price that is missing is no matter to another aim", () => {
  assert.deepEqual(said(plan("price per metre: { 6 mm²: 2 }")), said(plan("metal: tinned copper")));
});

test("circuits of one size: the pinned one counts for all, two pins are told, and so is a name that there is not", () => {
  const size = (text: string, at: number): string => compile(text).design.circuits[at]?.size?.label ?? "";
  const free = plan("metal: tinned copper", ", same size as: W3");
  assert.equal(size(free, 1), size(free, 2));
  assert.equal(size(plan("metal: tinned copper", ", same size as: W3", ", wire: 16 mm²"), 1), "16 mm²");
  const two = plan("metal: tinned copper", ", same size as: W3, wire: 6 mm²", ", wire: 16 mm²");
  assert.match(said(two).join("\n"), /same-size-disagrees: .* 6 mm² and 16 mm²; each keeps its own/);
  assert.match(said(plan("metal: copper", ", same size as: W9")).join("\n"), /there is no circuit `W9`/);
});
