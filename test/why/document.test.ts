import { test } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { printJson, whyDocument } from "../../src/cli/documents.ts";
import { printWhy } from "../../src/cli/print-why.ts";
import { plain } from "../../src/cli/terminal.ts";
import { textWidth } from "../../src/cli/text-width.ts";
import { compile } from "../../src/compile.ts";
import { explainWhy, listSubjects } from "../../src/why/index.ts";
import { hostilePlan } from "../package/hostile-plan.ts";

const root = join(import.meta.dirname, "../..");
const plans = [
  ...["sloop-audit", "hut"].map((name) => readFileSync(join(root, "examples", `${name}.yaml`), "utf8")),
  hostilePlan,
];

test("explanations keep to the published schema, and fit into the columns of a terminal", () => {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true });
  const validate = ajv.compile(JSON.parse(readFileSync(join(root, "schema/why.schema.json"), "utf8")) as object); // a published schema
  for (const text of plans) {
    const built = compile(text);
    for (const { subject } of listSubjects(built)) {
      const found = explainWhy(built, subject);
      assert.ok(found.ok, subject);
      const document: unknown = JSON.parse(printJson(whyDocument("-", built, found.explanation)));
      assert.ok(validate(document), `${subject}: ${JSON.stringify(validate.errors?.[0])}`);
      for (const width of [80, 120, 160]) {
        for (const line of printWhy(found.explanation, width, plain).split("\n")) {
          assert.ok(textWidth(line) <= width, `${subject} at ${width}: ${line}`);
        }
      }
    }
  }
});
