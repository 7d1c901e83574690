import type { Browser, BrowserContext, Page } from "playwright-core";

/** Runs in the page: from a key to the first frame that shows the new drawing and the notes that go with it. */
const WATCH = `
let pressed = null;
let tell = null;
globalThis.nextDrawing = () => new Promise((resolve) => { tell = resolve; });
addEventListener("keydown", (event) => { pressed = event.timeStamp; }, { capture: true });
const painted = new MessageChannel();
painted.port1.onmessage = () => {
  if (pressed === null || tell === null) return;
  tell(performance.now() - pressed);
  pressed = tell = null;
};
new MutationObserver((changes) => {
  // The message comes after the frame that the drawing is in.
  if (changes.length > 0) requestAnimationFrame(() => { painted.port2.postMessage(null); });
}).observe(document, { attributeFilter: ["data-revision"], subtree: true });
`;

/** Watches every page of a profile that is opened from now on; see {@link timeKeys}. */
export async function watchKeys(context: BrowserContext): Promise<void> {
  await context.addInitScript(WATCH);
}

/**
 * Types digits into a length of the plan, in the text beside the sheet, each when the drawing of the one before is on the screen.
 *
 * @param circuit whose length stands in its line: `W13`
 * @returns ms from each key to the frame that shows its drawing
 */
export async function timeKeys(page: Page, circuit: string, keys: number): Promise<number[]> {
  const beside = page.getByRole("complementary", { name: "Text beside the sheet" });
  // Selected on the drawing, it comes into sight in the text.
  await page.locator(`.drawing-host [data-path="circuits.${circuit}"] text`, { hasText: circuit }).first().click();
  await page.locator(`[data-main="circuits.${circuit}"]`).focus();
  if ((await beside.count()) === 0) await page.keyboard.press("t");
  const line = beside.locator(".cm-line").filter({ hasText: new RegExp(`^\\s*${circuit}:`) });
  await line.click();
  const text = (await line.textContent()) ?? "";
  const figure = /length: [\d.]+/.exec(text);
  if (figure === null) throw new Error(`no length in: ${text}`);
  await page.keyboard.press("End");
  for (let left = text.length - figure.index - figure[0].length; left > 0; left--)
    await page.keyboard.press("ArrowLeft");
  const times: number[] = [];
  for (let k = 0; k < keys; k++) {
    const drawn = page.evaluate<number>("nextDrawing()");
    await page.keyboard.press(k % 2 === 0 ? "3" : "Backspace");
    times.push(await drawn);
  }
  return times;
}

interface FirstLoad {
  /** First thing that can be seen, ms. */
  readonly paint: number;
  /** The drawing stands, ms. */
  readonly drawn: number;
}

/** Opens an address in a browser that has never seen it. */
export async function timeFirstLoad(browser: Browser, address: string): Promise<FirstLoad> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    await page.goto(address);
    await page.locator(".drawing-host svg").waitFor({ state: "attached" });
    return await page.evaluate<FirstLoad>(
      `({ paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN, drawn: performance.now() })`,
    );
  } finally {
    await context.close();
  }
}
