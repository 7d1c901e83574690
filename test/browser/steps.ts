import { expect } from "vitest";
import type { Locator, Page } from "playwright-core";

/** What journeys have in common: how a person gets at things on the page, by role and name. */

export type ExampleName = "sloop" | "van" | "hut" | "sloop-us" | "sloop-audit";

const EXAMPLES: Readonly<Record<ExampleName, RegExp>> = {
  sloop: /^Open the sloop$/,
  van: /^Expedition van/,
  hut: /^Alpine hut/,
  "sloop-us": /^by US rules$/,
  "sloop-audit": /^as found, to be checked$/,
};

export const exampleButton = (page: Page, name: ExampleName): Locator =>
  page.getByRole("button", { name: EXAMPLES[name] });

/** From Start to an example on the desk, drawn and judged. */
export async function openExample(page: Page, name: ExampleName): Promise<void> {
  await exampleButton(page, name).click();
  await waitForDesk(page);
}

/** A plan is open: drawn, its notes in the margin; on a phone its cards. */
export async function waitForDesk(page: Page): Promise<void> {
  await page.getByRole("navigation", { name: "Sheets" }).waitFor();
  const isPhone = (page.viewportSize()?.width ?? 0) <= 700;
  // A straight line has no height, and so counts as hidden: it is enough that it is there.
  if (!isPhone) await things(page).first().waitFor({ state: "attached" });
}

/** What is drawn. Roles of the graphics module are none that the driver knows by name. */
export const things = (page: Page): Locator => page.locator('[role="graphics-symbol"]');

/** A thing that is drawn, by what a reader hears of it. */
export const thing = (page: Page, says: RegExp): Locator =>
  page.locator('[role="graphics-symbol"]').and(page.getByLabel(says)).first();

/** A thing that is drawn, by its place in the plan: `circuits.W13`. */
export const drawn = (page: Page, about: string): Locator => page.locator(`[data-main="${about}"]`);

/** Its symbol, to be clicked. */
export const symbol = (page: Page, about: string): Locator =>
  page.locator(`.drawing-host [data-path="${about}"][data-role="symbol"]`).first();

/** What is there, in sight or not. */
export const isThere = (what: Locator): Promise<void> => what.first().waitFor({ state: "attached" });

export const sheets = (page: Page): Locator => page.getByRole("navigation", { name: "Sheets" });

export const goTo = (page: Page, name: RegExp): Promise<void> => sheets(page).getByRole("button", { name }).click();

export const planLine = (page: Page): Locator =>
  page.getByRole("contentinfo", { name: "Plan line" }).getByRole("textbox");

export const margin = (page: Page): Locator => page.getByRole("complementary", { name: "Notes" });

export const note = (page: Page, title: RegExp): Locator => margin(page).getByRole("article", { name: title });

export const undo = (page: Page): Locator => page.getByRole("button", { name: /^Undo/ });

/** The text of the plan, as the text view shows it. */
export async function textOfPlan(page: Page): Promise<string> {
  await goTo(page, /Text/);
  const editor = page.getByRole("main", { name: "Text of the plan" }).getByRole("textbox");
  await editor.waitFor();
  // All of it, in sight or not: what a person gets by choosing all and copying.
  await editor.press("ControlOrMeta+a");
  await page.evaluate(() => {
    const take = (event: ClipboardEvent): void => {
      Object.assign(globalThis, { copied: event.clipboardData?.getData("text/plain") ?? "" });
    };
    // The clipboard itself belongs to all tests that run at the time.
    document.addEventListener("copy", take, { once: true });
  });
  await editor.press("ControlOrMeta+c");
  const text = await page.evaluate<string>("copied");
  await goTo(page, /One-line/);
  await waitForDesk(page);
  return text;
}

/** Counts of the title block: pass, must, should, cannot tell. */
export async function tally(page: Page): Promise<Readonly<Record<"pass" | "must" | "should" | "cannotTell", number>>> {
  const text = (await page.getByRole("region", { name: "Title block" }).innerText()).replace(/\s+/g, " ");
  const count = (word: string): number => Number(new RegExp(`(\\d+) ${word}`).exec(text)?.[1] ?? "0");
  return { pass: count("pass"), must: count("must"), should: count("should"), cannotTell: count("cannot tell") };
}

/** The answer to the last change stands: nothing is still being worked out. */
export async function settled(page: Page): Promise<void> {
  await expect.poll(() => page.getByText(/^working/).count()).toBe(0);
}
