import { build } from "esbuild";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { compile, type Compiled } from "../../src/compile.ts";
import { findCures } from "../../src/cure/index.ts";
import { explainWhy } from "../../src/why/index.ts";
import type { FindingKey } from "../../src/workbench/contract.ts";
import { makePagePlan } from "../../src/workbench/worker/page-plan.ts";
import type { PagePlan } from "../../src/workbench/worker/protocol.ts";

const root = join(import.meta.dirname, "../..");

/** The views and their styles, as one script and one sheet. */
export async function bundleViews(): Promise<{ readonly script: string; readonly styles: string }> {
  const { outputFiles } = await build({
    entryPoints: [join(root, "test/browser/lone-view-page.ts")],
    bundle: true,
    write: false,
    outdir: "out",
    format: "iife",
    jsx: "automatic",
    jsxImportSource: "preact",
    target: "es2023",
    minify: true,
  });
  const ending = (end: string): string => outputFiles.find((f) => f.path.endsWith(end))?.text ?? "";
  return { script: ending(".js"), styles: ending(".css") };
}

export interface Example {
  readonly text: string;
  readonly compiled: Compiled;
  readonly plan: PagePlan;
}

export function readExample(name: string, change: (text: string) => string = (text) => text): Example {
  const text = change(readFileSync(join(root, `examples/${name}.yaml`), "utf8"));
  const compiled = compile(text);
  return { text, compiled, plan: makePagePlan(compiled, 1, { compileMs: 0, drawMs: 0 }) };
}

const LONGER = {
  when: "9 m or longer, one way",
  then: "50 mm²",
  fact: "circuits.W12.length",
  value: 9,
  until: 8.9,
  unit: "m",
};

/** A page that shows views over one example; questions are answered by the compiler outside. */
export async function openPage(
  browser: Browser,
  { text, compiled }: Example,
  views: Awaited<ReturnType<typeof bundleViews>>,
  options: Parameters<Browser["newPage"]>[0] = {},
): Promise<Page> {
  const page = await browser.newPage(options);
  await page.exposeFunction("explain", (subject: string, changes: boolean) => {
    const told = explainWhy(compiled, subject);
    // Looking for changes in earnest takes a second; here only where they stand counts.
    return told.ok && changes ? { ...told, explanation: { ...told.explanation, changes: [LONGER] } } : told;
  });
  await page.exposeFunction("findCures", (finding: FindingKey) => findCures(text, finding, compile));
  await page.exposeFunction("strip", () => ({
    svg: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 120" width="60mm" height="120mm"><path d="M30 5v110" stroke="#000"/></svg>',
    width: 60,
    height: 120,
  }));
  await page.setContent(
    `<!doctype html><html lang="en"><head><title>views</title><meta name="viewport" content="width=device-width"><style>${views.styles}</style></head><body><main><h1 class="unseen">plan</h1><div id="view"></div></main></body></html>`,
  );
  await page.addScriptTag({ content: views.script });
  return page;
}
