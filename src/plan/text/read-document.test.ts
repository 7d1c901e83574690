import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import type { Node } from "./node.ts";
import { createDocumentMemory, LONGEST_PLAN, readDocument } from "./read-document.ts";

const SLOOP = readFileSync(new URL("../../../examples/sloop.yaml", import.meta.url), "utf8");

/** The value at a path of names and places, for short expectations. */
function valueAt(text: string, ...path: (string | number)[]): string | null | undefined {
  const [section, ...rest] = path;
  const found = readDocument(text).value.sections.find(({ key }) => key.text === section);
  let node: Node | null | undefined = found?.value;
  for (const [i, step] of rest.entries()) {
    const entries = i === 0 ? found?.entries.map(({ entry }) => entry) : node?.kind === "map" ? node.entries : [];
    if (typeof step === "string") node = entries?.find(({ key }) => key.text === step)?.value;
    else node = node?.kind === "list" ? node.items[step] : undefined;
  }
  return node === null ? null : node?.kind === "scalar" ? node.text : node === undefined ? undefined : node.kind;
}

/** Ids without the folder, with the text that is marked. */
const said = (text: string): string[] =>
  readDocument(text).diagnostics.map(({ id, at }) => {
    const [start, end] = at[0] ?? [0, 0];
    return `${id.slice("plan/".length)} ${JSON.stringify(text.slice(start, end))}`;
  });

test("texts are those of the source, never numbers, dates or truths", () => {
  for (const value of [
    "0",
    "00",
    "0000",
    "1e3",
    "0x10",
    "yes",
    "null",
    "~",
    "2024-01-01",
    "1_000",
    "-0",
    "+1",
    ".5",
    "12:30:00",
  ]) {
    assert.equal(valueAt(`circuits:\n  W1: { size: ${value} }\n`, "circuits", "W1", "size"), value);
    assert.equal(valueAt(`size: ${value}\n`, "size"), value);
  }
});

test("a lone question mark is unknown, in brackets, lists and at the end of a line", () => {
  const text = `c:\n  W1: { wire: ?, fuse: 30 A, at: [?, 1 m] }\n  W2:\n    wire: ?\n    fuse: ? # nobody knows\n    more:\n      - ?\n      - "?"\n  W3: ?\n`;
  assert.deepEqual(said(text), []);
  assert.equal(valueAt(text, "c", "W1", "wire"), "unknown");
  assert.equal(valueAt(text, "c", "W1", "fuse"), "30 A");
  assert.equal(valueAt(text, "c", "W1", "at", 0), "unknown");
  assert.equal(valueAt(text, "c", "W2", "wire"), "unknown");
  assert.equal(valueAt(text, "c", "W2", "fuse"), "unknown");
  assert.equal(valueAt(text, "c", "W2", "more", 0), "unknown");
  assert.equal(valueAt(text, "c", "W2", "more", 1), "?");
  assert.equal(valueAt(text, "c", "W3"), "unknown");
});

test("a decimal comma in brackets is one value where a unit follows", () => {
  const text = "p:\n  B1: { length: 3,4 m, at: [5,5 m, 1,1 m,0,1 m], range: 2,4…3,1 m }\n";
  assert.deepEqual(said(text), []);
  assert.equal(valueAt(text, "p", "B1", "length"), "3,4 m");
  assert.equal(valueAt(text, "p", "B1", "at", 0), "5,5 m");
  assert.equal(valueAt(text, "p", "B1", "at", 2), "0,1 m");
  assert.equal(valueAt(text, "p", "B1", "range"), "2,4…3,1 m");
});

test("a comma that could be either is asked back", () => {
  assert.deepEqual(said("p: { at: [1,2,3] }"), ['decimal-comma "1,2,3"']);
  assert.deepEqual(said("p: { 3: 4,5: b }"), ['decimal-comma "4,5"']);
  assert.deepEqual(said("p: { size: 1,1/2 in }"), ['decimal-comma "1,1/2 in"']);
  assert.deepEqual(said("p: { size: 1.5,2 m }"), ['decimal-comma "1.5,2 m"']);
  assert.deepEqual(said("p: { on: [B1,2 fridges] }"), []);
  assert.equal(valueAt("p: { on: [B1,2,3 m] }", "p", "on", 1), "2,3 m");
});

test("a comment that looks like a value is pointed at", () => {
  assert.deepEqual(said("c:\n  W1:\n    size: #10\n"), ['value-is-comment "#10"']);
  assert.deepEqual(said("c:\n  W1: { size: #10 }\n  W2: x\n"), ['value-is-comment "#10 }"']);
  assert.deepEqual(said("c:\n  W1: { size: 8 AWG #10 ring }\n"), ['value-is-comment "#10 ring }"']);
  assert.deepEqual(said("c:\n  size: 8 AWG #10 ring\n"), ['comment-in-value "#10 ring"']);
  assert.deepEqual(said("c:\n  name: berth #starboard\n"), ['comment-in-value "#starboard"']);
  assert.deepEqual(said('c:\n  size: "a"# b\n'), ['comment-needs-space "#"']);
  assert.deepEqual(said("parts: #all of them\n  B1: x # a comment\n"), []);
});

test("what a plan does not need is refused, and the rest is read", () => {
  const text = "a: &x b\nc: *x\nd: !t e\nf:\n  <<: { g: h }\n  i: j\n";
  assert.deepEqual(said(text), ['anchor "&x"', 'alias "*x"', 'tag "!t"', 'merge "<<"']);
  assert.equal(valueAt(text, "a"), "b");
  assert.equal(valueAt(text, "d"), "e");
  assert.equal(valueAt(text, "f", "i"), "j");
  assert.deepEqual(said("%YAML 1.2\n---\na: b\n"), ['directive "%YAML 1.2"', 'second-document "---"']);
  assert.deepEqual(said("a: b\n---\nc: d\n...\n"), ['second-document "---"', 'second-document "..."']);
  assert.equal(valueAt("a: b\n---\nc: d\n", "c"), "d");
  assert.deepEqual(said("---\n# a plan\na: b\n"), []);
  assert.deepEqual(said("? a\n: b\nc: d\n"), ['question-mark "?"', 'missing-name ":"']);
});

test("a name that stands twice is read twice, and all its places are told", () => {
  const text = "c:\n  W1: a\n  W2: b\n  W1: c\nd: { x: 1, x: 2, x: 3 }\n";
  const { value, diagnostics } = readDocument(text);
  assert.deepEqual(
    value.sections[0]?.entries.map(({ entry }) => entry.key.text),
    ["W1", "W2", "W1"],
  );
  assert.deepEqual(
    diagnostics.map(({ id, about, at }) => [id, about, at.length]),
    [["plan/duplicate-name", "c.W1", 2], ["plan/duplicate-name", "d.x", 3]],
  ); // prettier-ignore
});

test("a bracket or quote that is never closed ends with its block", () => {
  const text = 'c:\n  W1: { path: A, at: [1 m,\n  W2: { name: "abc, length: 1 m }\n  W3: { path: B }\n';
  assert.deepEqual(said(text), ['unclosed-bracket "["', 'unclosed-quote "\\""']);
  assert.equal(valueAt(text, "c", "W1", "path"), "A");
  assert.equal(valueAt(text, "c", "W3", "path"), "B");
  assert.deepEqual(said("c:\n  W1: { at: [1 m, 2 m }\n"), ['wrong-bracket "}"']);
  assert.deepEqual(said("c:\n  W1: { a: b }}\n"), ['stray-sign "}"']);
  assert.deepEqual(said("c:\n  W1: 1 m, 2 m]\n  W2: [a] b]\n"), ['bracket-in-text "]"', 'stray-text "b]"']);
});

test("lines out of line are told, and read", () => {
  const slid = "c:\n  W1: { path: A }\nW2: { path: B }\n  W3: { path: C }\n";
  assert.deepEqual(said(slid), ['slid-out "W2"']);
  assert.equal(valueAt(slid, "c", "W2", "path"), "B");
  assert.equal(valueAt(slid, "c", "W3", "path"), "C");
  const ragged = "c:\n  W1: { path: A }\n W2: { path: B }\n  W3:\n    path: C\n      length: 1 m\n";
  assert.deepEqual(said(ragged), ['indent "W2"', 'indent "length"']);
  assert.equal(valueAt(ragged, "c", "W2", "path"), "B");
  assert.equal(valueAt(ragged, "c", "W3", "length"), "1 m");
  assert.deepEqual(said("  a: b\n  c: d\n"), ['first-indent "  "']);
  const tabs = "c:\n\tW1: { path: A }\n\tW2:\n\t\tpath: B\n";
  assert.deepEqual(said(tabs), ['tab "\\t"']);
  assert.equal(valueAt(tabs, "c", "W2", "path"), "B");
  assert.deepEqual(said('a: |\n  \tx\nb: "x\n  \ty"\n'), []);
});

test("a tab among spaces is one fault, and the line is read where its neighbours stand", () => {
  const mixed = "parts:\n  lamp:\n    kind: light\n\tcount: 4\n    at: unknown\n  fan: { kind: load }\n";
  assert.deepEqual(said(mixed), ['tab "\\t"']);
  assert.equal(valueAt(mixed, "parts", "lamp", "count"), "4");
  assert.equal(valueAt(mixed, "parts", "lamp", "at"), "unknown");
  assert.equal(valueAt(mixed, "parts", "fan", "kind"), "load");
  // Places are those of the text as it stands: a tab is one character of it.
  const lamp = readDocument(mixed).value.sections[0]?.entries[0];
  const count = lamp?.entry.value?.kind === "map" ? lamp.entry.value.entries[1]?.key.span[0] : undefined;
  assert.equal((lamp?.base ?? 0) + (count ?? 0), mixed.indexOf("count"));
  assert.deepEqual(said("parts:\n  lamp: { kind: light }\n\tfan: { kind: load }\n"), ['tab "\\t"']);
});

test("colons and commas that lack something are told where they lack it", () => {
  assert.deepEqual(said("c:\n  W1: { length:3 m }\n"), ['space-after-colon "length:3 m"']);
  assert.deepEqual(said("c:\n  W1:\n    length:3 m\n    path: A\n"), ['space-after-colon "length:3 m"']);
  assert.deepEqual(said("c:\n  W1\n    path: A\n  W2: x\n"), ['missing-colon "W1"']);
  assert.deepEqual(said("c:\n  W1 { path: A }\n  W2:{ path: B }\n"), [
    'bracket-without-colon "W1 { path"',
    'bracket-without-colon "W2:{ path"',
  ]);
  assert.deepEqual(said("c:\n  W1: { path: A\n    length: 3 m }\n"), ['missing-comma "length"']);
  assert.deepEqual(said("c:\n  W1: { length: 3 m fuse: 1 A }\n"), ['second-colon ":"']);
  assert.deepEqual(said("c:\n  length: 3 m fuse: 1 A\n"), ['second-colon ":"']);
  assert.deepEqual(said("c: { a, b: 1,, c: 2 }\n"), ['missing-colon "a"', 'empty-item ","']);
  assert.deepEqual(said("c: [a: b]\n"), ['pair-in-list ":"']);
  assert.deepEqual(said("c: - a\n"), ['list-on-name-line "-"']);
  assert.deepEqual(said("c:\n  - a\n  b\n"), ['missing-dash "b"']);
  assert.deepEqual(said("c: 'a' b\n"), ['stray-text "b"']);
  assert.deepEqual(said("c: @a\n"), ['bad-start "@"']);
});

test("characters that cannot be read, or cannot be seen, are told", () => {
  assert.deepEqual(said("a: b\u0000c\n"), ['control-character "\\u0000"']);
  assert.deepEqual(said("a: b\u2028c: d\n").slice(0, 1), ['line-break "\u2028"']);
  assert.deepEqual(said("a: b\rc: d\n").slice(0, 1), ['line-break "\\r"']);
  assert.deepEqual(said("a: b\ud83d\n"), ['broken-character "\\ud83d"']);
  assert.deepEqual(said("a: b\u202ec\n"), ['invisible-character "\u202e"']);
  assert.deepEqual(said('a: "\\u0007"\n'), ['control-character "\\"\\\\u0007\\""']);
  assert.deepEqual(said("a: 👍\r\nb: \u00a0x\r\n"), []);
  assert.deepEqual(said("\ufeffa: b\n"), []);
  assert.equal(readDocument("\ufeffa: b\n").value.sections[0]?.base, 1);
});

test("what is too much is refused kindly, and the rest is read", () => {
  assert.deepEqual(said("a".repeat(LONGEST_PLAN + 1)).map((id) => id.split(" ")[0]), ["too-large"]); // prettier-ignore
  const long = `c:\n  W1: ${"x".repeat(100_000)}\n  W2: y\n`;
  assert.deepEqual(said(long), ['line-too-long " "']);
  assert.equal(valueAt(long, "c", "W2"), "y");
  const deep = `c:\n  W1: ${"[".repeat(500)}\n  W2: y\n`;
  assert.deepEqual(said(deep).map((id) => id.split(" ")[0]), ["unclosed-bracket", "too-deep"]); // prettier-ignore
  assert.equal(valueAt(deep, "c", "W2"), "y");
  assert.equal(readDocument("x\n".repeat(5000)).diagnostics.length, 1001);
});

test("a block whose text did not change keeps its very nodes", () => {
  const memory = createDocumentMemory();
  const before = readDocument(SLOOP, memory).value;
  const text = `# a new first line\n${SLOOP.replace("length: 5.2 m", "length: 5.4 m")}`;
  const after = readDocument(text, memory).value;
  const fresh: string[] = [];
  for (const [i, section] of after.sections.entries()) {
    assert.equal(section.key, before.sections[i]?.key);
    for (const [j, { base, entry }] of section.entries.entries()) {
      const old = before.sections[i]?.entries[j];
      if (entry !== old?.entry) fresh.push(entry.key.text);
      assert.equal(text.slice(base + entry.key.span[0], base + entry.key.span[1]), entry.key.text);
    }
  }
  assert.deepEqual(fresh, ["W13"]);
  assert.equal(readDocument(text, memory).value, after, "the same text is not read again");
});

test("the memory holds the last reading and nothing older", () => {
  const memory = createDocumentMemory();
  for (let i = 0; i < 50; i++) readDocument(`c:\n  W1: ${i}\n  W2: x\n`, memory);
  assert.equal(memory.blocks.size, 3);
});

test("what was read is plain data", () => {
  const told = readDocument(SLOOP);
  assert.deepEqual(JSON.parse(JSON.stringify(told)), told);
});
