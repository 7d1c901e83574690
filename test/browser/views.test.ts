import { expect } from "vitest";
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { axeFaults, expectNoAxeFaults, inDark, shoot, test } from "./harness.ts";
import { drawn, goTo, isThere, margin, openExample, settled, sheets } from "./steps.ts";

/** Every view on every screen: looked at for faults of accessibility, and pictured. */

const VIEWS = [
  ["one-line", /One-line/],
  ["states", /States/],
  ["schedules", /Schedules/],
  ["findings", /Findings/],
  ["why", /Why/],
  ["text", /Text/],
  ["wire-desk", /Wire desk/],
] as const;

/** One line a fault, over all views: a person who mends them wants to see all. */
async function lookAtAll(page: Page, name: string, inBoth: boolean): Promise<string[]> {
  const look = async (view: string): Promise<string[]> => {
    await shoot(page, `${name}-light-${view}`);
    const found = (await axeFaults(page)).map((fault) => `${view}: ${fault}`);
    if (!inBoth) return found;
    const dark = await inDark(page, async () => {
      await shoot(page, `${name}-dark-${view}`);
      return axeFaults(page, "colours");
    });
    return [...found, ...dark.map((fault) => `${view}, dark: ${fault}`)];
  };
  const faults = await look("start");
  await openExample(page, "sloop");
  for (const [view, label] of VIEWS) {
    await goTo(page, label);
    await expect
      .poll(() => sheets(page).getByRole("button", { name: label }).getAttribute("aria-current"))
      .toBe("page");
    // A view that asks the compiler has its answer.
    await settled(page);
    faults.push(...(await look(view)));
  }
  return faults;
}

for (const [size, themes] of [
  ["desk", "light and dark"],
  ["tablet", "light"],
  ["phone", "light"],
] as const) {
  test(`no view has a fault of accessibility: ${size}, ${themes}`, async ({ harness }) => {
    const faults = await lookAtAll(await harness.open({ size }), size, themes === "light and dark");
    assert.ok(faults.length === 0, `faults of accessibility\n${faults.join("\n")}`);
  });
}

test("an open note, a field on the drawing and the keys of a view have none either", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  await margin(page).getByRole("article").first().getByRole("button").first().click();
  await expectNoAxeFaults(page);
  await isThere(drawn(page, "circuits.W13"));
  await page.getByText("5.2", { exact: true }).first().click();
  await page.getByRole("textbox", { name: /length/ }).waitFor();
  await expectNoAxeFaults(page);
  await page.keyboard.press("Escape");
  await page.keyboard.press("?");
  await page.getByRole("dialog").waitFor();
  await expectNoAxeFaults(page);
});

test("nothing runs out of the page sideways, at twice the text size too", async ({ harness }) => {
  for (const size of ["tablet", "phone"] as const) {
    const page = await harness.open({ size });
    for (const scale of ["100%", "200%"]) {
      await page.evaluate((percent) => (document.documentElement.style.fontSize = percent), scale);
      expect(await overflow(page), `start, ${size}, ${scale}`).toBeLessThanOrEqual(0);
    }
    await openExample(page, "sloop");
    for (const [view, label] of VIEWS) {
      await goTo(page, label);
      expect(await overflow(page), `${view}, ${size}, 200 %`).toBeLessThanOrEqual(0);
    }
  }
});

const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

test("in forced colours the drawing and the shapes are there", async ({ harness }) => {
  const page = await harness.open({ forcedColours: true });
  await openExample(page, "sloop");
  await shoot(page, "desk-forced-one-line");
  await goTo(page, /Findings/);
  await shoot(page, "desk-forced-findings");
});
