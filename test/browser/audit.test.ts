import { expect } from "vitest";
import assert from "node:assert/strict";
import { countActions, shoot, test } from "./harness.ts";
import { openExample, planLine, tally, textOfPlan, undo } from "./steps.ts";

/** Old wiring: what nobody knows is drawn, asked for, measured, and judged from then on. */

test("an unknown is found, looked up on the boat and typed in, and what could not be told is told", async ({
  harness,
}) => {
  const page = await harness.open();
  await openExample(page, "sloop-audit");
  const before = await tally(page);
  assert.ok(before.cannotTell > 20);
  const hands = countActions(page);
  // Asked for by name, as on the sleeve.
  await hands.key("/");
  await page.keyboard.type("W20");
  await expect.poll(() => page.getByRole("option").count()).toBeGreaterThan(0);
  await page.keyboard.press("Enter");
  const line = planLine(page);
  await expect.poll(() => line.inputValue()).toMatch(/^W20:.*unknown/);
  await shoot(page, "audit-unknown");
  await hands.typeInto(line, (await line.inputValue()).replace(/length: unknown/, "length: 4.8 m"));
  await expect.poll(() => tally(page).then((t) => t.cannotTell)).toBeLessThan(before.cannotTell);
  assert.match((await undo(page).getAttribute("aria-label")) ?? "", /^Undo: W20/);
  assert.ok(hands.count() <= 3);
  assert.match(await textOfPlan(page), /W20: .*4\.8 m/);
});
