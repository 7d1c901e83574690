import { expect } from "vitest";
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { axeFaults, shoot, test } from "./harness.ts";
import { goTo, openExample, settled, sheets, symbol } from "./steps.ts";

/** The view of faults: its map, its curves, the ways that lead to it. */

const tab = (page: Page, name: string) => page.getByRole("tab", { name });
const figure = (page: Page) => page.getByRole("region", { name: /^Time over current/ });

/** Looks at every tab. */
async function lookAtTabs(page: Page, name: string): Promise<string[]> {
  const faults: string[] = [];
  for (const title of ["Fault map", "Curves in time", "Devices", "In series", "Feeders", "Banks", "Terminals"]) {
    await tab(page, title).click();
    await settled(page);
    await shoot(page, `${name}-faults-${title.replace(/ /g, "-").toLowerCase()}`);
    faults.push(...(await axeFaults(page)).map((fault) => `${title}: ${fault}`));
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (over > 0) faults.push(`${title}: runs out by ${over} px`);
  }
  return faults;
}

test("from the load on the drawing to the curves of its circuit, to its faults, and back after a reload", async ({
  harness,
}) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  await symbol(page, "parts.fridge").click();
  await page.keyboard.press("v");
  await figure(page).waitFor();
  assert.match(page.url(), /#faults\?.*at=circuits\.W13.*tab=curves/);
  await expect.poll(() => page.locator(".faults-drawn svg title").first().textContent()).toMatch(/^W13/);
  await page.getByRole("button", { name: "Its faults" }).click();
  await page
    .getByRole("table", { name: "who sees it" })
    .getByRole("rowheader", { name: /^PNL:1/ })
    .waitFor();
  await page.getByText("Goes dark", { exact: true }).waitFor();
  // Another row of the map is another circuit in hand.
  await page.getByRole("grid", { name: "Fault map" }).getByRole("rowheader", { name: "W12" }).click();
  await page.getByRole("region", { name: "Faults of W12" }).waitFor();
  // A reload comes back to the same place.
  await page.reload();
  await page.getByRole("region", { name: "Faults of W12" }).waitFor();
});

test("asked for by words, and printed alone on paper", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  await page.keyboard.press("Control+k");
  await page.keyboard.type("curves fridge");
  await page.getByRole("option", { name: /curves of W13/ }).waitFor();
  await page.keyboard.press("Enter");
  await figure(page).waitFor();
  await page.evaluate(() => {
    Object.assign(globalThis, { print: () => undefined });
  });
  await page.getByRole("button", { name: "Print the curves" }).click();
  await page.locator(".sheet-printed svg").waitFor({ state: "attached" });
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".sheet-printed svg").isVisible(), true);
  assert.equal(await page.locator(".faults").isVisible(), false);
});

test("no tab has a fault of accessibility or runs out of the page: desk in the dark, phone", async ({ harness }) => {
  for (const opening of [
    { size: "desk", theme: "dark" },
    { size: "phone", theme: "light" },
  ] as const) {
    const page = await harness.open(opening);
    await openExample(page, "sloop");
    await goTo(page, /Faults/);
    await expect
      .poll(() =>
        sheets(page)
          .getByRole("button", { name: /Faults/ })
          .getAttribute("aria-current"),
      )
      .toBe("page");
    await settled(page);
    const faults = await lookAtTabs(page, opening.size);
    assert.ok(faults.length === 0, faults.join("\n"));
  }
});
