import { test } from "vitest";
import assert from "node:assert/strict";
import { blockText, doubleText, plainText, singleText } from "./scalars.ts";

test("lines of a text are joined, an empty line is a line end", () => {
  assert.equal(plainText("a  \n   b\n\n  c\r\n d"), "a b\nc d");
  assert.equal(singleText("'it''s  \n  a\n\n\n  b '"), "it's a\n\nb ");
});

test("escapes are undone, and what stands for nothing is told", () => {
  assert.equal(doubleText('"a\\tb \\"c\\" \\u00b2 \\x41 \\U0001f44d \\\\"').text, 'a\tb "c" ² A 👍 \\');
  assert.equal(doubleText('"a \\\n   b\\ \n  c"').text, "a b  c");
  assert.deepEqual(doubleText('"a\\qb\\u12"').wrong, [
    { at: 2, sign: "\\q" },
    { at: 5, sign: "\\u" },
  ]);
});

test("text blocks keep or join their lines", () => {
  const body = "  a\n  b\n\n    c\n  d\n\n";
  assert.equal(blockText("|", body, 0).text, "a\nb\n\n  c\nd\n");
  assert.equal(blockText(">", body, 0).text, "a b\n\n  c\nd\n");
  assert.equal(blockText("|-", body, 0).text, "a\nb\n\n  c\nd");
  assert.equal(blockText("|+", body, 0).text, "a\nb\n\n  c\nd\n\n");
  assert.equal(blockText("|1", "  a\n b\n", 0).text, " a\nb\n");
  assert.equal(blockText("|", "", 0).text, "");
  assert.equal(blockText("|", "    \n  a\n", 0).wrong.length, 1);
});
