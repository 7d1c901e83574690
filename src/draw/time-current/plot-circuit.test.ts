import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { compile } from "../../compile.ts";
import { studyFaults } from "../../size/study-faults.ts";
import { plotCircuit } from "./index.ts";

const { settled } = compile(readFileSync(new URL("../../../examples/sloop.yaml", import.meta.url), "utf8"));

test("the chain of a circuit runs from its own device to the batteries, with its faults and wires", () => {
  const plot = plotCircuit(settled, "W13");
  assert.ok(plot !== null);
  // The fuses of the batteries cannot open for a fault as small as one at the far end: each sees less than its rating.
  assert.deepEqual(
    plot.devices.map(({ about }) => about),
    ["circuits.W13", "circuits.W04"],
  );
  const end = studyFaults(settled)
    .circuits.flatMap((c) => c?.ends ?? [])
    .filter(({ circuit }) => circuit === "W13");
  const greatest = end.map((e) => e.greatest?.amps.high ?? 0).sort((a, b) => a - b);
  const marked = plot.markers.map(({ amps }) => amps);
  assert.deepEqual(marked.slice(1), greatest);
  assert.ok((marked[0] ?? Infinity) < (greatest[0] ?? 0));
  assert.deepEqual(
    plot.conductors.map(({ about }) => about),
    ["circuits.W13", "circuits.W04"],
  );
  // A damage line is one energy: I²t is the same at both of its ends.
  for (const { points } of plot.conductors) {
    const [a, b] = points.map(([amps, seconds]) => amps ** 2 * seconds);
    assert.ok(a !== undefined && b !== undefined && Math.abs(a / b - 1) < 1e-9);
  }
  assert.deepEqual(
    plot.pulses.map(({ start, running }) => [...start, running]),
    [[8, 0.5, 4.3]],
  );
  assert.match(plot.notes[0] ?? "", /^PNL:1 below W04: /);
});

test("of what is no circuit, or carries no fault, nothing is plotted", () => {
  assert.equal(plotCircuit(settled, "W99"), null);
});
