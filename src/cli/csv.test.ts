import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { csvNumber, disarm, printCsv, snakeCase } from "./csv.ts";

/** A second reader of RFC 4180, written from its grammar: section 2, rules 1 to 7. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  for (let at = 0; at < text.length;) {
    let field = "";
    if (text[at] === '"') {
      for (at++; text[at] !== '"' || text[at + 1] === '"'; at++) {
        field += text[at] ?? "";
        if (text[at] === '"') at++;
      }
      at++;
    } else {
      const end = /[,\r]/.exec(text.slice(at))?.index ?? text.length;
      field = text.slice(at, at + end);
      at += end;
    }
    row.push(field);
    if (text[at] === ",") at++;
    else {
      assert.equal(text.slice(at, at + 2), "\r\n", "a record ends with CR LF");
      at += 2;
      rows.push(row);
      row = [];
    }
  }
  return rows;
}

test("is read back by another reader, whatever the cells hold", () => {
  const cell = fc.string({ unit: fc.constantFrom("a", ",", '"', "\n", "\r", " ", "=", "²", "7"), maxLength: 8 });
  fc.assert(
    fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 5 }), (rows) => {
      // A record of one empty last field is lawful but ends in a comma; a mark keeps it apart.
      const read = readCsv(
        printCsv(
          ["a", "b", "c"],
          rows.map((r) => [...r, "x"]),
        ),
      );
      assert.deepEqual(
        read.slice(1),
        rows.map(([a, b]) => [disarm(a), disarm(b), "x"]),
      );
    }),
  );
});

test("no text can start a formula", () => {
  for (const text of ["=1+2", "+SUM(A1)", "-2+3", "@x", "\t=1", "\r=1", " =1", "  @x", "\u00a0=1", "＝1", "-"]) {
    assert.equal(disarm(text), `'${text}`, JSON.stringify(text));
  }
  for (const text of ["-2.5", "+7", "12", "B1", "a=b", "–", "−2 V", ""]) assert.equal(disarm(text), text);
});

test("numbers have a point, no exponent and no spare zeros", () => {
  const print = (x: number, decimals: number): string =>
    printCsv([], [[csvNumber(x, decimals)]])
      .trim()
      .split("\r\n")
      .at(-1) ?? "";
  assert.equal(print(0.9, 3), "0.9");
  assert.equal(print(100, 3), "100");
  assert.equal(print(1e-7, 3), "0");
  assert.equal(print(-1e-7, 3), "0");
  assert.equal(print(12.3456, 3), "12.346");
  assert.equal(print(-7.98, 2), "-7.98");
});

test("heads are snake case in any script", () => {
  assert.equal(snakeCase("hauling the anchor"), "hauling_the_anchor");
  assert.equal(snakeCase(" =Under way! "), "under_way");
  assert.equal(snakeCase("На якоре"), "на_якоре");
  assert.equal(snakeCase("!!"), "");
});
