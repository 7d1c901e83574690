import fc from "fast-check";
import { describe, test } from "vitest";
import assert from "node:assert/strict";
import type { Diagnostic } from "../../diagnostic.ts";
import { applySplices } from "../../plan/text/splice.ts";
import { lineAt, lineOfThing, thingAt } from "./line-of-thing.ts";
import { leavesChoice, quickFixes } from "./quick-fix.ts";
import { splicesBetween } from "../keep/splices-between.ts";
import { changeInWords } from "./change-in-words.ts";

describe("splices between two texts", () => {
  test("one word is one splice, a rename one in each line", () => {
    assert.deepEqual(splicesBetween("a: 5.2 m\n", "a: 6 m\n"), [{ start: 3, end: 6, text: "6" }]);
    assert.deepEqual(splicesBetween("fridge: 1\nb: 2\nc: fridge\n", "frost: 1\nb: 2\nc: frost\n"), [
      { start: 2, end: 6, text: "ost" },
      { start: 20, end: 24, text: "ost" },
    ]);
  });
  test("whatever the two are, they lead from one to the other", () => {
    const text = fc
      .array(fc.constantFrom("a", "b", "\n", "  ", "W1: x", "🛥"), { maxLength: 30 })
      .map((parts) => parts.join(""));
    fc.assert(
      fc.property(text, text, (before, after) => {
        assert.equal(applySplices(before, splicesBetween(before, after)), after);
      }),
      { numRuns: 2000 },
    );
  });
  test("a change is told by the figures around it", () => {
    assert.equal(
      changeInWords("W13: { length: 5.2 m, zone: deck }", "W13: { length: 5.25 m, zone: deck }"),
      "5.2 m → 5.25 m",
    );
    assert.equal(
      changeInWords("W13: { length: 5.2 m }", "W13: { length: 5.2 m, zone: deck }"),
      "5.2 m → 5.2 m, zone: deck",
    );
  });
});

describe("lines and things", () => {
  const text =
    "parts:\n  B1:\n    kind: battery\n    capacity: 1 Ah\n  B2: { like: B1 }\ncircuits:\n  W1: { path: B1 → B2 }\n";
  const thing = (id: string, about: string) => {
    const at = text.indexOf(`${id}:`);
    return { id, about, at: [at, at + id.length] as const, name: id, what: "part" as const, says: "", on: [] };
  };
  const things = [thing("B1", "parts.B1"), thing("B2", "parts.B2"), thing("W1", "circuits.W1")];
  test("the line of a thing, where it stands and where it went", () => {
    assert.equal(lineOfThing(text, thing("B2", "parts.B2"))?.number, 5);
    assert.deepEqual(lineOfThing(`# one more\n${text}`, thing("W1", "circuits.W1")), {
      ...lineAt(`# one more\n${text}`, 96),
      number: 8,
    });
    assert.equal(lineOfThing("parts:\n", thing("W1", "circuits.W1")), null);
  });
  test("the thing of a line, in blocks too, and none in the head of a section", () => {
    const at = (find: string) => thingAt(text, text.indexOf(find), things)?.about ?? null;
    assert.deepEqual(["capacity", "B2:", "circuits", "W1", "parts"].map(at), [
      "parts.B1",
      "parts.B2",
      null,
      "circuits.W1",
      null,
    ]);
  });
});

describe("quick fixes", () => {
  const said = {
    id: "system/part-unknown",
    level: "error",
    at: [],
    about: "",
    message: "no part is called `frige`",
  } as const;
  test("what the hint asks about replaces the very word", () => {
    const text = "path: PNL:1 → frige";
    const found = quickFixes(
      { ...said, hint: "did you mean `fridge`?", data: { name: "frige", near: ["fridge"] } },
      text,
      6,
      text.length,
    );
    assert.deepEqual(found, [{ put: "fridge", from: 14, to: 19 }]);
  });
  test("nothing where the text has moved on, or the hint asks for something else", () => {
    assert.deepEqual(
      quickFixes(
        { ...said, hint: "did you mean `fridge`?", data: { name: "frige", near: ["fridge"] } },
        "path: fridge",
        6,
        12,
      ),
      [],
    );
    // labels that settle what a label means
    const label = {
      ...said,
      hint: "did you mean `6 mm²` or `6 mm vehicle cable`?",
      data: { near: ["6 mm²", "6 mm vehicle cable"] },
    };
    assert.deepEqual(
      quickFixes(label, "wire: 6 mm }", 6, 10).map(({ put, from, to }) => [put, from, to]),
      [
        ["6 mm²", 6, 10],
        ["6 mm vehicle cable", 6, 10],
      ],
    );
    assert.deepEqual(quickFixes({ ...said, hint: "write `3.2 m`" }, "3.2", 0, 3), []);
  });
  test("a choice stays one where all but one of its answers cannot be put in, or nobody has a name for them", () => {
    const leaves = (hint: string, data?: Diagnostic["data"]): boolean =>
      leavesChoice({ ...said, hint, ...(data == null ? {} : { data }) });
    assert.equal(leaves("did you mean `fridge`?", { near: ["fridge"] }), false);
    assert.equal(leaves("did you mean `a, b` or `c`?", { near: ["a, b", "c"] }), true);
    assert.equal(leaves("did you mean `6 mm²`?", { near: ["6 mm²"], ways: 2 }), true);
    assert.equal(leaves("did you mean `a` or `b`?"), true);
  });
  test("a name that would break the line is not put in", () => {
    const text = "zone: x";
    assert.deepEqual(
      quickFixes({ ...said, hint: "did you mean `a, b`?", data: { name: "x", near: ["a, b", "<b>"] } }, text, 6, 7).map(
        (f) => f.put,
      ),
      ["<b>"],
    );
  });
});
