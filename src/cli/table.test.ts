import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { printTable, stackedHead, type Column } from "./table.ts";
import { textWidth } from "./text-width.ts";

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

test("numbers stand on their point, words to the right of them, units in the head", () => {
  const rows = [
    { name: "fridge", amps: "4.3", where: "galley" },
    { name: "windlass", amps: "85", where: "bow" },
    { name: "radio", amps: "0.05", where: "" },
    { name: "spare", amps: "–", where: "locker" },
    { name: "charger", amps: "−30", where: "locker" },
  ];
  assert.deepEqual(printTable(columns, rows, 80), [
    "          current",
    "load            A  where",
    "fridge       4.3   galley",
    "windlass    85     bow",
    "radio        0.05",
    "spare           –  locker",
    "charger    −30     locker",
  ]);
});

test("only free text is cut, and never below its least", () => {
  const rows = [{ name: "navigation light", amps: "123.45", where: "on top of the mast" }];
  const narrow = printTable(columns, rows, 26);
  assert.deepEqual(narrow, ["         current", "load           A  where", "naviga…   123.45  on top…"]);
  // Six and eight columns of text, seven of numbers, twice two blanks.
  assert.equal(printTable(columns, rows, 25)?.at(-1), "navig…   123.45  on top…");
  assert.equal(printTable(columns, rows, 24), null);
});

test("cells of several lines stand below each other", () => {
  const two: readonly Column<readonly string[]>[] = [
    { head: "wire", cell: ([id = ""]) => id },
    { head: "device", cell: (cells) => cells.slice(1), align: "number" },
  ];
  assert.deepEqual(printTable(two, [["W1", "40", "7.5"]], 80), ["wire  device", "W1      40", "         7.5"]);
});

const cell = fc
  .string({ unit: fc.constantFrom("a", "冷", "é", " ", "²"), minLength: 1, maxLength: 30 })
  .map((s) => s.trim() || "a");
const number = fc.oneof(
  fc.double({ min: -1e4, max: 1e4, noNaN: true }).map((x) => x.toFixed(2)),
  fc.integer({ min: -999, max: 999 }).map(String),
  fc.constantFrom("–", "dead"),
);
const row = fc.record({ name: cell, amps: number, where: cell });

test("whatever stands in it, a table keeps to its width and its columns never touch", () => {
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 8 }), fc.integer({ min: 30, max: 90 }), (rows, width) => {
      const lines = printTable(columns, rows, width);
      assert.ok(lines !== null);
      for (const line of lines) {
        assert.ok(textWidth(line) <= width, line);
        assert.equal(line, line.trimEnd());
      }
      // The numbers end, or have their point, in the same column of every line.
      const points = new Set<number>();
      rows.forEach(({ amps }, i) => {
        const line = lines[i + 2] ?? "";
        if (!/^-?\d/.test(amps)) return;
        const found = / {2}(-?\d+)(?:\.\d+)?(?: |$)/.exec(line);
        assert.ok(found !== null, line);
        points.add(textWidth(line.slice(0, found.index)) + 2 + (found[1] ?? "").length);
      });
      assert.ok(points.size <= 1, lines.join("\n"));
    }),
  );
});

test("the name of a state heads a narrow column in at most three lines", () => {
  assert.deepEqual(stackedHead("hauling the anchor", 11), ["hauling the", "anchor"]);
  const long = stackedHead("at anchor in a very crowded little harbour at night", 11);
  assert.equal(long.length, 3);
  assert.ok(long.every((line) => textWidth(line) <= 11) && long[2]?.endsWith("…") === true, long.join("|"));
});
