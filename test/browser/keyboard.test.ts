import { expect } from "vitest";
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { test } from "./harness.ts";
import { drawn, isThere, margin, tally, textOfPlan, undo, waitForDesk } from "./steps.ts";

/** Everything by keys: a length, a pin, a cure, all on the drawing. The mouse is not touched. */

/** What has the focus, as a reader hears it. */
const heard = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    return at?.getAttribute("aria-label") ?? at?.textContent?.trim() ?? "";
  });

const focusedThing = (page: Page): Promise<string | null> =>
  page.evaluate(() => document.activeElement?.getAttribute("data-main") ?? null);

/** From Start to the sloop by keys alone. */
async function openByKeys(page: Page): Promise<void> {
  // Keys are heard once the page stands.
  await page.getByRole("heading", { level: 1 }).waitFor();
  await page.keyboard.press("2");
  for (let tabs = 0; !/^Open the sloop$/.test(await heard(page)); tabs++) {
    assert.ok(tabs < 12, "the button was not come by");
    await page.keyboard.press("Tab");
  }
  await page.keyboard.press("Enter");
  await waitForDesk(page);
}

/** Goes round the regions until the focus is in the drawing. */
async function toDrawing(page: Page): Promise<void> {
  for (let presses = 0; (await focusedThing(page)) === null; presses++) {
    assert.ok(presses < 8, "F6 does not come to the drawing");
    await page.keyboard.press("F6");
  }
}

test("the arrows travel the copper, from the source to a load and back", async ({ harness }) => {
  const page = await harness.open();
  await openByKeys(page);
  await toDrawing(page);
  await page.keyboard.press("Home");
  await expect.poll(() => focusedThing(page)).toBe("parts.B1");
  assert.match(await heard(page), /^B1.*battery/);
  const seen: (string | null)[] = [];
  for (let i = 0; i < 12 && !seen.includes("parts.PNL"); i++) {
    await page.keyboard.press("ArrowRight");
    seen.push(await focusedThing(page));
  }
  assert.ok(seen.includes("circuits.W01") && seen.includes("parts.SW1"), seen.join(" "));
  for (let i = 0; i < 12 && (await focusedThing(page)) !== "parts.B1"; i++) await page.keyboard.press("ArrowLeft");
  assert.equal(await focusedThing(page), "parts.B1");
});

test("a length is changed and a size pinned by keys, each a step that can be undone", async ({ harness }) => {
  const page = await harness.open();
  await openByKeys(page);
  const before = await textOfPlan(page);
  await page.keyboard.press("/");
  await page.keyboard.type("W13");
  await expect.poll(() => page.getByRole("option").count()).toBeGreaterThan(0);
  await page.keyboard.press("Enter");
  await toDrawing(page);
  await expect.poll(() => focusedThing(page)).toBe("circuits.W13");
  assert.match(await heard(page), /W13.*(?:fridge|5\.2)/);

  await page.keyboard.press("l");
  const field = page.getByRole("textbox", { name: /length/ });
  await field.waitFor();
  assert.equal(await heard(page).then(() => field.inputValue()), "5.2");
  await page.keyboard.type("6.1 m");
  await page.keyboard.press("Enter");
  await expect.poll(() => undo(page).getAttribute("aria-label")).toMatch(/W13.*5\.2.* → 6\.1 m/);
  // The focus is back where it was, and the next key acts on the same wire.
  await expect.poll(() => focusedThing(page)).toBe("circuits.W13");
  await page.keyboard.press("p");
  await expect.poll(() => undo(page).getAttribute("aria-label")).toMatch(/W13.*pin|pin.*W13/);
  const pinned = await textOfPlan(page);
  assert.match(pinned, /W13: .*length: 6\.1 m.*wire: [\d.]+ mm²/);
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await expect.poll(() => undo(page).getAttribute("aria-label")).toMatch(/nothing to undo/);
  assert.equal(await textOfPlan(page), before);
});

test("a finding is come by, its cure seen and applied by keys", async ({ harness }) => {
  const page = await harness.open();
  await openByKeys(page);
  const before = await tally(page);
  await toDrawing(page);
  for (let presses = 0; ; presses++) {
    assert.ok(presses < 9, "no finding with a cure was come by");
    await page.keyboard.press("j");
    const open = margin(page).getByRole("button", { name: "Apply cure" });
    const isCurable = await expect
      .poll(() => open.isEnabled(), { timeout: 3000 })
      .toBe(true)
      .then(
        () => true,
        () => false,
      );
    if (isCurable) break;
  }
  await page.keyboard.press("a");
  await expect.poll(() => tally(page).then((t) => t.must + t.should)).toBeLessThan(before.must + before.should);
  assert.match((await undo(page).getAttribute("aria-label")) ?? "", /^Undo: cure/);
});

test("no key is a trap: Tab goes on from every place, and the focus can be seen", async ({ harness }) => {
  const page = await harness.open();
  await openByKeys(page);
  await isThere(drawn(page, "parts.B1"));
  const seen = new Set<string>();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press("Tab");
    const [name, ring] = await page.evaluate(() => {
      const at = document.activeElement;
      if (at === null || at === document.body) return ["", true];
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(at);
      const isRinged = (outlineStyle !== "none" && parseFloat(outlineWidth) >= 1.5) || boxShadow !== "none";
      // Of a thing that is drawn the frame of the selection is the ring.
      return [
        `${at.tagName} ${at.getAttribute("aria-label") ?? at.textContent ?? ""}`,
        isRinged || at instanceof SVGElement,
      ];
    });
    assert.ok(ring, `the focus cannot be seen at ${name}`);
    seen.add(name);
  }
  // Head, states, sheets, drawing and notes have all been come by.
  assert.ok(seen.size > 12, [...seen].join("\n"));
});
