import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { hostilePlan } from "../../test/package/hostile-plan.ts";
import { compile } from "../compile.ts";
import { coordinationOnPaper } from "./coordination-on-paper.ts";
import { circuitRows } from "./fault-rows.ts";
import { printFaultSchedule } from "./fault-schedule.ts";
import { faultsOnPaper } from "./faults-on-paper.ts";
import { faultsOfCircuit, printCircuitFault } from "./print-circuit-fault.ts";
import { printFaults } from "./print-faults.ts";
import { printSchedule } from "./print-schedule.ts";
import { printSelectivity } from "./print-selectivity.ts";
import { loadsOf, printStates } from "./print-states.ts";
import { printRows } from "./stack-rows.ts";
import type { Column } from "./table.ts";
import { plain } from "./terminal.ts";
import { textWidth } from "./text-width.ts";

const WIDTHS = [40, 60];
/** Breaking a line takes blanks away and puts others in. */
const unspaced = (text: string): string => text.replace(/\s+/g, "");

interface Row {
  readonly name: string;
  readonly amps: string;
  readonly where: string;
}

const columns: readonly Column<Row>[] = [
  { head: "load", cell: (r) => r.name, least: 6 },
  { head: ["current", "A"], cell: (r) => r.amps, align: "number" },
  { head: "where", cell: (r) => r.where, least: 8 },
];

test("what does not fit side by side stands below each other with its heads, and nothing is cut", () => {
  const rows = [{ name: "navigation light", amps: "123.45", where: "on top of the mast" }];
  assert.deepEqual(printRows(columns, rows, 40), [
    "navigation light",
    "  current A: 123.45",
    "  where: on top of the mast",
  ]);
  assert.equal(printRows(columns, rows, 60).length, 3);
  assert.match(printRows(columns, rows, 60)[2] ?? "", /^navigation light +123\.45 {2}on top of the mast$/);
});

test("whatever stands in a cell, it is there, on any page", () => {
  const text = fc.string({ unit: fc.constantFrom("a", "冷", "é", " ", "²"), maxLength: 60 }).map((s) => s.trim());
  const row = fc.record({ name: text, amps: fc.integer().map(String), where: text });
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 6 }), fc.integer({ min: 16, max: 79 }), (rows, width) => {
      const lines = printRows(columns, rows, width);
      for (const line of lines) assert.ok(textWidth(line) <= width, line);
      const page = unspaced(lines.join("\n"));
      for (const { name, amps, where } of rows)
        for (const cell of [name, amps, where]) assert.ok(page.includes(unspaced(cell)), cell);
    }),
  );
});

const example = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../../examples/${name}.yaml`, import.meta.url)), "utf8");

describe.each([
  ["sloop", example("sloop")],
  ["van", example("van")],
  ["hostile", hostilePlan],
])("%s on a narrow page", (_, text) => {
  const compiled = compile(text);
  const { design, system } = compiled;
  const faults = faultsOnPaper(compiled);
  const coordination = coordinationOnPaper(compiled);
  const has = (page: string, said: readonly string[]): void => {
    for (const one of said) assert.ok(unspaced(page).includes(unspaced(one)), one);
  };

  test.each(WIDTHS)("%i columns: every row of every table is told, and no line is longer", (width) => {
    const whole = printFaults(compiled, faults, width, plain);
    has(whole, [
      ...faults.devices.flatMap(({ device, kind, verdict }) => [device, kind, verdict === "nothing to break" ? "" : verdict]), // prettier-ignore
      ...faults.terminals.flatMap(({ terminal, against }) => [terminal, against]),
      ...faults.sources.flatMap(({ part, kind, says }) => [part, kind, says]),
      ...circuitRows(faults, design.circuits).flatMap(({ id, to, guard }) => [id, to, guard ?? ""]),
    ]);
    const pairs = printSelectivity(compiled, coordination, width, plain);
    has(pairs, [
      ...coordination.pairs.flatMap(({ downstream, upstream, method }) => [downstream, upstream, method]),
      ...coordination.feeders.flatMap(({ device, branches }) => [device, branches.join(", ")]),
      ...coordination.faults.flatMap(({ dark }) => dark),
    ]);
    const states = printStates(design, width, plain).join("\n");
    has(states, [
      ...design.states.flatMap(({ id, sources }) => [id, ...sources.map(({ part }) => part)]),
      ...loadsOf(design).map(({ part }) => part),
    ]);
    const schedule = [
      ...printSchedule(design, width, plain, false),
      ...printFaultSchedule(compiled, width, plain),
    ].join("\n");
    has(schedule, design.circuits.flatMap(({ id, size }) => [id, size?.label ?? ""])); // prettier-ignore
    const circuits = system.circuits.map(({ id }) =>
      printCircuitFault(compiled, id, faultsOfCircuit(faults, id), width, plain),
    );
    for (const line of [whole, pairs, states, schedule, ...circuits].join("\n").split("\n"))
      assert.ok(textWidth(line) <= width, line);
  });
});
