import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { parseDocument } from "yaml";
import type { MapEntry, Node, PlanDocument } from "../../src/plan/text/node.ts";
import { readDocument } from "../../src/plan/text/read-document.ts";
import { chanceOf, mutate } from "../fixtures/mutate.ts";

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

/** Names and values only; "" and nothing are alike, as they are without types. */
type Plain = string | Plain[] | { readonly names: readonly [string, Plain][] };

function plain(value: unknown): Plain {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value === "object" && value !== null) {
    return { names: Object.entries(value).map(([name, inner]) => [name, plain(inner)]) };
  }
  return typeof value === "string" ? value : "";
}

function ours(document: PlanDocument): Plain {
  const names = document.sections.map(({ key, value, entries }): [string, Plain] => [
    key.text,
    entries.length > 0 ? { names: entries.map(({ entry }) => pair(entry)) } : ofNode(value),
  ]);
  return names.length === 0 ? "" : { names };
}

const pair = ({ key, value }: MapEntry): [string, Plain] => [key.text, ofNode(value)];

function ofNode(node: Node | null): Plain {
  switch (node?.kind) {
    case undefined:
      return "";
    case "scalar":
      return node.text;
    case "list":
      return node.items.map(ofNode);
    case "map":
      return { names: node.entries.map(pair) };
  }
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
  const [mine, its] = [ours(value), same.value];
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
