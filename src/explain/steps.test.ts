import { test } from "vitest";
import assert from "node:assert/strict";
import { cite, formula, lookUp, recordSteps, type Table } from "./index.ts";

const law = cite("circuit-laws", "", "derived");
const current = formula(
  {
    id: "current",
    equation: "I = U / R",
    source: law,
    symbols: {
      volts: { symbol: "U", unit: "V", meaning: "voltage" },
      ohms: { symbol: "R", unit: "Ω", meaning: "resistance" },
    },
    unit: "A",
  },
  ({ volts, ohms }: { volts: number; ohms: number }) => volts / ohms,
);
const power = formula(
  {
    id: "power",
    equation: "P = U · I",
    source: law,
    symbols: {
      volts: { symbol: "U", unit: "V", meaning: "voltage" },
      ohms: { symbol: "R", unit: "Ω", meaning: "resistance" },
    },
    unit: "W",
  },
  ({ volts, ohms }: { volts: number; ohms: number }) => volts * current({ volts, ohms }),
);
const names = (steps: readonly { kind: string; formula?: string }[]) => steps.map((step) => step.formula ?? step.kind);

test("what a formula leans on is told before it, with the numbers put in", () => {
  const { value, steps } = recordSteps(() => power({ volts: 12, ohms: 3 }));
  assert.equal(value, 48);
  assert.deepEqual(names(steps), ["current", "power"]);
  assert.deepEqual(steps[0], {
    kind: "formula",
    formula: "current",
    equation: "I = U / R",
    given: { volts: 12, ohms: 3 },
    symbols: current.meta.symbols,
    gives: 4,
    unit: "A",
    source: law,
  });
  assert.deepEqual(JSON.parse(JSON.stringify(steps)), steps);
});

test("nothing is kept when nobody listens, nor after the recorder has ended", () => {
  power({ volts: 12, ohms: 3 });
  const { steps } = recordSteps(() => 1);
  current({ volts: 1, ohms: 1 });
  assert.equal(steps.length, 0);
});

test("a recorder inside another keeps its own steps and hands them on", () => {
  const outer = recordSteps(() => {
    current({ volts: 1, ohms: 1 });
    const inner = recordSteps(() => current({ volts: 2, ohms: 1 }));
    assert.equal(inner.steps.length, 1);
    return current({ volts: 3, ohms: 1 });
  });
  assert.deepEqual(
    outer.steps.map(({ gives }) => gives),
    [1, 2, 3],
  );
});

test("what the work throws passes through and leaves the outer recorder listening", () => {
  const { steps } = recordSteps(() => {
    assert.throws(() =>
      recordSteps(() => {
        current({ volts: 1, ohms: 1 });
        throw new Error("defect");
      }),
    );
    return current({ volts: 2, ohms: 1 });
  });
  assert.deepEqual(
    steps.map(({ gives }) => gives),
    [1, 2],
  );
});

test("a look-up is a step like any other", () => {
  const table: Table<{ size: string; amps: number }> = {
    id: "test/amps",
    cite: cite("trade-practice", "", "practice"),
    key: ["size"],
    columns: { size: { unit: "", trust: "read" }, amps: { unit: "A", trust: "read" } },
    exceptions: [[1, "amps", "memory"]],
    rows: [
      { size: "10", amps: 60 },
      { size: "8", amps: 80 },
    ],
  };
  const { steps } = recordSteps(() => lookUp(table, 8, "amps"));
  const source = cite("trade-practice", "", "memory");
  const expected = {
    kind: "look-up",
    table: "test/amps",
    row: "8",
    column: "amps",
    sought: "8",
    gives: 80,
    unit: "A",
    source,
  };
  assert.deepEqual(steps, [expected]);
});
