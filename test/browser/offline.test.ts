import { expect } from "vitest";
import assert from "node:assert/strict";
import { test } from "./harness.ts";
import { drawn, isThere, openExample, planLine, symbol, undo, waitForDesk } from "./steps.ts";

/** No network is the normal case: on a boat, in a valley. */

test("once seen, the page opens, computes and keeps without a network", async ({ harness }) => {
  const page = await harness.open();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.context().setOffline(true);
  await page.reload();
  await openExample(page, "sloop");
  await symbol(page, "parts.fridge").click();
  const line = planLine(page);
  await line.fill((await line.inputValue()).replace(/running: [\d.]+ A/, "running: 5 A"));
  await line.press("Enter");
  await expect.poll(() => undo(page).getAttribute("aria-label")).not.toMatch(/nothing/);
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
  await page.waitForTimeout(300);
  await page.reload();
  await waitForDesk(page);
  await isThere(drawn(page, "parts.fridge"));
  assert.match(await planLine(page).inputValue(), /running: 5 A/);
});
