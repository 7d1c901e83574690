import { expect } from "vitest";
import assert from "node:assert/strict";
import type { Page } from "playwright-core";
import { axeFaults, shoot, test } from "./harness.ts";
import { goTo, openExample, planLine, settled, textOfPlan } from "./steps.ts";

/** The view of states: switches that a finger sets, and what is live then. */

const set = (page: Page, mover: string) => page.getByRole("group", { name: mover });
const press = (page: Page, mover: string, position: string): Promise<void> =>
  set(page, mover).getByRole("radio", { name: position, exact: true }).check();
const head = (page: Page) => page.locator(".states-now");

test("set by finger and key: shore in feeds the charger; the move is kept over a reload and written into the plan", async ({
  harness,
}) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  await page.keyboard.press("5");
  await head(page).getByText("Everything off").waitFor();
  await press(page, "INL", "in");
  await head(page).getByText("INL live, feeds nothing").waitFor();
  await press(page, "consumer unit main", "on");
  await head(page).getByText("INL feeds CHG").waitFor();
  await press(page, "consumer unit way 3", "on");
  await set(page, "TS").getByRole("radio", { name: "off" }).focus();
  await page.keyboard.press("ArrowRight");
  await head(page).getByText("INL feeds everything").waitFor();
  await head(page).getByText("INL: 1 join at INL, ashore; 3 of 3 fed").waitFor();
  await page
    .getByRole("row", { name: /^sockets to port fed from INL to the join consumer unit, sees 22\d V, 5.0 A/ })
    .waitFor();
  assert.match(page.url(), /set=INL%3Din/);
  await page.reload();
  await head(page).getByText("INL feeds everything").waitFor();
  await page.getByRole("textbox", { name: /^Write it into the plan/ }).fill("on shore");
  await page.getByRole("button", { name: "Write the state" }).click();
  await page.getByText("on shore is in the plan.").waitFor();
  assert.match(
    await textOfPlan(page),
    / on shore: \{ shore: in, SW1: off, TS: shore, on: \[sockets to port, sockets to starboard\] \}/,
  );
});

test("from a finding to the position that proves it: its note opens States there, and the list of the rules goes there too", async ({
  harness,
}) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  // A transfer switch of one pole leads the neutral of the shore on to the join of the inverter.
  await page.keyboard.press("/");
  await page.keyboard.type("TS");
  await expect.poll(() => page.getByRole("option").count()).toBeGreaterThan(0);
  await page.keyboard.press("Enter");
  const line = planLine(page);
  await expect.poll(() => line.inputValue()).toMatch(/^TS:.*poles: 2/);
  await line.fill((await line.inputValue()).replace("poles: 2", "poles: 1"));
  await line.press("Enter");
  await goTo(page, /Findings/);
  const item = page.getByRole("article", { name: /^Doubled neutral–earth join/ });
  await item.getByRole("button", { name: /^See it in States ?: INL in/ }).click();
  await head(page).getByText("INL: 2 joins at INV and INL, ashore").waitFor();
  assert.match(page.url(), /#states\?.*set=INL%3Din/);
  assert.ok(await set(page, "INL").getByRole("radio", { name: "in", exact: true }).isChecked());
  await press(page, "INL", "out");
  await expect.poll(() => head(page).getByText("2 joins at INV").count()).toBe(0);
  await page
    .getByRole("button", { name: /^Go there ?: INL in/ })
    .first()
    .click();
  await head(page).getByText("INL: 2 joins at INV and INL, ashore").waitFor();
});

test("from the list to the state that fails: the generator's floating neutral is told, and nothing runs out of a phone", async ({
  harness,
}) => {
  const page = await harness.open({ size: "phone" });
  await openExample(page, "hut");
  await goTo(page, /States/);
  await page.getByRole("button", { name: /^danger GEN feeds INV 1 action/ }).click();
  await head(page).getByText("No join on GEN").waitFor();
  await page.getByText(/A fault to a case trips nothing and the case stays live/).waitFor();
  await expect.poll(() => page.locator(".states-svg svg").count()).toBe(1);
  await settled(page);
  await shoot(page, "phone-states-hut");
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.deepEqual([over, await axeFaults(page)], [0, []]);
  for (const box of await page.locator(".states-positions label:visible").all())
    assert.ok(((await box.boundingBox())?.height ?? 0) >= 44);
});
