import { test } from "vitest";
import assert from "node:assert/strict";
import fc from "fast-check";
import { readBytes, writeBytes } from "./file-form.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test("a sound file of one kind of line end comes back byte by byte", () => {
  const lines = fc.array(fc.string({ unit: "grapheme" }).map((line) => line.replace(/[\r\n\uFEFF]/g, "")));
  fc.assert(
    fc.property(lines, fc.boolean(), fc.constantFrom("\n", "\r\n"), (list, mark, newline) => {
      const file = bytes((mark ? "\uFEFF" : "") + list.join(newline));
      const { text, form, damagedLine } = readBytes(file);
      assert.equal(text, list.join("\n"));
      assert.equal(damagedLine, null);
      assert.deepEqual(writeBytes(text, form), file);
    }),
  );
});

test.each([
  ["a\r\nb\r\nc\n", "\r\n"],
  ["a\r\nb\nc\n", "\n"],
  ["a\rb\n", "\n"],
])("of mixed line ends the more frequent kind is kept: %j", (text, newline) => {
  const read = readBytes(bytes(text));
  assert.equal(read.form.newline, newline);
  assert.ok(!read.text.includes("\r"));
});

test("bytes that are no UTF-8 are told with their line, and the rest is read", () => {
  const file = new Uint8Array([...bytes("name: x\nnote: caf"), 0xe9, ...bytes("\nend: 1\n")]);
  assert.deepEqual(readBytes(file), {
    text: "name: x\nnote: caf\uFFFD\nend: 1\n",
    form: { mark: false, newline: "\n" },
    damagedLine: 2,
  });
});

test("a file that says it is UTF-16 is read as that", () => {
  const little = new Uint8Array([0xff, 0xfe, ...Array.from(bytes("a: 1\r\n")).flatMap((c) => [c, 0])]);
  const big = new Uint8Array([0xfe, 0xff, ...Array.from(bytes("a: 1\r\n")).flatMap((c) => [0, c])]);
  for (const file of [little, big]) {
    assert.deepEqual(readBytes(file), { text: "a: 1\n", form: { mark: false, newline: "\r\n" }, damagedLine: null });
  }
});

test("no bytes at all are an empty text, and any bytes are some text", () => {
  assert.deepEqual(readBytes(new Uint8Array()).text, "");
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 50 }), (file) => {
      const { text, damagedLine } = readBytes(file);
      assert.ok(damagedLine === null || (damagedLine >= 1 && damagedLine <= text.split("\n").length));
    }),
  );
});
