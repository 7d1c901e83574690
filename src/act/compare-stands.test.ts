import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../compile.ts";
import { compiledExample } from "../../test/fixtures/compiled-example.ts";
import { act } from "./act.ts";
import { compareStands } from "./compare-stands.ts";
import { freePlaces } from "./free-places.ts";
import { whatIf } from "./what-if.ts";

test("a thicker wire drops less, carries more, and is said row by row", () => {
  const { text, compiled, memory } = compiledExample("sloop");
  const result = act(text, compiled, { do: "pin", about: "circuits.W13", text: "6 mm²" }, memory);
  assert.ok(result.ok);
  const compared = compareStands(compiled, compile(result.text), "parts.fridge");
  const row = (id: string) => compared.rows.find((r) => r.id === id);
  assert.deepEqual([row("size")?.now, row("size")?.then, row("size")?.changed], ["2.5 mm²", "6 mm²", true]);
  assert.ok((row("drop")?.thenValue ?? 1) < (row("drop")?.nowValue ?? 0));
  assert.ok((row("start-volts")?.thenValue ?? 0) > (row("start-volts")?.nowValue ?? 99));
  assert.equal(row("length")?.changed, false);
  // 5.2 m out and back of 3.5 mm² more.
  assert.ok(Math.abs((row("copper")?.thenValue ?? 0) - (row("copper")?.nowValue ?? 0) - 10.4 * 3.5) < 1e-6);
  assert.deepEqual(JSON.parse(JSON.stringify(compared)), compared);
});

test("a plan beside itself differs in nothing", () => {
  const { compiled } = compiledExample("sloop");
  const compared = compareStands(compiled, compiled, "circuits.W12");
  assert.ok(compared.rows.every((r) => !r.changed));
  assert.deepEqual([compared.others, compared.says], [[], "clears none, raises none"]);
});

test("what an act clears is said, and what comes in its place", () => {
  const { text, compiled, memory } = compiledExample("sloop-audit");
  const result = act(
    text,
    compiled,
    { do: "insert-device", circuit: "circuits.W02", text: "fuse 200 A class T" },
    memory,
  );
  assert.ok(result.ok);
  const { clears, says } = compareStands(compiled, compile(result.text), "circuits.W02");
  assert.ok(
    clears.some((f) => f.about.startsWith("circuits.W02")),
    says,
  );
});

test("a bank at another charge in one state leaves every other state as it was", () => {
  const { text, compiled, memory } = compiledExample("sloop");
  const thought = whatIf(text, compiled, { state: "at anchor", battery: 0.2 }, memory);
  assert.ok(thought.ok);
  const then = compile(thought.text);
  const volts = ({ design }: typeof then, id: string) =>
    design.states.find((s) => s.id === id)?.sources.map((s) => s.volts);
  for (const { id } of compiled.design.states) {
    if (id === "at anchor") assert.notDeepEqual(volts(then, id), volts(compiled, id));
    else assert.deepEqual(volts(then, id), volts(compiled, id), id);
  }
});

test("a state that starts from the one that is thought of keeps its own charge and engine", () => {
  const { text } = compiledExample("sloop");
  const heir = text.replace(
    "{ like: at anchor, on: [fridge, VHF, windlass], charge: 20 % }",
    "{ like: at anchor, on: [fridge] }",
  );
  const before = compile(heir);
  const thought = whatIf(heir, before, { state: "at anchor", battery: 0.1, engine: true });
  assert.ok(thought.ok);
  const { states } = compile(thought.text).system;
  const own = (s: string) => states.find(({ id }) => id === s);
  assert.deepEqual(
    own("hauling the anchor"),
    before.system.states.find(({ id }) => id === "hauling the anchor"),
  );
  assert.equal(own("at anchor")?.engine, true);
  assert.equal(own("at anchor")?.charge.B1?.low, 0.1);
});

test("without a state the banks stand lower when every load is judged", () => {
  const { text, compiled, memory } = compiledExample("sloop");
  const thought = whatIf(text, compiled, { state: null, battery: 0.05 }, memory);
  assert.ok(thought.ok);
  const stores = compile(thought.text).system.elements.filter((e) => e.is === "store");
  assert.ok(stores.length === 3 && stores.every((s) => s.lowestCharge.low === 0.05));
  assert.equal(whatIf(text, compiled, { state: "nowhere", battery: 0.2 }, memory).ok, false);
  assert.equal(whatIf(text, compiled, { state: null, battery: 7 }, memory).ok, false);
});

test("loads can be added at free ways and live bars, and at no return", () => {
  const at = (name: string) => freePlaces(compiledExample(name).compiled).places.map((p) => p.at);
  assert.deepEqual(at("sloop"), ["parts.CU:1", "parts.BP"]);
  assert.deepEqual(at("van"), ["parts.FB:9", "parts.FB:10", "parts.FB:11", "parts.FB:12", "parts.BP"]);
  assert.ok(!at("hut").includes("parts.BN") && !at("hut").includes("parts.CB"));
  assert.deepEqual(freePlaces(compiledExample("sloop").compiled).full, [{ part: "PNL", name: "DC panel", ways: 12 }]);
});
