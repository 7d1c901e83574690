import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { parseDocument } from "yaml";
import fc from "fast-check";
import type { Span } from "../../src/diagnostic.ts";
import {
  createDocumentMemory,
  excerpt,
  readDocument,
  type MapEntry,
  type Node,
  type PlanDocument,
} from "../../src/plan/text/index.ts";
import { chanceOf, mutate, NASTY } from "../fixtures/mutate.ts";
import { plainOf, type Plain } from "../fixtures/plain-plan.ts";

const SLOOP = readFileSync(new URL("../../examples/sloop.yaml", import.meta.url), "utf8");
const FORMS = readFileSync(new URL("../fixtures/forms.yaml", import.meta.url), "utf8");
/** More for a long look: MUTANTS=100000. */
const MUTANTS = Number(process.env["MUTANTS"] ?? 20_000);

/** A section's line and a few lines out of it, sometimes the whole: damage is found sooner in a short text. */
function sample(seed: number): string {
  const text = seed % 2 === 0 ? FORMS : SLOOP;
  const chance = chanceOf(seed);
  if (chance(200) === 0) return text;
  const lines = text.split("\n");
  const from = chance(lines.length);
  const head = lines.findLastIndex((line, i) => i <= from && /^[^ #-]/.test(line));
  const some = lines.slice(Math.max(from, head + 1), from + 2 + chance(5));
  return `${lines[head] ?? ""}\n${some.join("\n")}\n`;
}

/** What the library's own reader makes of a text: an independent reading, values never converted. */
function oracle(text: string): { rejects: string[]; value: Plain } {
  // A line with nothing but space is nothing, but the library takes a tab there for an indent.
  const blank = text.replace(/^[ \t]*\t[ \t]*(?=\r?$)/gm, (space) => " ".repeat(space.length));
  const document = parseDocument(blank, { schema: "failsafe", logLevel: "silent", prettyErrors: false });
  const rejects = document.errors.map((error) => `${error.code} at ${error.pos[0]}`);
  if (rejects.length > 0) return { rejects, value: "" };
  try {
    return { rejects, value: plain(document.toJS()) };
  } catch (error) {
    return { rejects: [String(error)], value: "" }; // an alias of nothing
  }
}

function plain(value: unknown): Plain {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value === "object" && value !== null) {
    return { names: Object.entries(value).map(([name, inner]) => [name, plain(inner)]) };
  }
  return typeof value === "string" ? value : "";
}

/** The two documented differences: a lone `?`, and a decimal comma inside brackets. */
function deviates(document: PlanDocument): boolean {
  const inNode = (node: Node | null, base: number, flow: boolean): boolean => {
    if (node === null) return false;
    if (node.kind === "list") return node.items.some((item) => inNode(item, base, node.flow));
    if (node.kind === "map") return node.entries.some(({ value }) => inNode(value, base, node.flow));
    const source = document.text.slice(base + node.span[0], base + node.span[1]);
    return !node.quoted && (source === "?" || (flow && source.includes(",")));
  };
  return document.sections.some(
    ({ base, value, entries }) =>
      inNode(value, base, false) ||
      entries.some(({ base: at, entry }) => inNode(entry.value, at, value?.kind === "map")),
  );
}

function check(text: string, what: string): "rejected" | "agrees" | "stricter" | "deviates" {
  const { value, diagnostics } = readDocument(text);
  const accepted = diagnostics.every(({ level }) => level !== "error");
  const theirs = oracle(text);
  if (!accepted) return theirs.rejects.length > 0 ? "rejected" : "stricter";
  if (deviates(value)) return "deviates";
  // After a comment further left than the text around it the library loses count of the indent. A comment is nothing.
  const same = theirs.rejects.length > 0 ? oracle(text.replace(/^[ \t]*#.*$/gm, "")) : theirs;
  assert.deepEqual(same.rejects, [], `${what}: the library says ${theirs.rejects.join(", ")}`);
  const [mine, its] = [plainOf(value), same.value];
  if (JSON.stringify(mine) !== JSON.stringify(its)) assert.deepEqual(byName(mine), byName(its), what);
  return "agrees";
}

/** JavaScript puts names that are whole numbers first; order is compared elsewhere. */
function byName(value: Plain): Plain {
  if (typeof value === "string") return value;
  if (Array.isArray(value)) return value.map(byName);
  return { names: value.names.map(([n, v]): [string, Plain] => [n, byName(v)]).sort(([a], [b]) => (a < b ? -1 : 1)) };
}

test("the example and every form of writing read as the library reads them", () => {
  assert.deepEqual(readDocument(SLOOP).diagnostics, []);
  assert.deepEqual(readDocument(FORMS).diagnostics, []);
  assert.equal(check(SLOOP, "sloop"), "agrees");
  assert.equal(check(FORMS, "forms"), "agrees");
});

test("whatever the library rejects gets an error, and what both accept reads alike", () => {
  const count = { rejected: 0, agrees: 0, stricter: 0, deviates: 0 };
  for (let seed = 1; seed <= MUTANTS; seed++) {
    count[check(mutate(sample(seed), seed), `seed ${seed}`)]++;
  }
  // The damage must be of both kinds, or the test shows nothing.
  assert.ok(count.agrees > MUTANTS / 10 && count.rejected > MUTANTS / 10, JSON.stringify(count));
});

test("reading again with a memory gives the same as reading anew", () => {
  const memory = createDocumentMemory();
  let text = FORMS;
  for (let seed = 1; seed <= 1500; seed++) {
    // Damage on damage, and now and then the sound text again.
    text = seed % 7 === 0 ? FORMS : mutate(text, seed).slice(0, 8000);
    assert.deepEqual(readDocument(text, memory), readDocument(text), `seed ${seed}`);
  }
});

test("every node and message has its place in the text", () => {
  for (let seed = 1; seed <= 3000; seed++) {
    const text = mutate(sample(seed), seed);
    const { value, diagnostics } = readDocument(text);
    const inside = ([start, end]: Span, [from, to]: Span) => {
      assert.ok(from <= start && start <= end && end <= to, `seed ${seed}: ${start}-${end} in ${from}-${to}`);
    };
    const walk = (node: Node | null, base: number, around: Span): void => {
      if (node === null) return;
      inside(node.span, around);
      if (node.kind === "list") for (const item of node.items) walk(item, base, node.span);
      if (node.kind === "map") for (const entry of node.entries) walkEntry(entry, base, node.span);
      if (node.kind !== "scalar" || node.quoted) return;
      const source = text.slice(base + node.span[0], base + node.span[1]);
      if (source !== "?" && !/[\n\r\0-\x08\x0e-\x1f\u0085\u2028\ufeff\ud800-\udfff]/.test(source))
        assert.equal(node.text, source);
    };
    const walkEntry = ({ key, value: inner, span }: MapEntry, base: number, around: Span): void => {
      inside(span, around);
      walk(key, base, span);
      walk(inner, base, span);
    };
    for (const { base, key, value: whole, entries } of value.sections) {
      const most: Span = [0, text.length - base];
      walk(key, base, most);
      walk(whole, base, most);
      for (const { base: at, entry } of entries) walkEntry(entry, at, [0, text.length - at]);
    }
    for (const { at, message, hint } of diagnostics) {
      for (const span of at) inside(span, [0, text.length]);
      assert.ok(at.length > 0 && message !== "" && hint !== "" && hint !== undefined);
      const { line, mark } = excerpt(text, at[0] ?? [0, 0]);
      assert.ok(!/[\0-\x1f]/.test(line) && mark.endsWith("^"));
    }
  }
});

test("no text is too wild to be read", () => {
  const wild = fc.array(fc.oneof(fc.string({ unit: "binary" }), fc.constantFrom(...NASTY)), { maxLength: 60 });
  fc.assert(
    fc.property(wild, (parts) => {
      readDocument(parts.join(""));
    }),
    { numRuns: 5000 },
  );
});

test("the time for a text made to be slow is in proportion to its length", () => {
  const length = 600_000;
  const fill = (piece: string) => piece.repeat(Math.floor(length / piece.length));
  const lines = (line: string) => fill(`${line}\n`);
  for (const text of [
    `a:\n ${fill("[\n ")}`,
    lines("a: " + "[".repeat(9000)),
    lines("a: [" + "1,".repeat(9000) + "1 m]"),
    lines("a: [" + "1".repeat(9000) + "," + "1".repeat(9000) + "]"),
    lines("a" + " ".repeat(19_000) + "{"),
    lines("\t".repeat(19_000) + "x"),
    `a: {${fill("b: c\n ")}}`,
    `a: "${fill("\\n\n ")}"`,
    `a: "x${fill("      \n")}"`,
    `a:\n${fill(" - - b\n")}`,
    lines('a: "x'),
    lines("a{: b"),
    fill("a: b\n"),
    fill("\ud800"),
    fill("&a\n"),
    fill("?\n"),
  ]) {
    const start = performance.now();
    readDocument(text);
    // Measured 0.01…0.8 s on two busy cores; anything that grows with the square takes minutes.
    assert.ok(performance.now() - start < 15_000, text.slice(0, 20));
  }
});
