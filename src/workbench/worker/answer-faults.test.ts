import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "vitest";
import assert from "node:assert/strict";
import { compile } from "../../compile.ts";
import { faultTable, faultTables } from "../faults/fault-tables.ts";
import { circuitOf } from "../faults/place.ts";
import { makePagePlan } from "./page-plan.ts";
import { answerFaults } from "./answer-faults.ts";
import type { CircuitFaultsAnswer, FaultsAnswer } from "./fault-answers.ts";

const example = (name: string) =>
  compile(readFileSync(join(import.meta.dirname, `../../../examples/${name}.yaml`), "utf8"));
const sloop = example("sloop");
const all = (compiled = sloop): FaultsAnswer =>
  answerFaults(compiled, { of: "", ask: "faults", operatingState: null }) as FaultsAnswer; // its own kind of answer
const of = (circuit: string): CircuitFaultsAnswer | null =>
  answerFaults(sloop, { of: "", ask: "circuit-faults", circuit }) as CircuitFaultsAnswer | null; // its own kind of answer
const units = { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." } as const;

test("answers are plain data, and their tables have a cell for every column", () => {
  for (const name of ["sloop", "sloop-audit", "van", "hut"]) {
    const answer = all(example(name));
    assert.deepEqual(JSON.parse(JSON.stringify(answer)), answer, name);
    for (const id of faultTables) {
      const { columns, rows } = faultTable(id, answer, null, units);
      for (const row of rows) assert.equal(row.cells.length, columns.length, `${name} ${id}`);
      assert.equal(new Set(rows.map((row) => row.id)).size, rows.length, `${name} ${id}: rows of one kind`);
    }
  }
});

test("no state draws more than all sources together, nor less than the least", () => {
  for (const at of all().terminals)
    for (const one of at.states) {
      assert.ok(one.greatest <= at.greatest * (1 + 1e-9), at.terminal);
      if (one.least !== null && at.least !== null) assert.ok(one.least >= at.least * (1 - 1e-9), at.terminal);
    }
});

test("along a branch the current falls: at the fridge it is less than at its panel, and the fridge alone goes dark", () => {
  const own = of("W13");
  const [start, end] = own?.places ?? [];
  assert.ok(start?.greatest && end?.greatest && start.least && end.least);
  assert.ok(end.greatest.amps.high < start.greatest.amps.high && end.least.amps.low < start.least.amps.low);
  assert.ok(end.least.amps.high <= end.greatest.amps.high);
  assert.deepEqual(end.dark, ["fridge"]);
  // The breaker of its way sees the fault from the panel's bus.
  assert.deepEqual([end.greatest.sees[0]?.name, end.greatest.sees[0]?.from], ["PNL:1", "PNL:in:+"]);
  assert.match(own?.curves?.svg ?? "", /^<svg/);
  assert.equal(of("no such circuit"), null);
});

test("a bank that shares unevenly is drawn, a lone battery is no bank", () => {
  assert.deepEqual(
    all().banks.map(({ units: list }) => list),
    [["B1", "B2"]],
  );
  assert.deepEqual(all(example("hut")).banks.length <= 1, true);
});

test("a thing leads to its circuit", () => {
  const plan = makePagePlan(sloop, 1, { compileMs: 0, drawMs: 0 });
  for (const [about, circuit] of [
    ["circuits.W13", "W13"],
    ["circuits.W13.from", "W13"],
    ["parts.fridge", "W13"],
    ["states.at anchor", null],
    [null, null],
  ] as const)
    assert.equal(circuitOf(plan, about), circuit, String(about));
});
