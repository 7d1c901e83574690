import { inject } from "vitest";
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { distantDevice } from "../../src/rules/protection/distant-device.ts";
import { test } from "./harness.ts";
import { drawn, isThere, openExample } from "./steps.ts";

/** The first picture does not wait for the rules, and says so as long as they are not there. */

/** The parts of the page that hold a rule: only behind the first picture. */
function partsWithRules(): string[] {
  const folder = inject("pageFolder");
  const names = readdirSync(folder).filter((name) => name.endsWith(".js"));
  const found = names.filter((name) => readFileSync(join(folder, name), "utf8").includes(distantDevice.danger));
  assert.ok(found.length > 0 && found.every((name) => name.startsWith("part-")), found.join());
  return found;
}

test("the drawing stands before the rules are there; then it is judged", async ({ harness }) => {
  let letGo = (): void => undefined;
  const gate = new Promise<void>((resolve) => (letGo = resolve));
  const page = await harness.open({
    before: async (context) => {
      for (const name of partsWithRules())
        await context.route(`**/${name}`, async (route) => {
          await gate;
          await route.continue();
        });
    },
    more: { serviceWorkers: "block" },
  });
  await openExample(page, "sloop-audit");
  await isThere(drawn(page, "parts.fridge"));
  const block = page.getByRole("region", { name: "Title block" });
  await expect.poll(() => block.innerText()).toMatch(/being fetched: nothing is judged yet/);
  assert.doesNotMatch(await block.innerText(), /\d+ (?:pass|must)/);
  letGo();
  await expect.poll(() => block.innerText()).toMatch(/\d+ must/);
  assert.doesNotMatch(await block.innerText(), /fetched/);
});

test("rules that cannot be had are told, never taken for a plan without fault", async ({ harness }) => {
  const page = await harness.open({
    before: async (context) => {
      for (const name of partsWithRules()) await context.route(`**/${name}`, (route) => route.abort());
    },
    more: { serviceWorkers: "block" },
  });
  await openExample(page, "sloop-audit");
  await isThere(drawn(page, "parts.fridge"));
  const block = page.getByRole("region", { name: "Title block" });
  await expect.poll(() => block.innerText()).toMatch(/could not be fetched: nothing is judged/);
  assert.doesNotMatch(await block.innerText(), /\d+ (?:pass|must)/);
  harness.faults.splice(0);
});
