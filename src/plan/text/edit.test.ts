import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import type { Span } from "../../diagnostic.ts";
import { applyEdits } from "./edit.ts";
import type { Edit } from "./plan-edit.ts";

const SLOOP = readFileSync(new URL("../../../examples/sloop.yaml", import.meta.url), "utf8");

/** The lines that an edit takes out (−) and puts in (+). */
function lines(text: string, ...edits: Edit[]): string[] {
  const { value, diagnostics } = applyEdits(text, edits);
  if (diagnostics.length > 0) return diagnostics.map(({ id }) => id);
  const [before, after] = [text.split("\n"), value.text.split("\n")];
  const gone = before.filter((line) => !after.includes(line));
  return [
    ...gone.map((line) => `-${line}`),
    ...after.filter((line) => !before.includes(line)).map((line) => `+${line}`),
  ];
}

test("a value changes and its line stays as it was", () => {
  const path = ["circuits", "W34", "length"];
  const [gone, put] = lines(SLOOP, { do: "set", path, value: "2.4 m" });
  assert.equal(put, gone?.replace("2.3 m", "2.4 m").replace("-", "+"));
  assert.match(put ?? "", / {3}# joins the two negatives$/);
  const at = lines(SLOOP, { do: "set", path: ["parts", "B1", "at", 1], value: "unknown" });
  assert.deepEqual(at, ["-    at: [5.5 m, 1.1 m, 0.1 m]", "+    at: [5.5 m, unknown, 0.1 m]"]);
});

test("a value that would mean something else goes in quotes", () => {
  for (const [value, written] of [
    ["3,4 m", '"3,4 m"'],
    ["a: b", '"a: b"'],
    ["#10", '"#10"'],
    ["?", '"?"'],
    ["", '""'],
    ['12" pipe', '12" pipe'],
    ["-0.5 V", "-0.5 V"],
    ["B3:− → BN", "B3:− → BN"],
    ["two\nlines", '"two\\nlines"'],
  ] as const) {
    assert.deepEqual(lines("W: { a: x } # c\n", { do: "set", path: ["W", "a"], value }), [
      "-W: { a: x } # c",
      `+W: { a: ${written} } # c`,
    ]);
  }
});

test("an entry is added in the style of its neighbours", () => {
  const value = "4 mm²";
  const add = (text: string, path: string[], after?: string | null) =>
    lines(
      text,
      after === undefined ? { do: "add", path, key: "wire", value } : { do: "add", path, key: "wire", value, after },
    );
  assert.deepEqual(add("W: { a: x } # c\n", ["W"]), ["-W: { a: x } # c", "+W: { a: x, wire: 4 mm² } # c"]);
  assert.deepEqual(add("W: { a: x, b: y }\n", ["W"], "a"), ["-W: { a: x, b: y }", "+W: { a: x, wire: 4 mm², b: y }"]);
  assert.deepEqual(add("W: { a: x }\n", ["W"], null), ["-W: { a: x }", "+W: { wire: 4 mm², a: x }"]);
  assert.deepEqual(add("W: {}\n", ["W"]), ["-W: {}", "+W: { wire: 4 mm² }"]);
  assert.deepEqual(add("W: {\n  a: x # one\n  }\n", ["W"]), ["-  a: x # one", "+  a: x, # one", "+  wire: 4 mm²"]);
  assert.deepEqual(add("W: {\n  a: x, # one\n  b: y,\n}\n", ["W"], "a"), ["+  wire: 4 mm²,"]);
  assert.deepEqual(add("W:\n    a: x # one\n    b: y\n", ["W"], "a"), ["+    wire: 4 mm²"]);
  assert.deepEqual(add("p:\n  W:\nq: x\n", ["p", "W"]), ["+    wire: 4 mm²"]);
  const section = applyEdits("a: x", [{ do: "add", path: ["p"], key: "wire", value }]).value.text;
  assert.equal(section, "a: x\n\np:\n  wire: 4 mm²\n");
  assert.deepEqual(add("W: [a]\n", ["W"]), ["plan/edit-wrong-kind"]);
  assert.deepEqual(add("W: { wire: x }\n", ["W"]), ["plan/edit-name-taken"]);
  assert.deepEqual(add("W: x\n", ["V", "U"]), ["plan/edit-no-such-place"]);
});

test("an entry goes with its line, its comma and its comment", () => {
  const remove = (text: string, ...path: string[]) => lines(text, { do: "remove", path });
  assert.deepEqual(remove(SLOOP, "circuits", "W18").length, 1);
  assert.deepEqual(remove("W: { a: x, b: y }\n", "W", "a"), ["-W: { a: x, b: y }", "+W: { b: y }"]);
  assert.deepEqual(remove("W: { a: x, b: y }\n", "W", "b"), ["-W: { a: x, b: y }", "+W: { a: x }"]);
  assert.deepEqual(remove("W: { a: x }\n", "W", "a"), ["-W: { a: x }", "+W: {}"]);
  assert.deepEqual(remove("W: {\n  a: x, # one\n  b: y # two\n}\n", "W", "b"), ["-  b: y # two"]);
  assert.deepEqual(remove("p:\n  W: x\nq: y\n", "p", "W"), ["-  W: x"]);
});

test("a name changes with all that speaks of it", () => {
  const spans: Span[] = [];
  for (let at = SLOOP.indexOf("fridge"); at >= 0; at = SLOOP.indexOf("fridge", at + 1)) spans.push([at, at + 6]);
  const changed = applyEdits(SLOOP, [{ do: "rename", path: ["parts", "fridge"], to: "ice box", and: spans }]).value;
  assert.equal(changed.text, SLOOP.replaceAll("fridge", "ice box"));
  assert.equal(spans.length, 8);
  const twice = applyEdits(SLOOP, [
    { do: "rename", path: ["parts", "fridge"], to: "ice box", and: [...spans, ...spans] },
  ]);
  assert.equal(twice.value.text, changed.text);
  const [start = 0, end = 0] = spans[1] ?? [];
  const torn = applyEdits(SLOOP, [{ do: "rename", path: ["parts", "fridge"], to: "x", and: [[start, end], [start + 1, end]] }]); // prettier-ignore
  assert.equal(torn.diagnostics.length, 1);
  const quoted = lines('p: { B1: x }\nc: "A → B1"\nd: [B1, B2]\n', {
    do: "rename",
    path: ["p", "B1"],
    to: "B, one",
    and: [[21, 23], [29, 31]], // prettier-ignore
  });
  assert.deepEqual(quoted, [
    "-p: { B1: x }", '-c: "A → B1"', "-d: [B1, B2]",
    '+p: { "B, one": x }', '+c: "A → B, one"', '+d: ["B, one", B2]',
  ]); // prettier-ignore
});

test("an entry moves with its lines", () => {
  const text = "c:\n  a: 1 # one\n  b:\n    x: y\n  d: 3\ne: { f: 1, g: 2 }\n";
  const move = (path: string[], after: string | null) => applyEdits(text, [{ do: "move", path, after }]).value.text;
  assert.equal(move(["c", "b"], null), "c:\n  b:\n    x: y\n  a: 1 # one\n  d: 3\ne: { f: 1, g: 2 }\n");
  assert.equal(move(["c", "a"], "d"), "c:\n  b:\n    x: y\n  d: 3\n  a: 1 # one\ne: { f: 1, g: 2 }\n");
  assert.equal(move(["e", "g"], null), "c:\n  a: 1 # one\n  b:\n    x: y\n  d: 3\ne: { g: 2, f: 1 }\n");
  assert.equal(move(["e"], null), "e: { f: 1, g: 2 }\nc:\n  a: 1 # one\n  b:\n    x: y\n  d: 3\n");
});

test("an edit that cannot be proved changes nothing", () => {
  // The new value would join the next line's.
  assert.deepEqual(lines("a: [1 m,2 m]\n", { do: "set", path: ["a", 0], value: "1" }), ["plan/edit-not-proved"]);
  assert.deepEqual(lines("a: x\na: y\n", { do: "set", path: ["a"], value: "z" }), ["plan/edit-two-places"]);
  assert.deepEqual(lines("a: x\n", { do: "rename", path: ["a"], to: "" }), ["plan/edit-new-message"]);
  const both: Edit[] = [
    { do: "set", path: ["a"], value: "z" },
    { do: "remove", path: ["b"] },
  ];
  assert.equal(applyEdits("a: x\n", both).value.text, "a: x\n");
});

test("windows line ends stay", () => {
  const { value } = applyEdits("c:\r\n  a: 1\r\n", [{ do: "add", path: ["c"], key: "b", value: "2" }]);
  assert.equal(value.text, "c:\r\n  a: 1\r\n  b: 2\r\n");
});
