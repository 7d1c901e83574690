import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { excerpt, lineStartsOf, positionAt } from "./positions.ts";

/** The line above its mark, as printed. */
const printed = (text: string, start: number, end: number, width?: number) => {
  const { line, mark } = excerpt(text, [start, end], width);
  return [line, mark];
};

test("line and column count from 1, in characters, whatever the line ends", () => {
  const text = "a: 1\r\nb: 👍x\n\nc";
  const at = (sign: string) => positionAt(text, text.indexOf(sign), lineStartsOf(text));
  assert.deepEqual(at("a"), { line: 1, column: 1, unit: 0 });
  assert.deepEqual(at("b"), { line: 2, column: 1, unit: 0 });
  assert.deepEqual(at("x"), { line: 2, column: 5, unit: 5 });
  assert.deepEqual(at("c"), { line: 4, column: 1, unit: 0 });
  assert.deepEqual(positionAt(text, 1e9), { line: 4, column: 2, unit: 1 });
  assert.deepEqual(positionAt("", 0), { line: 1, column: 1, unit: 0 });
});

test("the mark stands under what is meant", () => {
  const text = "x\n  W14: { path: PNL:2 → mast, length: 3.2 }\r\n";
  const start = text.indexOf("3.2");
  assert.deepEqual(printed(text, start, start + 3), [
    "  W14: { path: PNL:2 → mast, length: 3.2 }",
    "                                     ^^^",
  ]);
  assert.deepEqual(printed("a\tb\tc: d", 4, 5), ["a  b  c: d", "      ^"]);
  assert.deepEqual(printed("錨: x", 3, 4), ["錨: x", "    ^"]);
  assert.deepEqual(printed("e\u0301: x", 4, 5), ["e\u0301: x", "   ^"]);
  assert.deepEqual(printed("a\u0000\u202eb", 1, 2), ["a␀�b", " ^"]);
  assert.deepEqual(printed("a: b\nc: d", 3, 9), ["a: b", "   ^"]);
  assert.deepEqual(printed("a", 1, 1), ["a", " ^"]);
  assert.deepEqual(printed("", 0, 0), ["", "^"]);
});

test("a line that fits is shown whole, wherever the mark stands", () => {
  const text = `${"x".repeat(96)}HERE`;
  assert.deepEqual(printed(text, 96, 100), [text, `${" ".repeat(96)}^^^^`]);
});

test("a long line is cut around the mark", () => {
  const text = `a: ${"x".repeat(200)}HERE${"y".repeat(100_000)}`;
  const [line = "", mark = ""] = printed(text, 203, 207, 40);
  assert.equal(line, `…${"x".repeat(13)}HERE${"y".repeat(21)}…`);
  assert.equal(mark, `${" ".repeat(14)}^^^^`);
});

test("no line is wider than asked, and the mark never leaves it", () => {
  const sign = fc.constantFrom(...Array.from("ab \t→錨👍\u0301\u0000\n\ud800"));
  const text = fc.array(sign, { maxLength: 200 }).map((signs) => signs.join(""));
  fc.assert(
    fc.property(text, fc.nat(200), fc.nat(20), fc.integer({ min: 20, max: 60 }), (plan, at, length, width) => {
      const start = Math.min(at, plan.length);
      const { line, mark } = excerpt(plan, [start, Math.min(start + length, plan.length)], width);
      assert.ok(Array.from(line).length <= width, line);
      assert.ok(mark.length <= width + 1 && mark.endsWith("^"), mark);
      assert.ok(!/[\n\t\0]/.test(line));
    }),
    { numRuns: 2000 },
  );
});
