import { expect } from "vitest";
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { compile } from "../../src/compile.ts";
import { drawPage } from "../../src/workbench/worker/draw-page.ts";
import { test } from "./harness.ts";
import { openExample, type ExampleName } from "./steps.ts";

/** A figure may not depend on where it was worked out: the browser's worker draws the very bytes that Node draws. */

/** The last drawing that the page was handed by its worker. */
async function drawingOf(
  page: Page,
): Promise<{ readonly svg: string; readonly says: string; readonly spoken: unknown }> {
  await expect.poll(() => page.evaluate("lastDrawing !== null")).toBe(true);
  return page.evaluate("lastDrawing");
}

for (const name of ["sloop", "sloop-us", "sloop-audit", "van", "hut"] as const satisfies readonly ExampleName[]) {
  test(`${name}: the drawing is the same, byte for byte, in every state that was shown`, async ({ harness }) => {
    const page = await harness.open({
      before: (context) =>
        context.addInitScript(() => {
          const state = { lastDrawing: null as unknown };
          Object.assign(globalThis, state);
          const Plain = Worker;
          // A worker that lets the test listen too.
          globalThis.Worker = class extends Plain {
            constructor(...given: ConstructorParameters<typeof Worker>) {
              super(...given);
              this.addEventListener("message", ({ data }: MessageEvent<{ is: string; drawing?: unknown }>) => {
                if (data.is === "shown") Object.assign(globalThis, { lastDrawing: data.drawing });
              });
            }
          };
        }),
    });
    await openExample(page, name);
    const text = readFileSync(join(import.meta.dirname, "../../examples", `${name}.yaml`), "utf8");
    const compiled = compile(text);
    // It comes up in the plan's first state; at rest there is a button.
    for (const state of [compiled.design.states[0]?.id ?? null, null]) {
      if (state === null) await page.getByRole("radio", { name: "at rest" }).click();
      const here = drawPage(compiled, 0, state, "brief");
      await expect.poll(() => drawingOf(page).then(({ svg }) => svg.length)).toBe(here.svg.length);
      const there = await drawingOf(page);
      assert.ok(there.svg === here.svg);
      assert.deepEqual([there.says, there.spoken], [here.says, here.spoken]);
    }
  });
}
