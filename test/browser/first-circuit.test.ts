import { expect } from "vitest";
import assert from "node:assert/strict";
import { countActions, shoot, test } from "./harness.ts";
import { drawn, isThere, margin, textOfPlan, waitForDesk } from "./steps.ts";

/** From an empty page to a checked circuit. */

test("a first circuit from nothing takes eight actions and less than two minutes", async ({ harness }) => {
  const page = await harness.open();
  const hands = countActions(page);
  const asked = (name: RegExp) => page.getByRole("group", { name }).getByRole("button");
  await hands.click(asked(/What is it\?/).filter({ hasText: "boat" }));
  await hands.click(asked(/What is there already\?/).filter({ hasText: "nothing yet" }));
  await hands.typeInto(page.getByRole("textbox", { name: /^battery/ }), "LiFePO4 12 V 200 Ah");
  await hands.click(asked(/shore/).filter({ hasText: "none" }));
  await hands.key("Enter"); // the rules of the country, kept
  await hands.typeInto(page.getByRole("textbox", { name: /^first load/ }), "fridge 45 W, start 8 A, 3 m");
  await waitForDesk(page);
  await isThere(drawn(page, "parts.fridge"));
  // Size, device and what is to be said of it stand there.
  await expect.poll(() => page.getByRole("main").textContent()).toMatch(/mm²/);
  await margin(page).waitFor();
  await shoot(page, "first-circuit");
  // A person takes about four seconds to read and answer a question, and twelve to type a sentence.
  const seconds = 4 * (hands.count() - 2) + 12 * 2;
  assert.ok(hands.count() <= 8, `${hands.count()} actions`);
  assert.ok(seconds < 120);
  const text = await textOfPlan(page);
  assert.match(text, /^wireworthy: 1$/m);
  for (const said of [/LFP|LiFePO4/, /200 Ah/, /45 W/, /8 A/, /3 m\b/, /iso-small-craft/]) assert.match(text, said);
});
