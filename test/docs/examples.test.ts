import { expect, test } from "vitest";
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { compile } from "../../src/compile.ts";
import { positionAt } from "../../src/plan/text/positions.ts";
import { examplesIn, fencesIn, filesBelow, modulesInScope, root, type Snippet } from "./read-examples.ts";
import { isShownAs, runExample, type Scope } from "./run-example.ts";

/** Whatever a reader is shown has been run: the examples of doc comments, and the marked fences of the pages. */

const load = async (path: string): Promise<Scope> => (await import(pathToFileURL(path).href)) as Scope; // a module is one

const sources = filesBelow("src", ".ts").filter((file) => !file.endsWith(".test.ts"));
const withExamples = sources.filter((file) => readFileSync(join(root, file), "utf8").includes("@example"));
const pages = ["README.md", "CONTRIBUTING.md", ...filesBelow("docs", ".md")].filter((p) => existsSync(join(root, p)));

test.each(withExamples)("%s: the examples hold", async (file) => {
  const scope: Record<string, unknown> = {};
  for (const path of modulesInScope(file).filter((p) => existsSync(p))) {
    for (const [name, value] of Object.entries(await load(path))) scope[name] ??= value;
  }
  expect(await failures(examplesIn(file), (code) => runExample(code, scope))).toEqual([]);
});

test("no example is overlooked", () => {
  for (const file of withExamples) {
    const tags = readFileSync(join(root, file), "utf8").split("@example").length - 1;
    assert.equal(examplesIn(file).length, tags, `${file}: an \`@example\` that does not start its line is not run`);
  }
});

test("fences marked `ts run` hold", async () => {
  const scope = await load(join(root, "src/index.ts"));
  const snippets = pages.flatMap((page) => fencesIn(page, "ts run"));
  expect(await failures(snippets, (code) => runExample(code, scope))).toEqual([]);
});

test("fences marked `yaml plan` say what their comments say they do", async () => {
  const snippets = pages.flatMap((page) => fencesIn(page, "yaml plan"));
  assert.ok(snippets.length > 0);
  expect(await failures(snippets, (code) => Promise.resolve(judgePlan(code)))).toEqual([]);
});

async function failures(snippets: readonly Snippet[], run: (code: string) => Promise<string[]>): Promise<string[]> {
  const all: string[] = [];
  for (const { file, line, code } of snippets) {
    for (const wrong of await run(code)) all.push(`${file}:${line}: ${wrong}`);
  }
  return all;
}

/**
 * Compares the messages of a plan with the comments that announce them: `#! error plan/unit-missing` on the line it points at.
 * Notes need not be announced; errors, warnings and hints must be. In a plan without errors findings must be announced too, by how grave they are:
 * `#! must protection/distant-device`, and `#! unsure …` where a rule cannot be told.
 */
function judgePlan(text: string): string[] {
  const announced = text.split("\n").flatMap((line, i) => {
    const said = /#!\s*(.*)$/.exec(line)?.[1];
    return said === undefined ? [] : said.split(/\s*;\s*/).map((one) => `${i + 1}: ${one.trim()}`);
  });
  const { diagnostics, judgement } = compile(text);
  const lineOf = (at: readonly (readonly [number, number])[]): number => positionAt(text, at[0]?.[0] ?? 0).line;
  const isRead = diagnostics.every(({ level }) => level !== "error");
  const found = [
    ...diagnostics.flatMap(({ level, id, at }) => {
      const said = `${lineOf(at)}: ${level} ${id}`;
      return level === "note" && !announced.includes(said) ? [] : [said];
    }),
    ...(isRead ? judgement.findings : []).map(
      ({ outcome, severity, rule, at }) => `${lineOf(at)}: ${outcome === "fail" ? severity : "unsure"} ${rule}`,
    ),
  ];
  return [
    ...announced.filter((a) => !found.includes(a)).map((a) => `announced and not said: line ${a}`),
    ...found.filter((f) => !announced.includes(f)).map((f) => `said and not announced: line ${f}`),
  ];
}

test("a wrong example is found out", async () => {
  const scope = { half: (x: number) => x / 2 };
  assert.deepEqual(await runExample("half(3) //=> 1.5", scope), []);
  assert.deepEqual(await runExample("const x: number = 3;\nhalf(x)\n//=> 1.5", scope), []);
  assert.deepEqual(await runExample("half(3) //=> 2.5", scope), ["shown 2.5, found 1.5"]);
  assert.deepEqual(await runExample("half(3)", scope), ["nothing is shown: no `//=>`"]);
  assert.deepEqual(await runExample("const y = half(3); //=> 1.5", scope), ["`//=> 1.5` follows no expression"]);
  assert.match((await runExample("third(3) //=> 1", scope)).join(), /third is not defined/);
  assert.deepEqual(
    judgePlan("wireworthy: 1\nparts:\n  a: { kind: bus bar, colour: red } #! error plan/key-unknown\n"),
    [],
  );
  assert.equal(judgePlan("wireworthy: 1\nparts:\n  a: { kind: bus bar, colour: red }\n").length, 1);
  assert.equal(judgePlan("wireworthy: 1 #! error plan/key-unknown\n").length, 1);
});

test("values are compared as they are shown", () => {
  const yes: [unknown, string][] = [
    [5.1349, "5.13"],
    [0.0000157, "1.57e-5"],
    [-3, "-3"],
    ["a", '"a"'],
    [[1, [2.04, null]], "[1, [2.0, null]]"],
    [{ a: 1, "b c": undefined }, '{ a: 1, "b c": undefined }'],
    [Int32Array.of(1, 2), "[1, 2]"],
  ];
  for (const [value, shown] of yes) assert.ok(isShownAs(value, shown), shown);
  const no: [unknown, string][] = [
    [5.136, "5.13"],
    [3.1, "3"],
    ["3", "3"],
    [{ a: 1, b: 2 }, "{ a: 1 }"],
    [{ a: 1 }, "{ a: 1, b: 2 }"],
    [[1, 2], "[1]"],
    [undefined, "null"],
    [NaN, "0"],
    [1, "1; 2"],
  ];
  for (const [value, shown] of no) assert.ok(!isShownAs(value, shown), shown);
});
