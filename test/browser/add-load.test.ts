import { expect } from "vitest";
import assert from "node:assert/strict";
import { countActions, shoot, test } from "./harness.ts";
import { drawn, isThere, openExample, textOfPlan, undo } from "./steps.ts";

/** A load at a free way of a panel: the ring is clicked, and one sentence typed. */

test("a load is added at a free way in two actions", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "van");
  const before = await textOfPlan(page);
  const hands = countActions(page);
  await hands.click(page.locator('.drawing-host g[data-field="add-load"]').first());
  await hands.typeInto(page.getByRole("textbox", { name: /load/ }), "kettle socket 8 A, 4.2 m");
  assert.equal(hands.count(), 2);
  await isThere(drawn(page, "parts.kettle socket"));
  await shoot(page, "load-added");
  const after = await textOfPlan(page);
  assert.match(after, /kettle socket: .*8 A/);
  assert.match(after, /→ kettle socket, .*4\.2 m/);
  // Nothing else was touched: all lines of the old plan stand as they stood.
  const lines = after.split("\n");
  expect(before.split("\n").filter((line) => !lines.includes(line))).toEqual([]);
  await undo(page).click();
  await drawn(page, "parts.kettle socket").waitFor({ state: "detached" });
  assert.equal(await textOfPlan(page), before);
});

test("what is not understood is asked back where it was typed, and the plan stays", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  const before = await textOfPlan(page);
  await page.locator('.drawing-host g[data-field="add-load"]').first().click();
  const field = page.getByRole("textbox", { name: /load/ });
  await field.fill("kettle 8, 4.2");
  await field.press("Enter");
  await expect
    .poll(() => page.getByRole("alert").allInnerTexts())
    .toEqual(expect.arrayContaining([expect.stringMatching(/unit|A|W/)]));
  await field.press("Escape");
  await field.waitFor({ state: "detached" });
  assert.equal(await textOfPlan(page), before);
});
