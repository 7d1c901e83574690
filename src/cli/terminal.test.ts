import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { fitWidth, harmless } from "./terminal.ts";

test("nothing that a plan holds can steer the terminal", () => {
  const steering = /[\u0000-\u0008\u000b-\u001a\u001c-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 40 }), (text) => {
      const shown = harmless(text, true);
      assert.ok(!steering.test(shown));
      // What escapes are left are the styles of our own.
      assert.equal(shown.replace(/\u001b\[(?:1|2|22|31|33|36|39)m/g, "").includes("\u001b"), false);
    }),
  );
  assert.equal(harmless("\u001b[2J\u001b]0;title\u0007"), "·[2J·]0;title·");
  assert.equal(harmless("\u001b[31mred\u001b[39m\n\tnext", true), "\u001b[31mred\u001b[39m\n\tnext");
  assert.equal(harmless("\u001b[31mred"), "·[31mred");
});

test("pages are made for 40 to 160 columns: where a table does not fit its rows stand below each other", () => {
  assert.deepEqual([20, 40, 100.9, 400].map(fitWidth), [40, 40, 100, 160]);
});
