import { test } from "vitest";
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { isDocumentId } from "../../src/explain/index.ts";
import { printAllTables, readAllTables, readTable } from "../../tools/make-reference.ts";

const root = join(import.meta.dirname, "../..");
const tables = readAllTables(); // throws on the first table without source, cite, how, units, status or key

test("the generated tables are those that the CSV files give", () => {
  const files = printAllTables(tables);
  assert.deepEqual(readdirSync(join(root, "src/reference")).sort(), [...files.keys()].sort(), "run `npm run docs`");
  for (const [file, text] of files) {
    assert.equal(readFileSync(join(root, "src/reference", file), "utf8"), text, `${file} is stale: run \`npm run docs\``);
  }
});

test("every table is listed in the README, and nothing else is", () => {
  const readme = readFileSync(join(root, "reference/README.md"), "utf8");
  const listed = [...readme.matchAll(/^\| (`.+?`) \|/gm)].flatMap(([, cell = ""]) => [...cell.matchAll(/`(.+?)`/g)].map((m) => m[1] ?? ""));
  const files = listed.filter((name) => name.endsWith(".csv")).map((name) => name.split("/").at(-1));
  assert.deepEqual(files.sort(), tables.map(({ id }) => `${id.split("/").at(-1) ?? ""}.csv`).sort());
});

test("every table tells enough of where it comes from to be checked", () => {
  for (const { id, source, how, cite, rows } of tables) {
    assert.ok(isDocumentId(cite.document), id);
    // Shorter than this no edition and table can be named.
    assert.ok(source.length > 20, `${id}: source`);
    assert.ok(how.length > 10, `${id}: how`);
    assert.ok(rows.length > 0, `${id}: rows`);
  }
});

const small = (lines: string) => `# source: a\n# cite: nfpa-70-2023 | b\n# how: c\n# key: size\n# core: all\n${lines}`;

test("a table that is out of form is refused with its place", () => {
  const fine = "# units: size=AWG; *=A\n# status: *=read\nsize,amps\n10,30\n";
  assert.equal(readTable("t/fine", small(fine)).rows.length, 1);
  const bad: [string, RegExp][] = [
    [fine.replace("# status: *=read\n", ""), /no "# status:" line/],
    [fine.replace("read", "seen"), /"seen" is none of the status words/],
    [fine.replace("; *=A", ""), /no unit for column amps/],
    [fine.replace("10,30", "10,30 A"), /row 1 .*amps is not a number: "30 A"/],
    [fine.replace("10,30", "10"), /1 fields, the header has 2/],
    [fine + "10,40\n", /two rows are called "10"/],
    [fine.replace("# units", "# unit"), /unknown head line "unit"/],
    [fine.slice(0, -1), /must end with a line feed/],
  ];
  for (const [text, words] of bad) assert.throws(() => readTable("t/bad", small(text)), words);
  assert.throws(() => readTable("t/bad", small(fine).replace("nfpa-70-2023", "nfpa")), /documents\.ts/);
});

test("quoted fields keep their commas and quotes", () => {
  const { rows } = readTable("t/quoted", small('# units: *=text\n# status: *=read\nsize,note\n10,"a, ""b"" c"\n'));
  assert.deepEqual(rows[0]?.cells, { size: "10", note: 'a, "b" c' });
});
