import { afterAll, beforeAll, test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv, type ValidateFunction } from "ajv";
import { compile } from "../../src/compile.ts";
import { designDocument, printJson } from "../../src/cli/documents.ts";
import { answerQuestion } from "../../src/size/answer.ts";
import { readQuestion } from "../../src/size/question.ts";
import type { QuestionText } from "../../src/size/question-text.ts";
import { makeSchemas, published } from "../../tools/make-schema.ts";
import { examples, freshFolder, removeFolder, root, warmRunner, type Run } from "./built.ts";
import { hostilePlan } from "./hostile-plan.ts";

let folder = "";
let run: Run;

beforeAll(async () => {
  folder = freshFolder();
  run = await warmRunner();
});
afterAll(() => {
  removeFolder(folder);
});

const schemaText = (file: string): string => readFileSync(join(root, "schema", file), "utf8");

const ajv = new Ajv({ allErrors: false, strict: true, allowUnionTypes: true });
const compiled = new Map<string, ValidateFunction>();

/** Holds a text to a published schema; the first slip is shown with its place. */
function fits(file: string, text: string): void {
  let validate = compiled.get(file);
  if (validate === undefined) {
    validate = ajv.compile(JSON.parse(schemaText(file)) as object); // a published schema
    compiled.set(file, validate);
  }
  const document: unknown = JSON.parse(text);
  assert.ok(validate(document), `${file}: ${JSON.stringify(validate.errors?.[0])}`);
}

test("the published schemas are those that the types give: `npm run docs` makes them", () => {
  for (const [file, text] of makeSchemas()) assert.equal(schemaText(file), text, file);
});

test("every schema says what it is of, and every number its unit", () => {
  for (const { file, title } of published) {
    const schema = JSON.parse(schemaText(file)) as { title: string }; // a published schema
    assert.equal(schema.title, title);
  }
  // The units come from names and comments; a number without any stops the making.
  assert.match(schemaText("design.schema.json"), /"dropV": \{[^}]*In V\./);
  assert.match(schemaText("design.schema.json"), /"areaMm2": \{[^}]*In mm²\./);
});

test("all that is printed as JSON keeps to its schema", () => {
  const plans = examples.map((name) => [name, readFileSync(join(root, name), "utf8")] as const);
  for (const [name, text] of [...plans, ["hostile.yaml", hostilePlan], ["empty.yaml", ""]] as const) {
    fits("design.schema.json", printJson(designDocument(name, compile(text))));
  }
  const questions: QuestionText[] = [
    { load: "4.3 A", run: "5.2 m" },
    { load: "60 W", volts: "24 V", loop: "30 ft", rules: "us-small-craft", start: "5 A" },
    { load: "500 A", run: "30 m" },
    { load: "2000 A", run: "0.1 m", metal: "aluminium", strands: "class 2" },
  ];
  for (const question of questions) {
    const read = readQuestion(question);
    assert.ok(read.ok);
    const answer = answerQuestion(read.question, compile);
    fits("size.schema.json", printJson({ format: "wireworthy-size-1", wireworthy: "0", ...answer }));
  }
});

test("so does what the command line prints", () => {
  const hostile = join(folder, "hostile.yaml");
  writeFileSync(hostile, hostilePlan);
  fits("check.schema.json", run(["check", ...examples, hostile, "--json"]).out);
  fits("build.schema.json", run(["build", hostile, "-o", join(folder, "out"), "--json"]).out);
  fits("design.schema.json", readFileSync(join(folder, "out", "design.json"), "utf8"));
  fits("design.schema.json", run(["schedule", "examples/sloop.yaml", "--json"]).out);
  fits("size.schema.json", run(["size", "--load", "4.3A", "--run", "5.2m", "--json"]).out);
  for (const label of [
    "14/3 SOOW",
    "12/2",
    "50 m FLRY-A 1.5 BKWHYE tinned",
    "4/0-4/0-2/0 SER",
    "2.5 mm² twin and earth",
    "?",
  ])
    fits("read.schema.json", run(["read", "--json", label]).out);
  for (const args of [["6 AWG"], ["70 mm2", "--by", "table"], ["1000 mm2", "--to", "SAE"]])
    fits("convert.schema.json", run(["convert", ...args, "--json"]).out);
  for (const plan of [...examples, hostile]) {
    fits("faults.schema.json", run(["faults", plan, "--json"]).out);
    fits("selectivity.schema.json", run(["selectivity", plan, "--json"]).out);
    fits("states.schema.json", run(["states", plan, "--json"]).out);
  }
  fits("states.schema.json", run(["states", "examples/sloop.yaml", "--set", "INL in, CU main on", "--json"]).out);
  fits("faults.schema.json", run(["faults", "examples/sloop.yaml", "w12", "--json"]).out);
  fits("compare.schema.json", run(["compare", "examples/sloop.yaml", "us-small-craft", "--json"]).out);
});

test("a question that the schema takes is read, and one that it refuses is refused", () => {
  const validate = ajv.compile(JSON.parse(schemaText("question.schema.json")) as object); // a published schema
  assert.ok(validate({ load: "4.3 A", run: "5.2 m", engineSpace: true }));
  assert.ok(!validate({ load: 4.3, run: "5.2 m" }));
  assert.ok(!validate({ load: "4.3 A", rum: "5.2 m" }));
});
