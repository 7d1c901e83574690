import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { languagePage } from "./language-page.ts";
import { planSchema } from "./plan-schema.ts";
import { rulePages } from "./rule-pages.ts";

/** Pages and schemas that are made from the code, by their place in the project. The same code gives the same bytes. */
export function generatedDocs(): ReadonlyMap<string, string> {
  return new Map([
    ["docs/language.md", languagePage()],
    ["schema/plan.schema.json", `${JSON.stringify(planSchema(), null, "\t")}\n`],
    ...rulePages(),
  ]);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  for (const [path, text] of generatedDocs()) {
    const file = join(import.meta.dirname, "..", path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
    console.log(`${path}: ${text.length} characters`);
  }
}
