import { expect } from "vitest";
import assert from "node:assert/strict";
import { countActions, shoot, test } from "./harness.ts";
import { margin, openExample, symbol, tally, textOfPlan, undo } from "./steps.ts";

/** A finding, its cure in pencil, its cure in ink, and back. */

test("the fridge that may not start is cured on the drawing", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop-audit");
  const before = await tally(page);
  const text = await textOfPlan(page);
  await symbol(page, "parts.fridge").click();
  const hands = countActions(page);
  const note = margin(page).getByRole("article", { name: /Failing start/ });
  await hands.click(note.getByRole("button").first());
  // First the world, then the figures; then the cure, in pencil as soon as it is found.
  await expect.poll(() => note.innerText()).toMatch(/stalls[^]*11\.5/);
  const apply = note.getByRole("button", { name: "Apply cure" });
  await expect.poll(() => apply.isEnabled(), { timeout: 10_000 }).toBe(true);
  assert.match(await note.innerText(), /Cure: .*[\s\S]*in pencil/);
  assert.match(await note.getByRole("table").innerText(), /now\s+then/i);
  // The counts are in pencil too: what it would come to.
  await expect.poll(() => tally(page).then((t) => t.should)).toBe(before.should - 1);
  assert.match((await undo(page).getAttribute("aria-label")) ?? "", /nothing/);
  await shoot(page, "cure-in-pencil");
  await hands.click(apply);
  assert.equal(hands.count(), 2);
  await expect.poll(() => tally(page).then((t) => t.should)).toBe(before.should - 1);
  assert.notEqual(await textOfPlan(page), text);
  // Undo brings all back: every byte.
  assert.match((await undo(page).getAttribute("aria-label")) ?? "", /^Undo: cure/);
  await undo(page).click();
  await expect.poll(() => tally(page)).toEqual(before);
  assert.equal(await textOfPlan(page), text);
});

test("a cure that is not wanted is rubbed out by Esc", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  const text = await textOfPlan(page);
  const before = await tally(page);
  const note = margin(page).getByRole("article", { name: /Switched-off always-on load/ });
  await note.getByRole("button").first().click();
  await expect.poll(() => note.getByRole("button", { name: "Apply cure" }).isEnabled(), { timeout: 10_000 }).toBe(true);
  await page.keyboard.press("Escape");
  await expect.poll(() => note.getByText("in pencil").count()).toBe(0);
  await expect.poll(() => tally(page)).toEqual(before);
  await page.keyboard.press("Escape");
  await expect.poll(() => note.getByRole("button", { name: "Apply cure" }).count()).toBe(0);
  assert.equal(await textOfPlan(page), text);
});
