import { expect } from "vitest";
import assert from "node:assert/strict";
import type { Locator, Page } from "playwright-core";
import { expectNoAxeFaults, inDark, shoot, test, type Harness } from "./harness.ts";
import { goTo, openExample, settled, textOfPlan } from "./steps.ts";

/** A name is typed on the wire desk and read, chosen, converted, put in the plan. */

const field = (page: Page): Locator => page.getByRole("textbox", { name: "What does this name mean?" });
const reading = (page: Page): Locator => page.getByRole("region", { name: "What does this name mean?" });
const part = (page: Page, name: string): Locator => page.getByRole("region", { name, exact: true });

/** The desk without a plan, by an address. */
async function openDesk(harness: Harness, hash: string, opening: Parameters<Harness["open"]>[0] = {}): Promise<Page> {
  const page = await harness.open({ ...opening, path: `#wire-desk${hash}` });
  await field(page).waitFor();
  return page;
}

test("a name is read while it is typed, fact by fact, by keyboard alone", async ({ harness }) => {
  const page = await openDesk(harness, "");
  await field(page).focus();
  await page.keyboard.type("14-2 NM-B", { delay: 0 });
  await reading(page).getByText("2 insulated conductors and a bare ground", { exact: false }).first().waitFor();
  // The fact that has the focus shows the characters that told it.
  const type = reading(page).getByRole("button", { name: /^type/ });
  await type.focus();
  await expect.poll(() => page.locator(".name-piece.name-lit").allInnerTexts()).toEqual(["NM-B"]);
  expect(await type.innerText()).toMatch(/NM-B/);
  await page.locator(".name-piece", { hasText: "14" }).first().hover();
  await expect
    .poll(() => reading(page).locator(".name-fact.name-lit").allInnerTexts())
    .toContainEqual(expect.stringMatching(/^size 14 AWG/));
  // What follows from it stands beside.
  for (const name of ["Cut through", "Its names", "What it carries", "Resistance and drop", "What fits it"])
    await part(page, name).waitFor();
  assert.match(await part(page, "What it carries").innerText(), /Insulation as the label says: 90 °C/);
  await page.getByRole("textbox", { name: /^current for the drop/ }).fill("10");
  await part(page, "Resistance and drop").getByText(/loses/).waitFor();
});

test("a name that can mean several things asks; a choice settles it", async ({ harness }) => {
  const page = await openDesk(harness, "");
  await field(page).fill("12/3");
  await reading(page).getByText("ask: which?").waitFor();
  const choices = reading(page).locator(".name-choice");
  expect(await choices.count()).toBeGreaterThan(1);
  await field(page).press("Enter");
  await expect.poll(() => choices.first().evaluate((node) => node === document.activeElement)).toBe(true);
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await expect.poll(() => field(page).inputValue()).toBe("3-core 12 AWG boat cable");
  await reading(page)
    .getByText(/boat cable$/)
    .first()
    .waitFor();
  // Where it was met narrows it as well, and the reading says so.
  await field(page).fill("12/3");
  await page.getByRole("radio", { name: "a cord" }).check();
  await reading(page)
    .getByText(/^Narrowed by/)
    .waitFor();
  await reading(page)
    .getByText(/flexible cord/)
    .first()
    .waitFor();
});

test("what is no name says why, and markup stays text", async ({ harness }) => {
  const page = await openDesk(harness, "");
  for (const text of ["hello", '<img src=x onerror="document.title=1">', "12-Feb", "x".repeat(300)]) {
    await field(page).fill(text);
    await expect.poll(() => field(page).getAttribute("aria-invalid"), { message: text }).toBe("true");
    await expect.poll(() => page.locator(".name-refused .name-marked").innerText()).toContain(text);
    expect((await page.locator(".name-problems li").first().innerText()).length).toBeGreaterThan(20);
  }
  assert.equal(await page.locator("main img").count(), 0);
  assert.equal(await page.title(), "Wireworthy");
  await page.getByRole("button", { name: "Empty the field" }).click();
  await expect.poll(() => field(page).getAttribute("aria-invalid")).toBe("false");
});

test("a size is converted, not smaller unless the nearest is asked for", async ({ harness }) => {
  const page = await openDesk(harness, "?label=16+mm%C2%B2");
  const convert = part(page, "Convert");
  await convert.getByRole("button", { name: "4 AWG", exact: true }).waitFor();
  await convert.getByRole("button", { name: "nearest" }).click();
  await convert.getByRole("button", { name: "6 AWG", exact: true }).waitFor();
  await convert.getByRole("img", { name: "less metal" }).waitFor();
  await convert
    .getByText(/17 % less area/)
    .first()
    .waitFor();
  await convert.getByRole("combobox", { name: "size system to convert to" }).selectOption("SWG");
  await convert.getByRole("button", { name: /SWG/ }).waitFor();
});

test("a rung of the ladder is a size, by a click and by the arrow keys", async ({ harness }) => {
  const page = await openDesk(harness, "?label=2.5+mm%C2%B2");
  const rung = (name: RegExp): Locator => part(page, "Size ladder").getByRole("button", { name });
  await rung(/^read 4 mm²/).click();
  await expect.poll(() => field(page).inputValue()).toBe("4 mm²");
  await rung(/^read 4 mm²/).focus();
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Enter");
  await expect.poll(() => field(page).inputValue()).toBe("6 mm²");
  await rung(/^read 6 mm²/).focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await expect.poll(() => field(page).inputValue()).toBe("9 AWG");
});

test("the name stands in the address, and is kept", async ({ harness }) => {
  const page = await openDesk(harness, "?label=12%2F3&where=boat&load=20+A&run=7+m");
  assert.equal(await field(page).inputValue(), "12/3");
  assert.ok(await page.getByRole("radio", { name: "a boat" }).isChecked());
  assert.equal(await page.getByRole("textbox", { name: /^load/ }).inputValue(), "20 A");
  await field(page).fill("2/0");
  await expect.poll(() => new URL(page.url()).hash).toMatch(/label=2%2F0&where=boat/);
  await page.goto(page.url().replace(/#.*/, "#wire-desk"));
  await page.reload();
  await expect.poll(() => field(page).inputValue()).toBe("2/0");
});

test("a name asked for in the ask field opens the desk at it", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  await page.keyboard.press("ControlOrMeta+k");
  await page.keyboard.type("3G2.5");
  await page.getByRole("option", { name: /what does `3G2.5` mean/ }).waitFor();
  await page.keyboard.press("Enter");
  await reading(page)
    .getByText(/3 insulated conductors/)
    .first()
    .waitFor();
  assert.equal(await field(page).inputValue(), "3G2.5");
});

test("a name goes into the circuit that is selected, in one step", async ({ harness }) => {
  const page = await harness.open();
  await openExample(page, "sloop");
  await goTo(page, /Wire desk/);
  await field(page).fill("4 mm²");
  await page.getByRole("combobox", { name: "wire of the circuit" }).selectOption("circuits.W13");
  await reading(page).getByRole("button", { name: "Put it in the plan" }).click();
  await page.getByText(/^W13: wire is now 4 mm²/).waitFor();
  await settled(page);
  assert.match(await textOfPlan(page), /^ *W13:.*wire: 4 mm²/m);
  await page.getByRole("button", { name: /^Undo: W13/ }).click();
  assert.doesNotMatch(await textOfPlan(page), /^ *W13:.*wire: 4 mm²/m);
});

test("the sheets print alone, at the size of their paper", async ({ harness }) => {
  const page = await openDesk(harness, "");
  await page.evaluate("globalThis.print = () => { globalThis.asked = true }");
  await page.getByRole("button", { name: "Print: Wall chart, A3" }).click();
  await expect.poll(() => page.evaluate("globalThis.asked")).toBe(true);
  await page.emulateMedia({ media: "print" });
  const printed = page.locator(".sheet-printed svg");
  await printed.waitFor();
  // A3 lies 420 × 297 mm; a browser's millimetre is 96/25.4 of its pixels.
  const box = await printed.boundingBox();
  assert.ok(
    Math.abs((box?.width ?? 0) - (420 * 96) / 25.4) < 1 && Math.abs((box?.height ?? 0) - (297 * 96) / 25.4) < 1,
  );
  assert.equal(await page.locator("main").isVisible(), false);
  await page.evaluate("dispatchEvent(new Event('afterprint'))");
  await page.emulateMedia({ media: "screen" });
  assert.equal(await printed.count(), 0);
  const saved = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as SVG: Wall chart, A3" }).click();
  assert.equal((await saved).suggestedFilename(), "wire-sizes-wall-chart.svg");
});

test("how wire is named is taught beside the desk, which reads what it speaks of", async ({ harness }) => {
  const page = await openDesk(harness, "");
  await page.getByRole("button", { name: "How wire is named" }).click();
  await page.getByRole("region", { name: "How wire is named" }).waitFor();
  await expectNoAxeFaults(page);
  await page.getByRole("button", { name: "Back to the desk" }).click();
  await page.getByRole("heading", { name: "Which wire for this load?" }).waitFor();
});

for (const size of ["desk", "phone"] as const) {
  test(`everybody can read it on a ${size} in light and dark`, async ({ harness }) => {
    const page = await openDesk(harness, "?label=3G2.5", { size });
    const look = async (name: string): Promise<void> => {
      await shoot(page, `name-${name}-${size}-light`);
      await expectNoAxeFaults(page);
      await inDark(page, async () => {
        await shoot(page, `name-${name}-${size}-dark`);
        await expectNoAxeFaults(page, "colours");
      });
    };
    await part(page, "What fits it").waitFor();
    await settled(page);
    await look("exact");
    await field(page).fill("12/3");
    await reading(page).getByText("ask: which?").waitFor();
    await look("ask");
    await field(page).fill("12/O NM");
    await page.locator(".name-refused").waitFor();
    await look("refused");
    for (const scale of ["100%", "200%"]) {
      await page.evaluate((percent) => (document.documentElement.style.fontSize = percent), scale);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      assert.ok(over <= 0, `${over} px too wide at ${scale}`);
    }
  });
}
