import { test } from "vitest";
import assert from "node:assert/strict";
import { readLabel } from "./read-label.ts";

const ids = (text: string): readonly string[] => readLabel(text).problems.map(({ id }) => id);

test("what is no label is refused with the reason", () => {
  for (const [text, id] of [
    ["", "nothing-written"],
    ["   ", "nothing-written"],
    ["x".repeat(201), "too-long"],
    ["<b>12 AWG</b>", "markup"],
    ["2/O AWG", "letter-for-digit"],
    ["l2 AWG", "letter-for-digit"],
    ["12 \u0410WG", "look-alike"],
    ["1\u200b2 AWG", "look-alike"],
    ["3-Oct", "made-by-a-spreadsheet"],
    ["02-Dec", "made-by-a-spreadsheet"],
    ["12/2/2024", "made-by-a-spreadsheet"],
    ["10:2", "other-thing"],
    ["99 AWG", "not-a-size"],
  ] as const) {
    const reading = readLabel(text);
    assert.equal(reading.verdict, "rejected", text);
    assert.deepEqual(ids(text), [id], text);
  }
});

test("what a word says has its place", () => {
  const reading = readLabel("14/3 SOOW");
  assert.equal(reading.verdict, "exact");
  assert.deepEqual(reading.readings[0]?.from.type, [[5, 9]]);
  assert.deepEqual(reading.readings[0]?.from.size, [[0, 4]]);
});
