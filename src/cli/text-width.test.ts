import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { clip, textWidth, wrap } from "./text-width.ts";

/** Letters of one and two columns, marks of none, blanks. */
const words = fc.string({
  unit: fc.constantFrom("a", "é", "e\u0301", "冷", "²", "→", " ", "5", "%", "🙂"),
  maxLength: 60,
});

test("counts columns, not characters", () => {
  assert.equal(textWidth("B1 → BP"), 7);
  assert.equal(textWidth("e\u0301"), 1);
  assert.equal(textWidth("冷蔵庫"), 6);
});

test("a clipped text fits, and is untouched where it fitted", () => {
  fc.assert(
    fc.property(words, fc.integer({ min: 1, max: 40 }), (text, most) => {
      const clipped = clip(text, most);
      assert.ok(textWidth(clipped) <= most, clipped);
      if (textWidth(text) <= most) assert.equal(clipped, text);
      else assert.ok(clipped.endsWith("…"));
    }),
  );
});

test("wrapped lines fit, and together hold the words in their order", () => {
  fc.assert(
    fc.property(words, fc.integer({ min: 10, max: 40 }), fc.integer({ min: 0, max: 4 }), (text, most, later) => {
      const lines = wrap(text, most, later);
      for (const line of lines) assert.ok(textWidth(line) <= most, `"${line}" in ${most}`);
      assert.equal(lines.join("").replaceAll(" ", ""), text.replaceAll(" ", ""));
    }),
  );
});

test("a figure stays with its unit", () => {
  assert.deepEqual(wrap("the limit is 3 % of it", 14), ["the limit is", "3 % of it"]);
});
