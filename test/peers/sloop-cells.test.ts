/**
 * The schedule of the demo sloop and of 25 changes of one fact each, cell by cell, beside what `sloop-by-hand.ts` works out from the method
 * page with its own few formulas: the same cells change, to the same values, and no others.
 */
import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compile, createMemory } from "../../src/compile.ts";
import type { CircuitDesign } from "../../src/size/index.ts";
import type { workOutSloop } from "./sloop-by-hand.ts";

// The file is what the script wrote, so it has the script's own form.
const byHand = JSON.parse(readFileSync(join(import.meta.dirname, "sloop-by-hand.json"), "utf8")) as ReturnType<
  typeof workOutSloop
>;
const sloop = readFileSync(join(import.meta.dirname, "../../examples/sloop.yaml"), "utf8");

type HandRow = (typeof byHand)["base"]["rows"][number];

const digits = (x: number | null, n: number): number | null => (x === null ? null : Number(x.toFixed(n)));

function cellsOf(circuit: CircuitDesign): HandRow {
  const told = circuit.cannotTell.length === 0;
  const drop = told ? digits(circuit.dropV, 2) : null;
  const percent = circuit.dropShare === null ? null : digits(100 * circuit.dropShare, 1);
  return {
    id: circuit.id,
    size: told ? (circuit.size?.label ?? "none") : "cannot tell",
    Ib: Number((circuit.steadyA ?? Number.NaN).toPrecision(3)),
    Iz: digits(circuit.ampacityA, 1),
    devices: circuit.devices.map(({ end, ratingA, family }) => ({
      end,
      rating: ratingA,
      family,
    })) as HandRow["devices"],
    drop: drop === null || percent === null ? null : { volts: drop, percent },
    leastVolts: { steady: digits(circuit.leastVolts, 2), starting: digits(circuit.startVolts, 2) },
    deciding: circuit.decidedBy as HandRow["deciding"],
  };
}

const memory = createMemory();
const rowsOf = (text: string): HandRow[] => {
  const { design } = compile(text, memory);
  assert.equal(design.settled, true, "the design settles");
  assert.equal(design.leastCopperProved, true, "no set of sizes with less copper would do");
  return design.circuits.filter((c) => c.current === "DC").map(cellsOf);
};

test("the sloop's schedule is what the method page comes to by hand", () => {
  assert.deepEqual(rowsOf(sloop), byHand.base.rows);
});

assert.equal(byHand.changes.length, 25);
for (const { name, edit, replacements, rows } of byHand.changes) {
  test(`one fact changed: ${name} (${edit})`, () => {
    let text = sloop;
    for (const { find, replace } of replacements) {
      assert.equal(text.split(find).length, 2, `“${find}” stands once in the plan`);
      text = text.replace(find, () => replace);
    }
    assert.deepEqual(rowsOf(text), rows);
  });
}
