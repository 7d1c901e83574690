import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { isDocumentId, type DocumentId } from "../src/explain/documents.ts";
import { isTrust, weakestTrust, type Trust } from "../src/explain/trust.ts";
import { printSymbols } from "./symbol-table.ts";

/**
 * Turns the published tables of `reference/` into the typed tables of `src/reference/`; the form of the CSV is told in
 * `reference/README.md`. The same input gives the same bytes.
 */
const root = join(import.meta.dirname, "..");
const from = join(root, "reference");
const to = join(root, "src", "reference");

/** What a table file says, checked; cells still with their CSV column names. */
export interface ReadTable {
  /** `<subject>/<name>` */
  readonly id: string;
  readonly cite: { readonly document: DocumentId; readonly clause: string };
  readonly source: string;
  readonly how: string;
  readonly basis: string;
  readonly notes: readonly string[];
  readonly key: readonly string[];
  /** Columns that go into the core; empty when the table serves tests and readers only. */
  readonly core: readonly string[];
  readonly columns: readonly { readonly name: string; readonly unit: string; readonly isText: boolean }[];
  readonly rows: readonly {
    readonly cells: Readonly<Record<string, string | number | null>>;
    readonly trust: Readonly<Record<string, Trust>>;
  }[];
}

/** Columns that speak of other columns and are not facts themselves. */
const isAboutOthers = (name: string) => /^(.+_)?status$|^(memory|conflict)_cells$/.test(name);

/** Units that mark a column of words: `AWG` for size labels, `text` for the rest. */
const textUnits = new Set(["AWG", "text"]);

/** RFC 4180 fields of one line; a quoted field may not hold a line feed. */
function splitLine(line: string): string[] {
  const fields: string[] = [];
  let at = 0;
  for (;;) {
    let field = "";
    if (line[at] === '"') {
      for (at++; ; at++) {
        if (at >= line.length) throw new Error(`quote not closed: ${line}`);
        if (line[at] !== '"') field += line[at] ?? "";
        else if (line[at + 1] === '"') field += line[at++] ?? "";
        else break;
      }
      at++;
    } else {
      const end = line.indexOf(",", at);
      field = end < 0 ? line.slice(at) : line.slice(at, end);
      at += field.length;
    }
    fields.push(field);
    if (at >= line.length) return fields;
    if (line[at] !== ",") throw new Error(`text after a quoted field: ${line}`);
    at++;
  }
}

/** `a_*=word; *=other` → the word for a column: the first pattern that fits. */
function assigner(text: string): (column: string) => string | undefined {
  const pairs = text.split(";").map((pair) => {
    const cut = pair.lastIndexOf("=");
    if (cut < 0) throw new Error(`"${pair}" is not column=value`);
    const names = pair.slice(0, cut).trim().split(/\s+/);
    const fits = names.map((name) => new RegExp(`^${name.replaceAll("*", ".*")}$`));
    return { fits, value: pair.slice(cut + 1).trim() };
  });
  return (column) => pairs.find(({ fits }) => fits.some((fit) => fit.test(column)))?.value;
}

/** Reads one table and holds it to the form; the first slip is thrown with its place. */
export function readTable(id: string, text: string): ReadTable {
  const wrong = (what: string): never => {
    throw new Error(`reference/${id}.csv: ${what}`);
  };
  const lines = text.split("\n");
  if (lines.pop() !== "") wrong("must end with a line feed");
  const head = new Map<string, string[]>();
  let first = 0;
  for (; lines[first]?.startsWith("#") === true; first++) {
    const match = /^# ([a-z]+): (.+)$/.exec(lines[first] ?? "");
    if (match?.[1] === undefined || match[2] === undefined) return wrong(`line ${first + 1} is not "# word: text"`);
    head.set(match[1], [...(head.get(match[1]) ?? []), match[2]]);
  }
  const known = ["source", "cite", "how", "basis", "units", "status", "key", "core", "note"];
  for (const word of head.keys()) if (!known.includes(word)) wrong(`unknown head line "${word}"`);
  const all = (word: string) => (head.get(word) ?? []).join("; ");
  const needed = (word: string) => all(word) || wrong(`no "# ${word}:" line`);

  const [document = "", clause = ""] = needed("cite")
    .split("|")
    .map((part) => part.trim());
  if (!isDocumentId(document)) return wrong(`"${document}" is not in src/explain/documents.ts`);

  const names = splitLine(lines[first] ?? "");
  if (new Set(names).size !== names.length) wrong("a column name stands twice");
  const facts = names.filter((name) => !isAboutOthers(name));
  const unitOf = assigner(needed("units"));
  const statusOf = assigner(needed("status"));
  const columns = facts.map((name) => {
    const unit = unitOf(name) ?? wrong(`no unit for column ${name}`);
    return { name, unit: textUnits.has(unit) || unit === "1" ? "" : unit, isText: textUnits.has(unit) };
  });

  const rows = lines.slice(first + 1).map((line, i) => {
    const at = `row ${i + 1} (${line.slice(0, 40)}…)`;
    const fields = splitLine(line);
    if (fields.length !== names.length) wrong(`${at}: ${fields.length} fields, the header has ${names.length}`);
    const field = (name: string) => fields[names.indexOf(name)] ?? "";
    const cells: Record<string, string | number | null> = {};
    const trust: Record<string, Trust> = {};
    const listed = (name: string) => field(name).split(" ").filter(Boolean);
    const odd: [Trust, string[]][] = [
      ["memory", listed("memory_cells")],
      ["conflict", listed("conflict_cells")],
    ];
    for (const [word, cellNames] of odd) {
      for (const name of cellNames) if (!facts.includes(name)) wrong(`${at}: ${word} cell ${name} is no column`);
    }
    for (const { name, isText } of columns) {
      const text = field(name);
      if (text === "") cells[name] = null;
      else if (isText) cells[name] = text;
      else if (Number.isFinite(Number(text)) && text.trim() === text) cells[name] = Number(text);
      else wrong(`${at}: ${name} is not a number: "${text}"`);
      const told = statusOf(name) ?? wrong(`no status for column ${name}`);
      const word = told.startsWith("@") ? field(told.slice(1)) : told;
      if (isTrust(word)) trust[name] = odd.find(([, of]) => of.includes(name))?.[0] ?? word;
      // A row without a word for an empty cell says nothing, and need not.
      else if (text === "" && word === "") trust[name] = "missing";
      else wrong(`${at}: "${word}" is none of the status words (column ${name})`);
    }
    return { cells, trust };
  });

  const key = needed("key").split(/\s+/);
  const core = assignedCore(needed("core"), facts, wrong);
  for (const name of key) if (!facts.includes(name)) wrong(`key ${name} is no column`);
  const labels = rows.map(({ cells }) => key.map((name) => String(cells[name] ?? "")).join(" "));
  const twice = labels.find((label, i) => labels.indexOf(label) !== i);
  if (twice !== undefined) wrong(`two rows are called "${twice}"`);
  const cite = { document, clause };
  const how = needed("how");
  return {
    id,
    cite,
    source: needed("source"),
    how,
    basis: all("basis"),
    notes: head.get("note") ?? [],
    key,
    core,
    columns,
    rows,
  };
}

function assignedCore(text: string, facts: readonly string[], wrong: (what: string) => never): readonly string[] {
  if (text === "none") return [];
  if (text === "all") return facts;
  const names = text.split(/\s+/);
  for (const name of names) if (!facts.includes(name)) wrong(`core column ${name} is no column`);
  return facts.filter((name) => names.includes(name));
}

/** `amps_105C` → `amps105C`; an underscore stays between two digits. */
const camel = (name: string) =>
  name.replace(/(?<!\d)_(.)|_(\D)/g, (_, a?: string, b?: string) => (a ?? b ?? "").toUpperCase());
const property = (name: string) => (/^[a-z_$][\w$]*$/i.test(name) ? name : JSON.stringify(name));

/** The TypeScript of one table. */
export function printTable(table: ReadTable): string {
  const name = table.id.split("/").at(-1) ?? "";
  const type = camel(`_${name}`) + "Row";
  const columns = table.columns.filter((column) => table.core.includes(column.name));
  const holdsNull = (column: string) => table.rows.some(({ cells }) => cells[column] === null);
  const usual = (column: string): Trust => {
    const seen = table.rows.filter(({ cells }) => cells[column] !== null).map(({ trust }) => trust[column]);
    const count = (word: Trust | undefined) => seen.filter((other) => other === word).length;
    // The commonest word; of two equally common ones the weaker.
    return seen.reduce<Trust>((best, word) => {
      if (word === undefined || word === best) return best;
      if (count(word) !== count(best)) return count(word) > count(best) ? word : best;
      return weakestTrust(best, word);
    }, seen[0] ?? "missing");
  };
  const exceptions = table.rows.flatMap(({ cells, trust }, row) =>
    columns
      .filter((column) => cells[column.name] !== null && trust[column.name] !== usual(column.name))
      .filter((column) => !column.isText && !table.key.includes(column.name))
      .map((column) => `    [${row}, ${JSON.stringify(camel(column.name))}, ${JSON.stringify(trust[column.name])}],\n`),
  );
  const facts = columns.filter(({ name }) => !table.key.includes(name) && !/^(note|basis|how|source)$/.test(name));
  const trust = weakestTrust(...facts.map((column) => usual(column.name)));
  return `// Generated by tools/make-reference.ts from reference/${table.id}.csv. Do not edit.
import { cite } from "../explain/citation.ts";
import { rowsOf } from "../explain/rows-of.ts";
import type { Table } from "../explain/table.ts";

export interface ${type} {
${columns.map((c) => `  readonly ${property(camel(c.name))}: ${c.isText ? "string" : "number"}${holdsNull(c.name) ? " | null" : ""};\n`).join("")}}

export const ${camel(name)}: Table<${type}> = {
  id: ${JSON.stringify(table.id)},
  cite: cite(${JSON.stringify(table.cite.document)}, ${JSON.stringify(table.cite.clause)}, ${JSON.stringify(trust)}),
  key: [${table.key.map((k) => JSON.stringify(camel(k))).join(", ")}],
  columns: {
${columns.map((c) => `    ${property(camel(c.name))}: { unit: ${JSON.stringify(c.unit)}, trust: ${JSON.stringify(usual(c.name))} },\n`).join("")}  },
  exceptions: [${exceptions.length > 0 ? `\n${exceptions.join("")}  ` : ""}],
  rows: rowsOf<${type}>([${columns.map((c) => JSON.stringify(camel(c.name))).join(", ")}], [
${table.rows.map(({ cells }) => `    [${columns.map((c) => JSON.stringify(cells[c.name])).join(", ")}],\n`).join("")}  ]),
};
`;
}

/** Every table of `reference/`, in the order of the folders. */
export function readAllTables(): ReadTable[] {
  const subjects = readdirSync(from, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  return subjects
    .map((entry) => entry.name)
    .sort()
    .flatMap((subject) =>
      readdirSync(join(from, subject))
        .filter((file) => file.endsWith(".csv"))
        .sort()
        .map((file) => readTable(`${subject}/${file.slice(0, -4)}`, readFileSync(join(from, subject, file), "utf8"))),
    );
}

/** Name and text of each file that belongs into `src/reference/`. */
export function printAllTables(tables: readonly ReadTable[]): Map<string, string> {
  const files = new Map<string, string>();
  for (const table of tables.filter(({ core }) => core.length > 0)) {
    const file = `${(table.id.split("/").at(-1) ?? "").replaceAll("_", "-")}.ts`;
    if (files.has(file)) throw new Error(`two tables would be src/reference/${file}`);
    files.set(file, printTable(table));
  }
  const drawn = tables.find(({ id }) => id === "drawing/symbols");
  if (drawn !== undefined) files.set("symbols.ts", printSymbols(drawn));
  return files;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const files = printAllTables(readAllTables());
  mkdirSync(to, { recursive: true });
  for (const old of readdirSync(to)) if (!files.has(old)) rmSync(join(to, old));
  for (const [file, text] of files) writeFileSync(join(to, file), text);
  console.log(`src/reference: ${files.size} tables`);
}
