import { describe, test } from "vitest";
import assert from "node:assert/strict";
import type { ViewId } from "../contract.ts";
import { capsOf, isSingle, keyFor, keys, keysOf, type KeyRow, type Pressed } from "./keys.ts";

const views: readonly ViewId[] = ["start", "one-line", "schedules", "findings", "why", "text", "wire-desk"];
const press = (key: string, also: Partial<Pressed> = {}): Pressed => ({
  key,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  altKey: false,
  ...also,
});
const pressOf = (row: KeyRow): Pressed => ({
  key: row.shift === true && row.key.length === 1 ? row.key.toUpperCase() : row.key,
  ctrlKey: row.ctrl === true,
  metaKey: false,
  shiftKey: row.shift === true,
  altKey: row.alt === true,
});

describe("keys", () => {
  test.each(views)("in %s no two of them clash, and each does what the list says", (view) => {
    const caps = keysOf(view).map((row) => capsOf(row).join(" "));
    assert.deepEqual([...new Set(caps)], caps);
    for (const row of keysOf(view)) assert.equal(keyFor(pressOf(row), view), row, caps.join(", "));
  });

  test("single letters are told from those held with another key", () => {
    assert.equal(keyFor(press("k", { ctrlKey: true }), "one-line")?.does, "ask");
    assert.equal(keyFor(press("k", { metaKey: true }), "one-line")?.does, "ask");
    assert.equal(keyFor(press("k"), "one-line")?.does, "previous-finding");
    assert.equal(keyFor(press("P", { shiftKey: true }), "one-line")?.does, "unpin");
    assert.equal(keyFor(press("w", { ctrlKey: true }), "one-line"), null);
    assert.equal(keyFor(press("w"), "start"), null);
  });

  test("signs that need shift on one keyboard and not on another act on both", () => {
    for (const shiftKey of [true, false]) {
      assert.equal(keyFor(press("?", { shiftKey }), "start")?.does, "keys");
      assert.equal(keyFor(press("/", { shiftKey }), "start")?.does, "ask");
      assert.equal(keyFor(press("+", { shiftKey }), "one-line")?.does, "zoom-in");
    }
  });

  test("what the browser needs itself is left to it", () => {
    // Zoom, reload, find, new tab, select all, copy and paste.
    for (const key of ["+", "-", "0", "r", "f", "t", "a", "c", "v", "x"]) {
      for (const view of views) assert.equal(keyFor(press(key, { ctrlKey: true }), view), null, key);
    }
  });

  test("only characters alone can be switched off", () => {
    assert.deepEqual(
      keys.filter((row) => !isSingle(row) && row.key.length === 1).map((row) => capsOf(row).join(" ")),
      ["Ctrl K", "Ctrl Z", "Ctrl Shift Z", "Ctrl Y", "Ctrl S", "Ctrl P", "Ctrl Space", "Ctrl I", "Ctrl ."],
    );
  });
});
