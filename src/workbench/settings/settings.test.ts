import { describe, test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { settingsOf, usualSettings } from "./settings.ts";
import { forget, recall, remember } from "./small-memory.ts";

const usual = usualSettings("de-DE");

describe("settings", () => {
  test("begin as the language of the browser has them", () => {
    assert.deepEqual(usual.units, { lengths: "m", sizes: "both", temperatures: "°C", decimal: "," });
    assert.deepEqual(usualSettings("en-US").units, { lengths: "ft", sizes: "AWG", temperatures: "°F", decimal: "." });
    assert.deepEqual(usualSettings("").units.lengths, "m");
    assert.equal(usualSettings("not a language at all").units.decimal, ".");
  });

  test("come back as they were kept", () => {
    const changed = {
      ...usual,
      units: { lengths: "ft", sizes: "AWG", temperatures: "°F", decimal: "." },
      theme: "dark",
      contrast: "more",
      singleKeys: false,
      spoken: "full",
    } as const;
    assert.deepEqual(settingsOf(JSON.stringify(changed), usual), changed);
  });

  test("keep what is usual for whatever cannot be understood", () => {
    for (const text of [null, "", "{", "null", "[]", "7", '{"theme":"pink","units":3,"singleKeys":"no"}']) {
      assert.deepEqual(settingsOf(text, usual), usual, String(text));
    }
    fc.assert(
      fc.property(fc.json(), (text) => {
        const read = settingsOf(text, usual);
        assert.ok(["system", "light", "dark"].includes(read.theme));
        assert.ok(["m", "ft"].includes(read.units.lengths));
      }),
    );
  });
});

test("what a browser will not keep lasts as long as the page", () => {
  // Node lends no store here, as a browser that denies it.
  remember("test", "a");
  assert.equal(recall("test"), "a");
  forget("test");
  assert.equal(recall("test"), null);
});
