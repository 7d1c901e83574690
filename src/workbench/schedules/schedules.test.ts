import { describe, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { compile } from "../../compile.ts";
import type { Units } from "../contract.ts";
import { makePagePlan } from "../worker/page-plan.ts";
import { printDelimited } from "./delimited-text.ts";
import { moveBy } from "./grid-keys.ts";
import { makeTable } from "./make-table.ts";
import { rowWindow, WINDOWED_ABOVE } from "./row-window.ts";
import { filterRows, nextOrder, sortRows } from "./sort-rows.ts";
import { scheduleIds, type TableRow } from "./table.ts";

const units: Units = { lengths: "m", sizes: "mm²", temperatures: "°C", decimal: "." };
const planOf = (name: string, change = (text: string) => text) =>
  makePagePlan(compile(change(readFileSync(`examples/${name}.yaml`, "utf8"))), 1, { compileMs: 0, drawMs: 0 });
const sloop = planOf("sloop");

const row = (id: string, ...by: readonly (number | string | null)[]): TableRow => ({
  id,
  about: null,
  subject: null,
  cells: [id, ...by].map((x) => ({ text: String(x ?? "–"), by: x })),
});
const ids = (rows: readonly TableRow[]) => rows.map((r) => r.id).join(" ");

describe("sorting and filtering", () => {
  const rows = [row("W10", 4.3), row("W9", null), row("W2", 85), row("W1", 0.3)];
  test("names as people count them, numbers by size, what has no value last whichever way", () => {
    assert.equal(ids(sortRows(rows, { column: 0, down: false })), "W1 W2 W9 W10");
    assert.equal(ids(sortRows(rows, { column: 1, down: false })), "W1 W10 W2 W9");
    assert.equal(ids(sortRows(rows, { column: 1, down: true })), "W2 W10 W1 W9");
    assert.equal(ids(sortRows(rows, null)), ids(rows));
  });
  test("equal rows stay as they stood", () => {
    const same = [row("b", 1), row("a", 1), row("c", 1)];
    assert.equal(ids(sortRows(same, { column: 1, down: false })), "b a c");
  });
  test("a head is pressed up, down, and back to as given", () => {
    const up = nextOrder(null, 2);
    const down = nextOrder(up, 2);
    assert.deepEqual([up?.down, down?.down, nextOrder(down, 2)], [false, true, null]);
    assert.deepEqual(nextOrder(down, 3), { column: 3, down: false });
  });
  test("every word has to stand in the row", () => {
    const table = makeTable("circuits", sloop, units);
    assert.equal(ids(filterRows(table.rows, "  PNL:1 fridge ")), "W13");
    assert.equal(filterRows(table.rows, "").length, 34);
    assert.equal(filterRows(table.rows, "fridge windlass").length, 0);
  });
});

describe("schedules of the sloop", () => {
  test("each schedule has a cell for each column, and ids of its own", () => {
    for (const id of scheduleIds) {
      const table = makeTable(id, sloop, units);
      for (const r of table.rows) assert.equal(r.cells.length, table.columns.length, `${id} ${r.id}`);
      assert.equal(new Set(table.rows.map((r) => r.id)).size, table.rows.length, id);
      assert.equal(table.columns.filter((c) => c.isName).length, 1, id);
    }
  });
  test("the gravest circuit stands on top, with its finding in words", () => {
    const [first] = makeTable("circuits", sloop, units).rows;
    assert.equal(first?.id, "W18");
    assert.equal(first.cells[1]?.text, "fail, must: Switched-off always-on load");
  });
  test("no row passes without the table saying what was not judged", () => {
    const { notes } = makeTable("circuits", sloop, units);
    assert.ok(notes.some((n) => /^Not judged: fault withstand of W25, W26, .*W30\.$/.test(n)));
  });
  test("figures are printed in the person's units; what is typed over starts from them", () => {
    const table = makeTable("circuits", sloop, { ...units, decimal: ",", sizes: "AWG" });
    const fridge = table.rows.find((r) => r.id === "W13");
    const cell = (id: string) => fridge?.cells[table.columns.findIndex((c) => c.id === id)];
    assert.equal(cell("length")?.text, "5,2 m");
    assert.deepEqual(cell("length")?.edit, {
      about: "circuits.W13",
      field: "length",
      text: "5,2 m",
      label: "length of W13",
    });
    assert.equal(cell("wire")?.text, "2,5 mm²");
    assert.equal(cell("wire")?.more, "next not smaller: 12 AWG");
  });
  test("a load that is off shows a dash, one that no source reaches is dead", () => {
    const table = makeTable("voltages", sloop, units);
    const column = table.columns.findIndex((c) => c.id === "state at anchor");
    const at = (id: string) => table.rows.find((r) => r.id === id)?.cells[column]?.text;
    assert.equal(at("fridge"), "12.63 V");
    assert.equal(at("windlass"), "–");
  });
  test("a default says which key to write and where", () => {
    const table = makeTable("defaults", sloop, units);
    const cranking = table.rows.find((r) => r.id === "fault-by-cranking");
    assert.equal(cranking?.cells.at(-1)?.text, "short-circuit: … at B3");
  });
  test("a waived finding is listed with its reason, one that waives nothing too", () => {
    const waived = planOf("sloop", (text) =>
      text.replace(
        "states:\n",
        "waivers:\n  battery/switched-off-always-on-load bilge pump: { reason: mended in spring, by: owner, until: 2099-01-01 }\n  battery/switched-off-always-on-load frige: { reason: none }\nstates:\n",
      ),
    );
    const table = makeTable("waivers", waived, units);
    assert.deepEqual(
      table.rows.map((r) => [r.cells[3]?.text, r.cells[6]?.text]),
      [
        ["mended in spring", "yes"],
        ["nothing in the plan is called `frige`, so this waives nothing", "waives nothing"],
      ],
    );
  });
  test("an empty plan has an empty row to say what comes first", () => {
    const empty = makePagePlan(compile("wireworthy: 1\n"), 1, { compileMs: 0, drawMs: 0 });
    for (const id of scheduleIds.filter((x) => x !== "defaults")) {
      const table = makeTable(id, empty, units);
      assert.deepEqual([table.rows.length, table.empty === ""], [0, false], id);
    }
  });
});

describe("copied tables", () => {
  const columns = [
    { id: "a", head: "a" },
    { id: "b", head: "b", says: "spelt out" },
  ];
  test("commas, quotes and formulas do no harm", () => {
    const rows = [row("=HYPERLINK(1)", 'says "x", y'), row("-2.5", "a\tb\nc")];
    assert.equal(
      printDelimited(columns, rows, "commas"),
      'a,spelt out\r\n\'=HYPERLINK(1),"says ""x"", y"\r\n-2.5,a b c\r\n',
    );
    assert.equal(printDelimited(columns, rows, "tabs").split("\n")[2], "-2.5\ta b c");
  });
  test("each row keeps as many tabs as there are columns, whatever the names hold", () => {
    const odd = row("a\u0000\t\r\nb", "\u202ex\u2028");
    assert.equal(printDelimited(columns, [odd], "tabs").trimEnd().split("\n")[1]?.split("\t").length, 2);
  });
});

describe("walking a grid", () => {
  const size = { rows: 5, columns: 3, page: 10 };
  const go = (key: string, row: number, column: number, ctrlKey = false) => {
    const to = moveBy({ key, ctrlKey }, { row, column }, size);
    return to === null ? null : [to.row, to.column];
  };
  test("arrows, Home and End, pages; the head is above the first row", () => {
    assert.deepEqual(go("ArrowUp", 0, 1), [-1, 1]);
    assert.deepEqual(go("ArrowUp", -1, 1), [-1, 1]);
    assert.deepEqual(go("ArrowDown", 4, 2), [4, 2]);
    assert.deepEqual(go("End", 2, 0), [2, 2]);
    assert.deepEqual(go("Home", 4, 2, true), [0, 0]);
    assert.deepEqual(go("End", 0, 0, true), [4, 2]);
    assert.deepEqual(go("PageDown", 0, 1), [4, 1]);
    assert.deepEqual(go("PageUp", 4, 1), [0, 1]);
    assert.equal(go("x", 0, 0), null);
  });
});

describe("long tables", () => {
  test("short ones are drawn whole", () => {
    assert.deepEqual(rowWindow(WINDOWED_ABOVE, 0, 400, 32), { first: 0, end: WINDOWED_ABOVE });
  });
  test("wherever the view is, all rows in it are drawn and few others", () => {
    for (let top = 0; top <= 400 * 32 - 600; top += 137) {
      const { first, end } = rowWindow(400, top, 600, 32);
      assert.ok(first * 32 <= top && end * 32 >= Math.min(400 * 32, top + 600), `top ${top}`);
      assert.ok(end - first < 50 && first >= 0 && end <= 400);
    }
  });
});
